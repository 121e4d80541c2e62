"""A closed path begun where the torch begins, or in the cut of a neighbour."""

from __future__ import annotations

import math

from platewheel.nesting.geometry.gaps import segment_gap
from platewheel.nesting.geometry.ring import Ring, Spot, ring_length, stretch
from platewheel.nesting.geometry.trim import between
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Segment, arc_pieces


def begun_at(ring: Ring, spot: Spot) -> Ring:
    """The closed path begun at a spot; a circle as two half turns."""
    circle, first = as_circle(ring), ring[0]
    if isinstance(circle, Circle) and isinstance(first, Arc):
        (x, y), (px, py) = circle.centre, spot.point
        turn = math.copysign(360.0, first.sweep_deg)
        angle = math.degrees(math.atan2(py - y, px - x))
        return arc_pieces(Arc(circle.centre, circle.radius_mm, angle, turn))
    return stretch(ring, spot.along_mm, spot.along_mm + ring_length(ring))


def as_circle(ring: Ring) -> Loop:
    """A circle that was taken apart, whole again; other paths as they are."""
    first = ring[0]
    if not isinstance(first, Arc):
        return ring
    turn = 0.0
    for arc in ring:
        if not isinstance(arc, Arc) or arc.centre != first.centre:
            return ring
        if arc.radius_mm != first.radius_mm:
            return ring
        turn += arc.sweep_deg
    return Circle(first.centre, first.radius_mm) if abs(turn) > 359.999 else ring


def other_sides(ring: Ring, before: Ring) -> Ring:
    """A torch path without the line that it shares with the path of the strip cut before.

    Its rounded corners begin and end on that line: the torch starts and ends in an open kerf.
    """
    k = min(range(len(ring)), key=lambda k: _middle_off(ring[k], before))
    return (*ring[k + 1 :], *ring[:k])


def _middle_off(side: Segment, before: Ring) -> float:
    if not isinstance(side, Line):
        return math.inf  # the round of a corner
    middle = between(side, 0.5, 0.5 + 1e-6)
    return min(segment_gap(middle, other) for other in before)
