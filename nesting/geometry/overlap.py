"""How deep two outlines lie in each other: for layouts whose parts may touch. mm.

Each outline is cut where it crosses the other; a piece that lies inside is as deep as its middle
and quarter points are from the other's edge. Exact cuts on lines and arcs, nothing faceted.
"""

from __future__ import annotations

import math
from itertools import pairwise

from platewheel.nesting.geometry.gaps import box_gap, meetings, point_gap, segment_box
from platewheel.nesting.geometry.ring import spot_on
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    contains,
    segments,
)

WITHIN_MM = 0.1


def overlap_depth(a: Loop, b: Loop) -> float:
    """Greatest depth found of either outline inside the other; 0 where they only touch.

    Of outlines that lie one on the other no piece is inside, but a point within is in both.
    """
    depth, point = max(depth_inside(a, b), depth_inside(b, a)), inner_point(a)
    if contains(b, point):
        depth = max(depth, min(point_gap(point, other) for other in segments(b)))
    return depth


def inner_point(loop: Loop) -> Point:
    """A point that lies within the loop, a tenth of a millimetre off its edge or less."""
    if isinstance(loop, Circle):
        x, y = loop.centre
        return x + loop.radius_mm - min(WITHIN_MM, loop.radius_mm / 2), y
    for i in range(len(loop)):
        for side in (WITHIN_MM, -WITHIN_MM):
            point = spot_on(loop, i, 0.5).off(0.0, side)
            if contains(loop, point):
                return point
    return loop[0].start


def depth_inside(inner: Loop, outer: Loop) -> float:
    """Greatest depth found of the inner outline in the outer one."""
    ring = segments(outer)
    boxes = [segment_box(other) for other in ring]
    depth = 0.0
    for segment in segments(inner):
        box = segment_box(segment)
        near = [other for other, b in zip(ring, boxes, strict=True) if box_gap(box, b) == 0.0]
        cuts = sorted({0.0, 1.0, *(_share(segment, p) for o in near for p in meetings(segment, o))})
        for low, high in pairwise(cuts):
            for share in (0.25, 0.5, 0.75):
                point = _at(segment, low + share * (high - low))
                if contains(outer, point):
                    depth = max(depth, min(point_gap(point, other) for other in ring))
    return depth


def _at(segment: Segment, share: float) -> Point:
    if isinstance(segment, Arc):
        return segment.at(segment.start_deg + share * segment.sweep_deg)
    (ax, ay), (bx, by) = segment.start, segment.end
    return ax + share * (bx - ax), ay + share * (by - ay)


def _share(segment: Segment, point: Point) -> float:
    """Place of a point of the segment along it, 0 to 1."""
    if isinstance(segment, Line):
        length = segment.length_mm
        return min(1.0, math.dist(segment.start, point) / length) if length else 0.0
    angle = math.degrees(math.atan2(point[1] - segment.centre[1], point[0] - segment.centre[0]))
    sign = 1 if segment.sweep_deg > 0 else -1
    turn = (angle - segment.start_deg) * sign % 360
    return min(1.0, turn / abs(segment.sweep_deg))
