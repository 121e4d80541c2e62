"""The user's own parts, cut along with the wheel's blanks: the job file's [[extra]] tables."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar

from pydantic import Field

from platewheel.nesting.drawings.closed_loops import JOIN_MM
from platewheel.nesting.drawings.drawing_keys import DrawingUnit, FinerThanKerf, JoinTolerance
from platewheel.nesting.drawings.kerf_fit import fitted, notes_of, wrong_of
from platewheel.nesting.drawings.layers import DrawingLayer, uses_for
from platewheel.nesting.drawings.read import Outline, read_outline
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Turns
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.nesting.stock.stock import Steel
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.plain_values import name_rule
from platewheel.parts.base.spec_model import Rule, Spec, find_faults
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, bounds

MOST_FINE = 10_000  # each is measured and filled: a millisecond or two


class Extra(Spec):
    """A part of the user's own, drawn full size in a DXF file."""

    rules: ClassVar[tuple[Rule, ...]] = (name_rule,)

    name: str = Field(
        pattern=r"^[A-Za-z0-9]([A-Za-z0-9._-]{0,38}[A-Za-z0-9_-])?$",
        examples=["bracket"],
        description="a name of its own, not one of the wheel's parts",
        json_schema_extra={
            "takes": "of 1 to 40 letters, digits, '.', '_' or '-', first a letter or digit, no end "
            "in '.'"
        },
    )
    file: str = Field(
        min_length=1,
        max_length=1000,
        examples=["bracket.dxf"],
        description="DXF drawing, its path seen from the job file's folder; what lies on the "
        "layer mark is marked, words too, every other line cut, unless [[drawing_layer]] says "
        "otherwise",
    )
    unit: DrawingUnit = "file"
    join_tolerance_mm: JoinTolerance = JOIN_MM
    finer_than_kerf: FinerThanKerf = False
    thickness_mm: float = Field(gt=0, le=100, examples=[6.0], description="of the plate")
    count: int = Field(ge=1, le=100000, examples=[20], description="how many for the whole job")
    turns: Turns = Field(
        "any",
        description="how it may lie on the sheet: at any angle, by quarter or half turns, as "
        "drawn; half and fixed keep the drawing's x along the sheet's length, as rolled",
    )
    steel: Steel | None = Field(
        None,
        examples=["S235"],
        description="grade of EN 10025-2; absent = the wheel's",
        json_schema_extra={"takes": '"S235" | "S275" | "S355"'},
    )


@dataclass(frozen=True)
class ExtraPart:
    """A part that is wanted besides the wheel's, its drawing read; `notes` from the reading."""

    spec: Extra
    blank: Blank
    steel: str
    notes: tuple[str, ...] = ()

    @property
    def warnings(self) -> tuple[str, ...]:
        """What the reading assumed or left out."""
        return tuple(f"{self.spec.file}: {note}" for note in self.notes)


def read_extras(
    rows: Sequence[object],
    folder: Path,
    reserved: Collection[str] = (),
    layers: Iterable[DrawingLayer] | None = (),
    cutting: Cutting | None = None,
) -> tuple[list[tuple[Extra, Outline]], list[Fault]]:
    """The sound rows of the job's `extra` tables with their drawings, and all faults of the rest.

    `folder` is the job file's, `reserved` are names that a part may not have, `layers` say what
    layers are for; None where that is at fault and no drawing can be read. A drawing is looked at
    even where other keys are at fault; beside the kerf where `cutting` is given.
    """
    read: list[tuple[Extra, Outline]] = []
    faults: list[Fault] = []
    places = 0
    for i, row in enumerate(rows):
        if not isinstance(row, dict):
            continue
        wrong = find_faults(Extra, row)
        bad = {fault.key for fault in wrong}
        if "file" in row and not bad & {"file", "unit", "join_tolerance_mm"} and layers is not None:
            file, unit = row["file"], row.get("unit", "file")
            uses = uses_for(layers, str(row.get("name", "")))
            join_mm = row.get("join_tolerance_mm", JOIN_MM)
            try:
                drawn = read_outline(folder / file, unit, file, join_mm=join_mm, uses=uses)
            except SpecError as error:
                wrong += error.faults
            else:
                if not wrong:
                    extra = Extra(**row)
                    drawn, wrong, found = beside_kerf(extra, drawn, cutting, places)
                    places += found
                    read += [] if wrong else [(extra, drawn)]
        faults += (fault.below(f"extra[{i}]") for fault in wrong)
    return read, faults + list(_name_faults(rows, reserved))


