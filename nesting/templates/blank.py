"""A blank drawn on a template: marks first, cut lines last, on top. mm on the canvas."""

from __future__ import annotations

import math
from typing import Any

from platewheel.nesting.stock.small_holes import TOLERANCE_MM, round_hole
from platewheel.nesting.templates.ink import (
    CUT,
    DRILLED,
    MARK,
    draw_drill_centre,
    draw_loop,
    draw_punch_mark,
    draw_segment,
    draw_text,
)
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Point, turned

PUNCH_ARM_MM = 4.0


def draw_blank(canvas: Any, blank: Blank, least_hole_mm: float = 0.0) -> None:
    """The blank in its own coordinates. Round holes below the least are to drill: dotted, their
    centres of another shape than those that are only punched."""
    for mark in blank.marks:
        if isinstance(mark, MarkText):
            dx, dy = turned((0.0, -mark.height_mm / 2), mark.turn_deg)  # baseline to middle
            at = (mark.at[0] + dx, mark.at[1] + dy)
            turn, height = mark.turn_deg, mark.height_mm
            draw_text(canvas, at, mark.text, height, align="centre", turn_deg=turn)
        elif not isinstance(mark, MarkPoint):
            draw_segment(canvas, mark, MARK)
    _draw_centres(canvas, blank, least_hole_mm)
    draw_loop(canvas, blank.outline, CUT)
    for hole in blank.holes:
        circle = round_hole(hole)
        small = circle is not None and 2 * circle.radius_mm < least_hole_mm - TOLERANCE_MM
        draw_loop(canvas, hole, DRILLED if small else CUT)


def _draw_centres(canvas: Any, blank: Blank, least_hole_mm: float) -> None:
    """Marks to punch; each round hole gets its centre, clear of the cut line."""
    punched = {mark.at: PUNCH_ARM_MM for mark in blank.marks if isinstance(mark, MarkPoint)}
    drilled: dict[Point, float] = {}
    for circle in filter(None, map(round_hole, blank.holes)):
        same = [at for at in punched if math.dist(at, circle.centre) < 0.01]
        arm = min(PUNCH_ARM_MM, 0.7 * circle.radius_mm)
        if 2 * circle.radius_mm < least_hole_mm - TOLERANCE_MM:
            for at in same:
                punched.pop(at)
            drilled[circle.centre] = arm
        else:
            punched |= dict.fromkeys(same or [circle.centre], arm)
    for at, arm in punched.items():
        draw_punch_mark(canvas, at, arm)
    for at, arm in drilled.items():
        draw_drill_centre(canvas, at, arm)
