"""How a wheel gets over a rail joint: the gap that it sinks into, the edge that it climbs, the turn
of its path."""

from __future__ import annotations

import math


def step_reach_mm(radius_mm: float, step_mm: float) -> float:
    """How far before a step a wheel touches its edge, (2 r s - s2)^1/2; of a step of its own radius
    or more, the radius. Source: plain geometry."""
    step = min(step_mm, radius_mm)
    return math.sqrt(step * (2 * radius_mm - step))


def gap_drop_mm(radius_mm: float, gap_mm: float) -> float:
    """How far a wheel sinks between two rail ends, r - sqrt(r2 - (g/2)2); r when it falls in.

    Source: plain geometry.
    """
    return radius_mm - math.sqrt(max(radius_mm**2 - (gap_mm / 2) ** 2, 0.0))


def climb_angle(radius_mm: float, step_mm: float, gap_mm: float = 0.0) -> float:
    """From the vertical to the line from the axle to the edge that the wheel must climb, radians.

    A step alone is met at acos((r - s) / r). Beyond a gap wider than its reach the wheel
    first turns over the near rail's end and meets the far edge when both touch it:
    asin(c / 2r) + atan(s / g), c between the edges. A quarter turn when it falls in.
    Source: plain geometry.
    """
    r, s = radius_mm, step_mm
    if s >= r:
        return math.pi / 2
    if gap_mm <= step_reach_mm(r, s):
        return math.acos((r - s) / r)
    between = math.hypot(gap_mm, s)
    if between >= 2 * r:
        return math.pi / 2
    return min(math.asin(between / (2 * r)) + math.atan2(s, gap_mm), math.pi / 2)


def kink(radius_mm: float, step_mm: float, gap_mm: float) -> float:
    """Angle through which a wheel's path turns at a joint, radians; pi / 2 where it falls in.

    A step alone turns it by the angle to its edge. A gap wider than the reach of that lets the
    wheel turn over the near end until it meets the far one: 2 asin(c / 2r), c between the two
    ends. Source: plain geometry.
    """
    between = math.hypot(gap_mm, step_mm)
    if between >= 2 * radius_mm or gap_mm <= step_reach_mm(radius_mm, step_mm):
        return climb_angle(radius_mm, step_mm, gap_mm)
    return min(2 * math.asin(between / (2 * radius_mm)), math.pi / 2)
