"""A blank drawn on a template: marks first, cut lines last, on top. mm on the canvas."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from platewheel.nesting.by_hand.cut_outs import cut_outs
from platewheel.nesting.by_hand.hole_ways import ArcWay, HoleTools, HoleWay, arc_ways, hole_ways
from platewheel.nesting.stock.small_holes import TOLERANCE_MM, round_hole
from platewheel.nesting.templates.ink import (
    CUT,
    DRILLED,
    FINE,
    MARK,
    draw_drill_centre,
    draw_loop,
    draw_punch_mark,
    draw_segment,
    draw_text,
)
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Circle, Point, turned

PUNCH_ARM_MM = 4.0
CHAIN_ARM_MM = 1.6


def draw_blank(
    canvas: Any, blank: Blank, least_hole_mm: float = 0.0, tools: HoleTools | None = None
) -> None:
    """The blank in its own coordinates. Round holes below the least are to drill: dotted, their
    centres of another shape than those that are only punched. By hand, with `tools`, so are those
    that saw or drill makes, and chains are drawn hole by hole."""
    for mark in blank.marks:
        if isinstance(mark, MarkText):
            dx, dy = turned((0.0, -mark.height_mm / 2), mark.turn_deg)  # baseline to middle
            at = (mark.at[0] + dx, mark.at[1] + dy)
            turn, height = mark.turn_deg, mark.height_mm
            draw_text(canvas, at, mark.text, height, align="centre", turn_deg=turn)
        elif not isinstance(mark, MarkPoint):
            draw_segment(canvas, mark, MARK)
    drilled = _drilled(blank, least_hole_mm, tools)
    _draw_centres(canvas, blank, drilled)
    if tools is not None:
        _draw_chains(canvas, blank, tools)
    draw_loop(canvas, blank.outline, CUT)
    for hole in blank.holes:
        circle = round_hole(hole)
        draw_loop(canvas, hole, DRILLED if circle and circle.centre in drilled else CUT)


def _drilled(blank: Blank, least_hole_mm: float, tools: HoleTools | None) -> set[Point]:
    """Centres of the round holes that a drill or a hole saw makes."""
    if tools is not None:
        ways = hole_ways(blank, tools)
        return {centre for way in ways if not way.chain for centre in way.centres}
    circles = filter(None, map(round_hole, blank.holes))
    return {c.centre for c in circles if 2 * c.radius_mm < least_hole_mm - TOLERANCE_MM}


def with_chains(blank: Blank, tools: HoleTools | None) -> Blank:
    """The blank with the centres of all chains as spots to punch: what notes keep off."""
    if tools is None:
        return blank
    spots = (MarkPoint(at) for at, _ in _chained(blank, tools))
    return replace(blank, marks=(*blank.marks, *spots))


def _chained(blank: Blank, tools: HoleTools) -> Iterator[tuple[Point, float]]:
    """Centre and drill of each hole of each chain."""
    ways: list[HoleWay | ArcWay] = [*hole_ways(blank, tools), *arc_ways(blank)]
    for way in ways:
        if way.chain:
            yield from ((at, way.chain.drill_mm) for at in way.drilled_centres)
    for one in cut_outs(blank):
        yield from ((at, one.drill_mm) for at in one.drilled_centres)


def _draw_chains(canvas: Any, blank: Blank, tools: HoleTools) -> None:
    """Each hole of each chain: its rim thin, its centre to punch."""
    for at, drill in _chained(blank, tools):
        draw_loop(canvas, Circle(at, drill / 2), FINE)
        draw_punch_mark(canvas, at, CHAIN_ARM_MM)


def _draw_centres(canvas: Any, blank: Blank, to_drill: set[Point]) -> None:
    """Marks to punch; each round hole gets its centre, clear of the cut line."""
    punched = {mark.at: PUNCH_ARM_MM for mark in blank.marks if isinstance(mark, MarkPoint)}
    drilled: dict[Point, float] = {}
    for circle in filter(None, map(round_hole, blank.holes)):
        same = [at for at in punched if math.dist(at, circle.centre) < 0.01]
        arm = min(PUNCH_ARM_MM, 0.7 * circle.radius_mm)
        if circle.centre in to_drill:
            for at in same:
                punched.pop(at)
            drilled[circle.centre] = arm
        else:
            punched |= dict.fromkeys(same or [circle.centre], arm)
    for at, arm in punched.items():
        draw_punch_mark(canvas, at, arm)
    for at, arm in drilled.items():
        draw_drill_centre(canvas, at, arm)