def beside_kerf(
    extra: Extra, drawn: Outline, cutting: Cutting | None, before: int
) -> tuple[Outline, list[Fault], int]:
    """The drawing as the kerf can follow it, what is refused, and how many places are too fine;
    `before`: so many in the drawings before it.

    Holes that are marked to be drilled are no matter of the kerf.
    """
    if cutting is None:
        return drawn, [], 0
    if before > MOST_FINE:
        return (
            drawn,
            [_too_many(extra, f"there are {before} before it, and it is not looked at")],
            0,
        )
    kerf, where = cutting.kerf_mm, (drawn.origin, drawn.unit_mm)
    cut = without_small_holes(extra_blank(extra, drawn), cutting).holes
    drilled = tuple(hole for hole in drawn.holes if hole not in cut)
    found = fitted(drawn.outline, cut, kerf)
    stuck = extra.finer_than_kerf
    refused = found.stuck if stuck else found.fine
    wrong = wrong_of(extra.name, refused, kerf, *where, stuck=stuck)
    faults = [Fault("file", extra.file, allowed, advice) for allowed, advice in wrong]
    count = len(found.fine)
    if before + count > MOST_FINE:
        faults.append(_too_many(extra, f"it has {count}, those before it {before}"))
    if not found.fine or faults:
        return drawn, faults, count
    notes = (*drawn.notes, *notes_of(found.fine, kerf, *where))
    holes = (*found.holes, *drilled)
    return replace(drawn, outline=found.outline, holes=holes, notes=notes), [], count


def _too_many(extra: Extra, there: str) -> Fault:
    allowed = (
        f"at most {MOST_FINE} places finer than the kerf in all drawings; {extra.name}: {there}"
    )
    advice = (
        "draw them as wide as the kerf, leave them out, or share the parts out over several jobs"
    )
    return Fault("file", extra.file, allowed, advice)


def extra_parts(read: Iterable[tuple[Extra, Outline]], wheel_steel: str) -> tuple[ExtraPart, ...]:
    """The parts, of the wheel's steel where they name none."""
    return tuple(
        ExtraPart(extra, extra_blank(extra, drawn), extra.steel or wheel_steel, drawn.notes)
        for extra, drawn in read
    )


def extra_blank(extra: Extra, drawn: Outline) -> Blank:
    """The drawing as a blank, the lower left corner of its bounds on the origin."""
    _, _, length, width = bounds(drawn.outline)
    sizes = {"length_mm": length, "width_mm": width}
    if isinstance(drawn.outline, Circle):
        sizes = {"diameter_mm": 2 * drawn.outline.radius_mm}
    return Blank(
        extra.name, "extra", extra.thickness_mm, drawn.outline, drawn.holes, drawn.marks, sizes
    )


def _name_faults(rows: Sequence[object], reserved: Collection[str]) -> Iterator[Fault]:
    """Names that are taken; files of some systems do not tell capitals apart."""
    seen: set[str] = set()
    for i, row in enumerate(rows):
        name = row.get("name") if isinstance(row, dict) else None
        if not isinstance(name, str):
            continue
        if name.lower() in reserved:
            allowed = "a name that none of the wheel's parts has"
            yield Fault(f"extra[{i}].name", name, allowed, f'name = "own-{name}"')
        elif name.lower() in seen:
            allowed = "a name of its own, capitals or not"
            yield Fault(f"extra[{i}].name", name, allowed, f'name = "{name}-{i + 1}"')
        seen.add(name.lower())
