"""Curves drawn as many short lines, read as arcs again. mm."""

from __future__ import annotations

import math
from typing import Any

from platewheel.nesting.drawings.closed_loops import Corner, loop_of
from platewheel.nesting.drawings.curve_arcs import Traced, arcs_of
from platewheel.parts.geometry.outline import Circle, Line, Loop

CORNER = math.radians(15)  # lines that turn more meet in a true corner
LONG = 10  # a line so many times as long as the middle one is a straight edge


def by_arcs(loop: Loop) -> Loop:
    """A loop of lines alone by arcs within `CURVE_MM` of them, its corners kept; others as they
    are."""
    import numpy as np

    if isinstance(loop, Circle) or not all(isinstance(edge, Line) for edge in loop):
        return loop
    places = np.array([complex(*edge.start) for edge in loop])
    after = np.roll(places, -1) - places
    before = np.roll(after, 1)
    turn = np.abs(np.angle(after * before.conj()))
    sharp = turn > CORNER
    straight = abs(after) > LONG * np.median(abs(after))
    starts = np.flatnonzero(sharp | straight | np.roll(straight, 1)).tolist() or [0]
    corners: list[Corner] = []
    for first, last in zip(starts, [*starts[1:], starts[0] + len(places)], strict=True):
        here = np.arange(first, last + 1) % len(places)
        if len(here) == 2:
            corners.append((float(places[here[0]].real), float(places[here[0]].imag), 0.0))
            continue
        ways = _ways(before[here], after[here])
        if sharp[here[0]]:
            ways[0] = _along(after[here[0]])
        if sharp[here[-1]]:
            ways[-1] = _along(before[here[-1]])
        corners += arcs_of(Traced(places[here], ways))[:-1]
    return loop_of(corners)


def _ways(before: Any, after: Any) -> Any:
    """Direction at a corner: that of the circle through it and both its neighbours, so the shorter
    line counts more."""
    return _along(_along(before) * abs(after) + _along(after) * abs(before))


def _along(way: Any) -> Any:
    return way / abs(way)
