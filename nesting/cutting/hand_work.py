"""What a plate takes by hand: metres straight and round, holes, discs, minutes.

By angle grinder with thin discs; common practice, no source, where none is named.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.nesting.by_hand.cut_outs import cut_outs
from platewheel.nesting.by_hand.hole_ways import (
    LEAST_LEFT_MM,
    HoleTools,
    HoleWay,
    How,
    arc_ways,
    hole_ways,
)
from platewheel.nesting.by_hand.straight_cuts import StraightCut, in_steel, parted
from platewheel.nesting.cutting.cut_speed import CutSpeed, pace
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Line, Loop, length_mm, segments
from platewheel.parts.geometry.round_hole import round_hole

DISC_MM2 = 8000.0  # of steel that one disc of 125 x 1 mm parts: 5000 to 12000
ROUND_SLOWER = 2.0  # chords beside a round line, then ground to it
# minutes of one hole, marked, punched and drilled, in 8 mm of plate: 20 to 40 s in a chain
CHAIN_HOLE_MIN, DRILL_MIN, AT_MM = 0.5, 1.0, 8.0
# 44 mm took 2 minutes at the right speed. Source: a report in a users' forum; taken for 6 mm
SAW_MIN, SAW_MM, SAW_AT_MM = 2.0, 44.0, 6.0


@dataclass(frozen=True)
class HoleCount:
    """Holes made one way with one tool, on a plate; `chain_holes`: drilled for them in all."""

    how: How
    diameter_mm: float
    tool_mm: float
    count: int
    chain_holes: int


@dataclass(frozen=True)
class HandWork:
    """One plate: lengths in mm, minutes in all."""

    straight_mm: float
    curved_mm: float
    holes: tuple[HoleCount, ...]
    arc_chain_holes: int
    discs: int
    minutes: float
    straight_cuts: int

    @property
    def cut_length_mm(self) -> float:
        return self.straight_mm + self.curved_mm


def hand_work(
    layout: Layout,
    cutting: Cutting,
    speeds: Sequence[CutSpeed] = (),
    tools: HoleTools | None = None,
) -> HandWork:
    """Work of one plate. Straight: the cuts between blanks, and the straight edges that none of
    them has finished. Round: outlines' outer arcs, and what chains, saws and drills leave inside
    the line, ground away.

    Raises: SpecError where `speeds` do not reach the thickness.
    """
    thick, tools = layout.sheet.thickness_mm, tools or HoleTools()
    at = pace(cutting, speeds, thick)
    cuts = parted(layout, cutting).cuts
    runs = [line for cut in cuts for line in in_steel(cut, layout.sheet)]
    straight = math.fsum(line.length_mm for line in runs)
    straight += math.fsum(_not_done(p.outline, cuts) for p in layout.placements)
    curved, arc_holes, minutes = 0.0, 0, 0.0
    made: Counter[tuple[How, float, float, int]] = Counter()
    for name, count in layout.counts.items():
        blank = next(p.blank for p in layout.placements if p.blank.name == name)
        own = _blank_work(blank, tools)
        curved += count * own.curved_mm
        straight += count * own.cut_outs_mm
        arc_holes += count * own.arc_holes
        minutes += count * own.arc_holes * CHAIN_HOLE_MIN * thick / AT_MM
        for way in own.ways:
            key = (way.how, way.diameter_mm, way.tool_mm, way.chain.count if way.chain else 0)
            made[key] += count * way.count
            minutes += count * way.count * _hole_minutes(way, thick)
    minutes += straight / at.speed_mm_per_min + curved * ROUND_SLOWER / at.speed_mm_per_min
    return HandWork(
        straight,
        curved,
        tuple(HoleCount(*key[:3], n, n * key[3]) for key, n in sorted(made.items())),
        arc_holes,
        math.ceil((straight + curved) * thick / DISC_MM2 - 1e-9),
        minutes,
        len(cuts),
    )


def all_work(each: Sequence[tuple[int, HandWork]]) -> HandWork:
    """Work of many plates, each so many times."""
    counts: Counter[tuple[How, float, float]] = Counter()
    chained: Counter[tuple[How, float, float]] = Counter()
    for times, work in each:
        for row in work.holes:
            key = (row.how, row.diameter_mm, row.tool_mm)
            counts[key] += times * row.count
            chained[key] += times * row.chain_holes
    return HandWork(
        math.fsum(n * work.straight_mm for n, work in each),
        math.fsum(n * work.curved_mm for n, work in each),
        tuple(HoleCount(*key, counts[key], chained[key]) for key in sorted(counts)),
        sum(n * work.arc_chain_holes for n, work in each),
        sum(n * work.discs for n, work in each),
        math.fsum(n * work.minutes for n, work in each),
        sum(n * work.straight_cuts for n, work in each),
    )


@dataclass(frozen=True)
class _BlankWork:
    curved_mm: float
    cut_outs_mm: float  # edges of cut-outs that are not round
    arc_holes: int  # of chains along hollow arcs and round cut-outs
    ways: tuple[HoleWay, ...]


def _blank_work(blank: Blank, tools: HoleTools) -> _BlankWork:
    ways = hole_ways(blank, tools)
    ground = [way for way in ways if way.chain or way.left_mm > LEAST_LEFT_MM]
    curved = math.fsum(s.length_mm for s in segments(blank.outline) if not isinstance(s, Line))
    curved += math.fsum(math.pi * way.diameter_mm * way.count for way in ground)
    inside = math.fsum(length_mm(hole) for hole in blank.holes if round_hole(hole) is None)
    arcs = sum(way.chain.count for way in arc_ways(blank))
    arcs += sum(len(one.drilled_centres) for one in cut_outs(blank))
    return _BlankWork(curved, inside, arcs, ways)


def _hole_minutes(way: HoleWay, thickness_mm: float) -> float:
    if way.chain:
        return way.chain.count * CHAIN_HOLE_MIN * thickness_mm / AT_MM
    if way.how == "hole saw":
        return SAW_MIN * way.tool_mm / SAW_MM * thickness_mm / SAW_AT_MM
    return DRILL_MIN * thickness_mm / AT_MM


def _not_done(outline: Loop, cuts: Sequence[StraightCut]) -> float:
    """Straight edges of an outline that no straight cut runs beside."""
    lines = [s for s in segments(outline) if isinstance(s, Line)]
    return math.fsum(s.length_mm for s in lines if not any(_beside(s, cut) for cut in cuts))


def _beside(edge: Line, cut: StraightCut) -> bool:
    """Whether an edge is the one that a cut finishes: half a kerf off its middle, in its span."""
    along = 1 - cut.axis
    off = [abs(end[cut.axis] - cut.middle_mm) for end in (edge.start, edge.end)]
    span = cut.start_mm - 0.01, cut.end_mm + 0.01
    inside = [span[0] <= end[along] <= span[1] for end in (edge.start, edge.end)]
    half = abs(cut.line_mm - cut.middle_mm)
    return half > 0 and all(abs(gap - half) < 0.01 for gap in off) and all(inside)
