"""What stands beside the table: cautions, warnings, what to chalk, boxes to tick."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.plan.numbers import centres
from platewheel.cli.papers.html.offcut_words import size_words
from platewheel.cli.papers.plates.plate import Plate
from platewheel.cli.words.phrases import Name, Sentence, phrase
from platewheel.cli.words.plain import plain
from platewheel.cli.words.values import Length, Value
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import MM_PER_INCH

# what one person may lift at best. Source: ISO 11228-1, reference mass 25 kg; from memory
ALONE_KG = 25.0
CAUTIONS = (
    "Fume: extract it or ventilate. Zinc and paint off before the cut, well back from it; a "
    "fitting respirator.",
    "Fire: nothing near that burns, water or extinguisher to hand, look again half an hour after.",
    "Parts are hot and sharp, small ones tip up: gloves, tongs. Eyes: the shade for the process, "
    "for those beside too.",
    "The makers' and the local rules come first.",
)
HAND_CAUTIONS = (
    "Grinder: guard on, both hands, disc for that speed and in date, never twisted in the cut; "
    "stand beside its plane. Face shield over glasses, ears, leather; no loose sleeve.",
    "Clamp the plate so that the cut opens as it goes through; hold up what falls.",
    "Drill and hole saw: clamp the work, no gloves near the spindle, oil, slow down at the end.",
    "Sparks fly 10 m: nothing that burns there, water to hand, look again half an hour after. Zinc "
    "and paint off before the cut.",
    "The makers' and the local rules come first.",
)
MOST_WORDS = 240  # letters of a warning where there is no room for it whole


def cautions(plate: Plate) -> Iterator[Value]:
    """What can hurt someone, the heavy first."""
    name, mass = plate.heaviest
    heavy = [f"the plate, {plate.mass_kg:.0f} kg"] if plate.mass_kg > ALONE_KG else []
    if mass > ALONE_KG:
        heavy.append(f"the heaviest part, {name}, {mass:.0f} kg")
    if heavy:
        yield Name(
            f"Heavy: {' and '.join(heavy)}: more than {ALONE_KG:g} kg is not for one person. Hoist "
            "or help; nobody below."
        )
    yield from map(Name, HAND_CAUTIONS if plate.row.by_hand else CAUTIONS)


def warnings(plate: Plate, whole: bool = True) -> Iterator[Value]:
    """Of this plate's leads, tabs and holes; if not `whole`, long ones end in where to read on."""
    for line in plate.warnings:
        if whole or len(line) <= MOST_WORDS:
            yield Sentence(plain(line))
        else:
            start = plain(line)[:MOST_WORDS].rstrip(" ,")
            yield Sentence(f"{start} ... whole in the report.json of a build")


def elsewhere(plate: Plate) -> Iterator[Value]:
    """Where to read what is too much for the page."""
    if plate.warnings:
        count = len(plate.warnings)
        many = so_many(count, "warning: read it", "warnings: read them")
        yield Name(f"{many} before the cut, in the report.json of a build")
    if plate.kept:
        count = len(plate.kept)
        many = so_many(count, "piece to keep: its name is", "pieces to keep: their names are")
        yield Name(f"{many} in offcuts.toml")


def chalked(plate: Plate) -> Iterator[Value]:
    """The names of what is left, each with its size."""
    for piece in plate.kept:
        yield phrase(f"{piece.told}: ", size_words(piece.row))


def ticks(job: Job, plate: Plate) -> Iterator[Value]:
    """What is looked at before the cut and after it."""
    row, cutting = plate.row, job.cutting
    thick = Length(row.thickness_mm, "g", "rule")
    yield phrase(f"steel {plate.layout.sheet.steel} and thickness ", thick, " checked")
    if row.by_hand:
        yield Name("plate's corner square; all straight cuts scribed from its left and lower edge")
        yield Name("each blank marked out, its name and number chalked on it")
        yield Name("centres punched, holes made, before blanks are cut out")
    else:
        yield Name(_origin(plate))
        if cutting.file_units == "in":
            long, wide = (side / MM_PER_INCH for side in (row.length_mm, row.width_mm))
            yield Name(f"file read in inches: the plate is {long:.2f} by {wide:.2f} on the screen")
        yield _offset(cutting)
        yield Name("test cut good; kerf measured ________")
        yield Name("marks read on the steel")
    yield Name(f"parts counted: {len(row.placements)} a plate")
    if plate.kept:
        yield Name("offcuts chalked and put away")
    else:
        yield Name("nothing to keep: scrap cleared away")


def _origin(plate: Plate) -> str:
    corner = "lower left corner"
    if (0.0, 0.0) not in plate.layout.sheet.corners:
        corner = "lower left corner of the box about it (no steel there)"
    return f"origin set: {corner}, x along the length"


def _offset(cutting: Cutting) -> Value:
    kerf = Length(cutting.kerf_mm, "g")
    if cutting.kerf_in_path:
        return phrase("offset OFF: the kerf of ", kerf, " is in the lines")
    return phrase("offset ON, to the left of the cut, half of ", kerf)


def key(job: Job, plate: Plate, *, grid: bool) -> Value:
    """What the lines of the picture mean, those that are there."""
    cutting = job.cutting
    lines: list[str | Value] = ["Big dot: origin 0, 0."]
    if plate.row.by_hand:
        lines.append(" Dash and dot: straight cut, listed after the plates.")
    if cutting.lead_in_mm:
        lines.append(" Dot: the torch pierces.")
    if cutting.tab_count:
        lines.append(" Thick stroke: tab.")
    if any(True for part in plate.parts for _ in centres(part.placement)):
        lines.append(" Cross: centre to drill or to measure from.")
    if plate.kept:
        lines.append(" Dashed: to keep.")
    if grid:
        lines.append(" Dash and dot: cuts through the rest.")
    margin = Length(cutting.sheet_margin_mm, "g")
    if plate.row.by_hand:
        return phrase(*lines, " Dotted: margin of ", margin, ", no part beyond it.")
    lines += [" Dotted: margin of ", margin, ", no part beyond it: clamp there, clear of cuts and "]
    return phrase(*lines, "leads." if cutting.lead_in_mm or cutting.lead_out_mm else "pierces.")


def plates_done(plate: Plate) -> list[str]:
    """A box for each plate that is cut so, where they can be counted at a glance."""
    repeat = plate.row.repeat
    return [f"{k}" for k in range(1, repeat + 1)] if 1 < repeat <= 20 else []
