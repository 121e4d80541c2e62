"""The user's own drawings of a job, [[extra]] and [disc], read as layers and kerf want them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.drawings.disc import DiscDrawing
from platewheel.nesting.drawings.extra import Extra, extra_blank, read_extras
from platewheel.nesting.drawings.layers import DrawingLayer, layer_faults
from platewheel.nesting.drawings.opened import UNITS_MM
from platewheel.nesting.drawings.read import Outline, moved_mark
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import NestingError
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import find_faults
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Point, bounds, moved
from platewheel.parts.geometry.round_hole import round_hole
from platewheel.parts.wheel.hub_disc import DISC, disc_diameter_mm
from platewheel.parts.wheel.own_disc import (
    OFF_MM,
    as_disc,
    as_fitted_faults,
    fit_faults,
    most_gap_mm,
)
from platewheel.parts.wheel.spec import WheelSpec

# Each is held against each other, at each of its turns: 250 small ones took `nest` 45 s and 1.5 GB
MOST_PARTS = 250
Read = list[tuple[Extra, Outline]]


def own_parts(
    table: dict[str, Any], folder: Path, reserved: Collection[str]
) -> tuple[Read, list[Fault]]:
    """The sound [[extra]] tables of a job file with their drawings, and all faults of the rest.

    Faults of [[drawing_layer]] and [cutting] key by key are told elsewhere: while the former has
    any, no drawing is read; while the latter has, none is held against the kerf.
    """
    extras, rows = (_rows(table, name) for name in ("extra", "drawing_layer"))
    if len(extras) > MOST_PARTS:
        allowed = f"at most {MOST_PARTS} [[extra]] in one job; there are {len(extras)}"
        return [], [Fault("extra", len(extras), allowed, "share them out over several jobs")]
    layers, cutting = _layers(rows), _cutting(table)
    drawn, faults = read_extras(extras, folder, reserved, layers, cutting)
    names = {row["name"] for row in extras if isinstance(row, dict) and _is_name(row.get("name"))}
    names |= {DISC.name} if "disc" in table else set()
    faults += layer_faults(rows, names)
    places = _places(table)
    if cutting is not None and cutting.kerf_in_path and layers is not None and not faults:
        for i, (extra, outline) in zip(places, drawn, strict=True):
            faults += (fault.below(f"extra[{i}]") for fault in unfollowed(extra, outline, cutting))
    return drawn, faults


def require_all_read(table: dict[str, Any], drawn: Read, disc: DrawnDisc | None) -> None:
    """Of a job without a fault every drawing is there. Raises: RuntimeError, a fault of ours."""
    if len(drawn) != len(_rows(table, "extra")) or ("disc" in table and disc is None):
        raise RuntimeError("a drawing of [[extra]] or [disc] is neither read nor refused")


def _places(table: dict[str, Any]) -> list[int]:
    """Rows of [[extra]] that are tables."""
    return [i for i, row in enumerate(_rows(table, "extra")) if isinstance(row, dict)]


def _layers(rows: Sequence[Any]) -> list[DrawingLayer] | None:
    sound = all(isinstance(row, dict) and not find_faults(DrawingLayer, row) for row in rows)
    return [DrawingLayer(**row) for row in rows] if sound else None


def _cutting(table: dict[str, Any]) -> Cutting | None:
    given = table.get("cutting", {})
    return Cutting(**given) if isinstance(given, dict) and not find_faults(Cutting, given) else None


def _rows(table: dict[str, Any], name: str) -> Sequence[Any]:
    rows = table.get(name, [])
    return rows if isinstance(rows, list) else []


def _is_name(value: object) -> bool:
    return isinstance(value, str)


def unfollowed(extra: Extra, drawn: Outline, cutting: Cutting) -> Iterator[Fault]:
    """What the writer of cutting files would refuse, told before anything is laid."""
    blank = without_small_holes(extra_blank(extra, drawn), cutting)
    for loop, hole in ((blank.outline, False), *((one, True) for one in blank.holes)):
        try:
            torch_path(loop, cutting.kerf_mm, hole=hole)
        except NestingError as error:
            allowed = f"edges that the kerf can follow; {extra.name}: {error}"
            yield Fault("file", extra.file, allowed, "draw that place wider, or leave it out")


@dataclass(frozen=True)
class DrawnDisc:
    """The disc as drawn, its axis on the origin; `notes` from the reading."""

    spec: DiscDrawing
    blank: Blank
    notes: tuple[str, ...] = ()

    @property
    def warnings(self) -> tuple[str, ...]:
        """What the reading assumed or left out."""
        return tuple(f"{self.spec.file}: {note}" for note in self.notes)


def drawn_disc(table: dict[str, Any], folder: Path) -> tuple[DrawnDisc | None, list[Fault]]:
    """The disc of a job file's table; None where it has none, or faults.

    Faults of its keys one by one, of [wheel] and of [cutting] are told elsewhere: while [wheel] has
    any, the drawing is read and not held against the ring.
    """
    given = table.get("disc")
    if not isinstance(given, dict) or find_faults(DiscDrawing, given):
        return None, []
    row = table.get("wheel")
    wheel = row if isinstance(row, dict) and not find_faults(WheelSpec, row) else None
    spec = WheelSpec(**wheel) if wheel else None
    thick = spec.disc_thickness_mm if spec else 1.0
    drawing = DiscDrawing(**given)
    values = drawing.model_dump() | {"name": DISC.name, "thickness_mm": thick, "count": 1}
    read, faults = _read_as_extra(values, folder, table)
    faults = [replace(fault, key="disc.file") for fault in faults]
    vents = spec.vent_count if spec else 0
    if vents:
        allowed = "0 beside [disc]: the openings of the drawing are all there are"
        told = None if wheel is None else wheel.get("vent_count")
        faults.append(Fault("wheel.vent_count", told, allowed, "vent_count = 0"))
    if read is None or spec is None:
        return None, faults
    extra, outline = read
    drawn = extra_blank(extra, outline)
    axis = _axis(drawn)
    blank = as_disc(_moved(drawn, axis))
    unfit = {one.key: one for one in (*fit_faults(spec, blank), *as_fitted_faults(spec, blank))}
    at = (outline.origin[0] + axis[0], outline.origin[1] + axis[1])
    told = dict.fromkeys(_told(fault, drawing.file, blank, at) for fault in unfit.values())
    faults += _of_another_unit(blank, spec, outline.unit_mm, drawing.file) or told
    return (None if faults else DrawnDisc(drawing, blank, outline.notes)), faults


def _told(fault: Fault, file: str, disc: Blank, axis: Point) -> Fault:
    """A fault of the drawn disc as one of the key that names the drawing; holes by their place in
    it, mm, as its axis lies there."""
    place, number = fault.key.partition(".")[2], fault.value
    if place.startswith("holes["):
        x0, y0, x1, y1 = bounds(disc.holes[int(place[6:-1])])
        x, y = axis[0] + (x0 + x1) / 2, axis[1] + (y0 + y1) / 2
        place = f"hole about ({x:.6g}, {y:.6g}) mm"
    found = f"{number:.6g}" if isinstance(number, float) else number
    has = "have" if place == "holes" else "has"
    return Fault("disc.file", file, f"{fault.allowed}; its {place} {has} {found}", fault.advice)


def _of_another_unit(disc: Blank, wheel: WheelSpec, unit_mm: float, file: str) -> list[Fault]:
    """A rim that would fit in another unit than the drawing was read in: all else follows."""
    found = disc.sizes.get("diameter_mm")
    if found is None:
        return []
    wanted = disc_diameter_mm(wheel, "field")
    for unit, mm in UNITS_MM.items():
        if mm != unit_mm and abs(found * mm / unit_mm - wanted) <= 2 * most_gap_mm(wheel):
            allowed = (
                f"a rim of {wanted:.6g} mm; read in units of {unit_mm:g} mm it has {found:.6g}"
            )
            return [Fault("disc.file", file, allowed, f'unit = "{unit}" in [disc]')]
    return []


def _axis(blank: Blank) -> Point:
    """The middle of its rim, wherever it was drawn; of one that is not round the middle of its
    bounds, for its other faults."""
    rim = round_hole(blank.outline, OFF_MM)
    x0, y0, x1, y1 = bounds(blank.outline)
    return rim.centre if rim else ((x0 + x1) / 2, (y0 + y1) / 2)


def _moved(blank: Blank, axis: Point) -> Blank:
    """The blank with this place on the origin."""
    x, y = axis
    return replace(
        blank,
        outline=moved(blank.outline, -x, -y),
        holes=tuple(moved(hole, -x, -y) for hole in blank.holes),
        marks=tuple(moved_mark(mark, -x, -y) for mark in blank.marks),
    )


def _read_as_extra(
    values: dict[str, Any], folder: Path, table: dict[str, Any]
) -> tuple[tuple[Extra, Outline] | None, list[Fault]]:
    """The disc read as a part of the user's own is, beside layers and kerf, and its faults."""
    layers, cutting = _layers(_rows(table, "drawing_layer")), _cutting(table)
    read, faults = read_extras([values], folder, (), layers, cutting)
    if read and not faults and cutting is not None and cutting.kerf_in_path:
        faults += unfollowed(*read[0], cutting)
    return (read[0] if read else None), faults
