"""A page a plate, to lie at the machine while it is cut: what a template reads of each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import Plan
from platewheel.cli.papers.drawings.plan.cut_labels import cut_label
from platewheel.cli.papers.drawings.plan.frame import BESIDE_MM, Frame
from platewheel.cli.papers.drawings.plan.numbers import Label, kept_label, part_numbers
from platewheel.cli.papers.drawings.plan.picture import OFF_MM, PlateLines, plate_picture
from platewheel.cli.papers.plates.beside import (
    cautions,
    chalked,
    elsewhere,
    key,
    plates_done,
    ticks,
    warnings,
)
from platewheel.cli.papers.plates.boxes import page_for
from platewheel.cli.papers.plates.figures import figures
from platewheel.cli.papers.plates.legend import legend
from platewheel.cli.papers.plates.plate import Plate, plates_of
from platewheel.cli.words.by_hand import cuts_table
from platewheel.cli.words.phrases import PlateName, phrase
from platewheel.cli.words.values import Length, Size, Value
from platewheel.nesting.by_hand.straight_cuts import in_steel, parted
from platewheel.nesting.cutting.skeleton_cuts import skeleton_cuts
from platewheel.parts.base.units import Units

CUT_WORDS = (
    "Lay the plate as it is drawn. Scribe all lines before the first cut, "
    "from its own left or lower edge, at both ends and the middle: so no error adds up.",
    "Cut in this order, by shears, saw or grinder. A finished edge is not ground back.",
    "What is cut free is chalked with the names on it at once.",
)
AXIS_PT, SIZE_PT = 8.0, 7.0


@dataclass(frozen=True)
class PlatePages:
    """What the template reads of each plate, and the pictures (SVG) by their names in it."""

    pages: Sequence[Mapping[str, object]]
    pictures: Mapping[str, str]


def plate_pages(
    job: Job, plan: Plan, files: Sequence[str], told: Sequence[Sequence[str]]
) -> PlatePages:
    """A page a layout; `told` is what the writer of each file warned of.

    Raises: as `plate_work`.
    """
    pages, pictures = [], {}
    plates = list(plates_of(job, plan, files, told))
    for number, plate in enumerate(plates, 1):
        picture = f"plate-{number}.svg"
        page, pictures[picture] = _page(job, plan, plate)
        pages.append({**page, "picture": picture, "row": f"plate {number} of {len(plates)}"})
    return PlatePages(pages, pictures)


def _page(job: Job, plan: Plan, plate: Plate) -> tuple[dict[str, object], str]:
    """What the template reads of a plate, and its picture."""
    units, layout, cutting = job.paper.units, plate.layout, job.cutting
    page = page_for(layout.sheet, job.paper)
    frame = page.frame
    names = [
        kept_label((piece.told, piece.short), piece.row.outline, piece.row.holes, frame)
        for piece in plate.kept
    ]
    cuts = parted(layout, cutting).cuts if cutting.process == "hand" else ()
    called = [cut_label(cut.number, cut.axis, cut.line, frame) for cut in cuts]
    numbers = part_numbers(plate.parts, frame, [*names, *called])
    grid = skeleton_cuts(layout, cutting, tuple(plan.kept))
    grid += tuple(line for cut in cuts for line in in_steel(cut, layout.sheet))
    lines = PlateLines(
        layout.sheet,
        plate.parts,
        cutting.sheet_margin_mm,
        [ring for piece in plate.kept for ring in (piece.row.outline, *piece.row.holes)],
        grid,
        numbers,
    )

    def say(values: Iterable[Value]) -> list[str]:
        return [value.told(units) for value in values]

    data = {
        **page.data,
        "labels": [*_axes(plate, frame, units), *map(_label, [*names, *called, *numbers])],
        "head": say(_head(plate)),
        "figures": [(name, value.told(units)) for name, value in figures(job, plate)],
        "legend": legend(plate.parts),
        "numbered": "with their numbers" if cuts else "numbered in the order of cutting",
        "key": key(job, plate, grid=bool(grid) and not cuts).told(units),
        "warnings": say(warnings(plate)),
        "shorter": say(warnings(plate, whole=False)),
        "elsewhere": say(elsewhere(plate)),
        "cautions": say(cautions(plate)),
        "chalked": say(chalked(plate)),
        "ticks": say(ticks(job, plate)),
        "done": plates_done(plate),
        "repeat": plate.row.repeat,
        "cuts": _cuts(plate, units),
    }
    return data, plate_picture(lines, frame)


def _cuts(plate: Plate, units: Units) -> dict[str, object] | None:
    """The straight cuts by hand as a table; None where a machine cuts."""
    if plate.row.by_hand is None or not plate.row.by_hand.straight_cuts:
        return None
    rows = cuts_table(plate.row.by_hand)
    return {
        "columns": [{"head": one.head, "align": one.align} for one in rows.columns],
        "rows": list(rows.cells(units)),
        "words": CUT_WORDS,
    }


def _head(plate: Plate) -> Iterable[Value]:
    """The first line: what to load, and what to lay on the machine."""
    row = plate.row
    yield phrase(Path(row.file).name)
    thick = Length(row.thickness_mm, "g", "rule")
    yield phrase(thick, f" {plate.layout.sheet.steel}, ", PlateName(row.stock))
    yield phrase(f"cut {row.repeat} off")


def _label(one: Label) -> dict[str, object]:
    return {
        "text": one.text,
        "x_mm": one.x_mm,
        "y_mm": one.y_mm,
        "size_pt": one.size_pt,
        "turn_deg": one.turn_deg,
        "bold": True,
        "white": one.to is not None,
    }


def _axes(plate: Plate, frame: Frame, units: Units) -> list[dict[str, object]]:
    """Names of the axes, and the plate's size along each."""
    row = plate.row
    x, y = frame.at((0.0, 0.0))
    right, top = frame.at((row.length_mm, row.width_mm))
    along, up = Size(row.length_mm).told(units), Size(row.width_mm).told(units)
    beside = BESIDE_MM - OFF_MM / 2
    sizes = [
        Label("0, 0", x - OFF_MM - 0.5, y + OFF_MM, AXIS_PT - 1),
        Label("x", x + 21, y + OFF_MM, AXIS_PT),
        Label("y", x - OFF_MM, y - 21, AXIS_PT),
        Label(along, max((x + right) / 2, x + 34), y + OFF_MM, SIZE_PT),
        Label(up, x - beside + 2, min((y + top) / 2, y - 32), SIZE_PT, turn_deg=90.0),
    ]
    return [{**_label(one), "bold": False} for one in sizes]
