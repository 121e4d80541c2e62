"""How long the cutting takes: length over speed, pierces, and travel between cuts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from platewheel.nesting.by_hand.hole_ways import HoleTools
from platewheel.nesting.cutting.cut_order import HOME
from platewheel.nesting.cutting.cut_speed import CutSpeed, Pace, hole_pace, pace
from platewheel.nesting.cutting.hand_work import hand_work
from platewheel.nesting.cutting.part_cuts import Cut, PartCuts, sheet_cuts
from platewheel.nesting.cutting.parting_cuts import parting_cuts
from platewheel.nesting.cutting.skeleton_cuts import skeleton_cuts
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.small_holes import round_hole
from platewheel.parts.geometry.outline import Point, length_mm


@dataclass(frozen=True)
class CuttingWork:
    """Cutting of one plate or of many: length of cut, pierces, travel, hours; hours of setting up
    the plates; and the price of both. `pierce_hours` and `travel_hours` are part of `hours`."""

    cut_length_mm: float
    pierces: int
    rapid_length_mm: float
    hours: float
    price: float
    setup_hours: float = 0.0
    pierce_hours: float = 0.0
    travel_hours: float = 0.0


def cutting_work(
    layouts: Sequence[Layout],
    cutting: Cutting,
    speeds: Sequence[CutSpeed] = (),
    kept: Sequence[Remnant] = (),
    tools: HoleTools | None = None,
) -> CuttingWork:
    """Work of all plates, repeats counted. Raises: as `plate_work`."""
    each = [(lay.repeat, plate_work(lay, cutting, speeds, kept, tools)) for lay in layouts]
    return CuttingWork(
        math.fsum(n * work.cut_length_mm for n, work in each),
        sum(n * work.pierces for n, work in each),
        math.fsum(n * work.rapid_length_mm for n, work in each),
        math.fsum(n * work.hours for n, work in each),
        math.fsum(n * work.price for n, work in each),
        math.fsum(n * work.setup_hours for n, work in each),
        math.fsum(n * work.pierce_hours for n, work in each),
        math.fsum(n * work.travel_hours for n, work in each),
    )


def plate_work(
    layout: Layout,
    cutting: Cutting,
    speeds: Sequence[CutSpeed] = (),
    kept: Sequence[Remnant] = (),
    tools: HoleTools | None = None,
) -> CuttingWork:
    """Work of one plate: every run of the cutting file, with its leads, each with its pierce.

    Travel is from the plate's lower left corner straight to each run in turn, and not back; after
    the parts come the cuts that part what is kept, then those through the left-over grid. By hand
    there are neither pierces nor travel: as `hand_work`, with the shop's `tools`.
    Raises: SpecError where `speeds` do not reach the thickness; NestingError as `sheet_cuts`
    and `parting_cuts`.
    """
    setup = cutting.setup_minutes / 60
    if cutting.process == "hand":
        by_hand = hand_work(layout, cutting, speeds, tools)
        hours = by_hand.minutes / 60
        price = (hours + setup) * cutting.price_per_h
        return CuttingWork(by_hand.cut_length_mm, 0, 0.0, hours, price, setup)
    at = pace(cutting, speeds, layout.sheet.thickness_mm)
    parts = sheet_cuts(layout, cutting).parts
    cuts = [cut for part in parts for cut in part.cuts]
    cuts += parting_cuts(layout, cutting, tuple(kept)).cuts
    lines = skeleton_cuts(layout, cutting, tuple(kept))
    runs = [(_begin(cut), _end(cut)) for cut in cuts] + [(line.start, line.end) for line in lines]
    length = math.fsum([*map(_length_mm, cuts), *(line.length_mm for line in lines)])
    ends = [HOME, *(end for _, end in runs)]
    rapid = math.fsum(math.dist(here, begin) for here, (begin, _) in zip(ends, runs, strict=False))
    longer = [both for part in parts for both in _longer_h(part, cutting, speeds, at)]
    cut = length / at.speed_mm_per_min / 60 + math.fsum(more for more, _ in longer)
    pierce = len(runs) * at.pierce_s / 3600 + math.fsum(more for _, more in longer)
    travel = rapid / cutting.rapid_mm_per_min / 60
    hours = cut + pierce + travel
    price = (hours + setup) * cutting.price_per_h
    return CuttingWork(length, len(runs), rapid, hours, price, setup, pierce, travel)


def _longer_h(
    part: PartCuts, cutting: Cutting, speeds: Sequence[CutSpeed], at: Pace
) -> Iterator[tuple[float, float]]:
    """Hours that each round hole of a part takes over the pace of all else: cut, and pierced."""
    if all(row.hole_up_to_mm is None for row in speeds):
        return
    blank = part.placement.blank  # its holes are cut first, in their order
    for cut, hole in zip(part.cuts, blank.holes, strict=False):
        circle = round_hole(hole)
        if circle is not None:
            own = hole_pace(cutting, speeds, blank.thickness_mm, 2 * circle.radius_mm)
            per_mm = 1 / own.speed_mm_per_min - 1 / at.speed_mm_per_min
            yield _length_mm(cut) * per_mm / 60, (own.pierce_s - at.pierce_s) / 3600


def _length_mm(cut: Cut) -> float:
    leads = (lead.length_mm for lead in (cut.lead_in, cut.lead_out) if lead)
    return length_mm(cut.path) + math.fsum(leads)


def _begin(cut: Cut) -> Point:
    return cut.begin


def _end(cut: Cut) -> Point:
    return cut.end
