"""The table of a plate's page: what is on the machine, what is cut, how long it takes."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.cli.job.job import Job
from platewheel.cli.papers.plates.plate import Plate
from platewheel.cli.schema.by_hand import HandRow
from platewheel.cli.schema.report import SheetRow
from platewheel.cli.words.by_hand import hole_words
from platewheel.cli.words.phrases import Name, phrase
from platewheel.cli.words.plates import rack_words
from platewheel.cli.words.values import (
    Count,
    Length,
    Lengths,
    Mass,
    Percent,
    Quantity,
    Raw,
    Run,
    Value,
)
from platewheel.nesting.cutting.cut_speed import SAME_MM, hole_paces
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.small_holes import round_hole
from platewheel.parts.base.units import MM_PER_INCH, Units


@dataclass(frozen=True)
class Speed:
    """Of the torch, as its controller is set."""

    mm_per_min: float

    @property
    def raw(self) -> Raw:
        return self.mm_per_min

    def told(self, units: Units, bare: bool = False) -> str:
        metric = f"{self.mm_per_min:.0f} mm/min"
        return metric if units == "mm" else f"{self.mm_per_min / MM_PER_INCH:.0f} in/min ({metric})"


def figures(job: Job, plate: Plate) -> list[tuple[str, Value]]:
    """Name and value of each line; lengths and minutes are those of report.json."""
    row = plate.row
    size = Lengths((row.width_mm, row.length_mm), " x ", "g")
    heaviest, mass = plate.heaviest
    rows: list[tuple[str, Value]] = [
        ("file", Name(row.file)),
        ("plate", Name(_plate(row))),
        ("width x length", size),
        ("thickness", Length(row.thickness_mm, "g", "rule")),
        ("steel", Name(plate.layout.sheet.steel)),
        ("plates to cut so", Name(f"cut {row.repeat} off")),
        ("parts on it", Count(len(row.placements))),
        *(_by_hand(plate, row.by_hand) if row.by_hand else _by_torch(job, plate)),
        ("mass of the plate", Mass(plate.mass_kg)),
        ("heaviest part", phrase(Mass(mass, ".1f" if mass >= 1 else ".2f"), f", {heaviest}")),
        ("scrap", Percent(row.scrap_percent)),
    ]
    if plate.kept:
        rows.append(("scrap less what is kept", Percent(plate.scrap_after_percent)))
    return rows


def _by_torch(job: Job, plate: Plate) -> list[tuple[str, Value]]:
    row, cutting = plate.row, job.cutting
    return [
        ("pierces", Count(row.pierces or 0)),
        ("length of cut", Run(row.cut_length_mm)),
        ("travel", Run(row.rapid_length_mm or 0.0)),
        *_minutes(job, plate),
        ("process", Name(_process(cutting))),
        (
            "speed",
            phrase(Speed(plate.pace.speed_mm_per_min), f", pierce {plate.pace.pierce_s:g} s"),
        ),
        *_holes(job, plate),
        ("kerf", Length(cutting.kerf_mm, "g")),
        ("lines are", Name(_lines(cutting))),
        ("unit of the file", Name("inch" if cutting.file_units == "in" else "mm")),
        ("lead in", _lead(cutting.lead_in_mm, cutting)),
        ("lead out", _lead(cutting.lead_out_mm, cutting)),
        ("tabs", _tabs(cutting)),
    ]


def _by_hand(plate: Plate, work: HandRow) -> list[tuple[str, Value]]:
    """Metres, holes, discs and minutes of a plate without a torch."""
    speed = Speed(plate.pace.speed_mm_per_min)
    rows: list[tuple[str, Value]] = [
        ("straight cuts", Count(len(work.straight_cuts))),
        ("straight, by grinder or saw", Run(work.straight_mm)),
        ("round, in chords and ground", Run(work.curved_mm)),
        *(("holes", Name(words)) for words in hole_words(work)),
        ("discs of 125 mm, about", Count(work.discs)),
        ("minutes a plate, about", Quantity(plate.row.cutting_minutes, ".0f", "min")),
    ]
    if plate.row.repeat > 1:
        hours = plate.row.repeat * plate.row.cutting_minutes / 60
        rows.append((f"all {plate.row.repeat} plates", Quantity(hours, ".1f", "h")))
    return [
        *rows,
        ("process", Name("by hand")),
        ("speed, straight", phrase(speed, "; round half of it")),
        ("lines are", Name("the finished part: cut outside, grind to it")),
    ]


def _minutes(job: Job, plate: Plate) -> list[tuple[str, Value]]:
    row, setup = plate.row, job.cutting.setup_minutes
    pierce, travel = row.pierce_minutes, row.travel_minutes
    cut = row.cutting_minutes - pierce - travel
    split = Name(f"cut {cut:.1f}, pierce {pierce:.1f}, travel {travel:.1f} min")
    lines: list[tuple[str, Value]] = [
        ("minutes a plate", Quantity(row.cutting_minutes, ".1f", "min")),
        ("of these", split),
    ]
    if row.repeat > 1:
        hours = row.repeat * row.cutting_minutes / 60
        lines.append((f"all {row.repeat} plates", Quantity(hours, ".1f", "h")))
    if setup:
        lines.append(("to set up, each", Quantity(setup, "g", "min")))
    return lines


def _plate(row: SheetRow) -> str:
    if row.offcut:
        return f"offcut {row.stock}"
    return f"{rack_words(row)} (from the rack)" if row.rack else "from stock"


def _holes(job: Job, plate: Plate) -> list[tuple[str, Value]]:
    """Speeds of the round holes on the plate that the chart has rows for."""
    paces = hole_paces(job.cutting, job.cut_speeds, plate.row.thickness_mm)
    blanks = {part.placement.blank for part in plate.parts}
    circles = [c for blank in blanks for c in map(round_hole, blank.holes) if c]
    rows: list[tuple[str, Value]] = []
    least = 0.0
    for size, pace in paces:
        if any(least < 2 * circle.radius_mm <= size + SAME_MM for circle in circles):
            told = phrase(Speed(pace.speed_mm_per_min), f", pierce {pace.pierce_s:g} s")
            rows.append((f"holes up to {size:g} mm", told))
        least = size + SAME_MM
    return rows


def _process(cutting: Cutting) -> str:
    current = "" if cutting.current_a is None else f", {cutting.current_a:g} A"
    return f"{cutting.process}{current}"


def _lines(cutting: Cutting) -> str:
    path, part = "the torch path: offset OFF", "the finished part: offset ON"
    return path if cutting.kerf_in_path else part


def _lead(length_mm: float, cutting: Cutting) -> Value:
    if not length_mm:
        return Name("none in the file")
    return phrase(Length(length_mm, "g"), f", {cutting.lead_shape}")


def _tabs(cutting: Cutting) -> Value:
    if not cutting.tab_count:
        return Name("none")
    return phrase(f"{cutting.tab_count} a part, ", Length(cutting.tab_width_mm, "g"), " wide")
