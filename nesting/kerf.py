"""Torch paths: a part's outline moved by half the kerf, with true arcs.

Source: half the kerf outward on outlines, inward on holes (plain geometry; a 2 in square cut
uncompensated with a 0.05 in kerf comes out at 1.95 in).
"""

from __future__ import annotations

import math
from dataclasses import replace

from nesting.gaps import loop_gap
from nesting.layout import NestingError
from parts.outline import Arc, Circle, Line, Loop, Point, Segment


def torch_path(loop: Loop, kerf_mm: float, *, hole: bool) -> Loop:
    """Centre line of the cut that leaves the loop as the finished edge; round outer corners.

    The loop runs counter-clockwise. Raises: NestingError for a hole or hollow too small for
    the kerf, and for outlines with inward corners.
    """
    half = kerf_mm / 2
    if half == 0:
        return loop
    if isinstance(loop, Circle):
        radius = loop.radius_mm + (-half if hole else half)
        if not radius > 0:
            raise NestingError(
                f"a hole of {2 * loop.radius_mm:g} mm is no larger than the kerf of {kerf_mm:g} mm"
            )
        return Circle(loop.centre, radius)
    if hole:
        raise NestingError("kerf in the path: holes other than round are not offset")
    moved = [_beside(segment, half) for segment in loop]
    path: list[Segment] = []
    for i, segment in enumerate(moved):
        path.append(segment)
        after = moved[(i + 1) % len(moved)]
        path += _corner(segment.end, loop[i].end, after.start, half)
    if loop_gap(tuple(path), loop, half) < half - 1e-6:
        raise NestingError(
            f"kerf in the path: the outline's mouth is narrower than the kerf of {kerf_mm:g} mm"
        )
    return tuple(path)


def _beside(segment: Segment, half: float) -> Segment:
    """The segment moved to its right, which is outside a counter-clockwise outline."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        length = segment.length_mm
        dx, dy = (by - ay) / length * half, -(bx - ax) / length * half
        return Line((ax + dx, ay + dy), (bx + dx, by + dy))
    radius = segment.radius_mm + (half if segment.sweep_deg > 0 else -half)
    if not radius > 0:
        raise NestingError(
            f"kerf in the path: a hollow of radius {segment.radius_mm:g} mm is too tight"
        )
    return replace(segment, radius_mm=radius)


def _corner(end: Point, corner: Point, start: Point, half: float) -> tuple[Arc, ...]:
    """Arc about a corner from one moved segment to the next; none where they run on smoothly."""
    if math.dist(end, start) < 1e-9:
        return ()
    first = math.degrees(math.atan2(end[1] - corner[1], end[0] - corner[0]))
    last = math.degrees(math.atan2(start[1] - corner[1], start[0] - corner[0]))
    sweep = (last - first) % 360
    if sweep > 180 + 1e-6:
        raise NestingError("kerf in the path: an outline with an inward corner is not offset")
    return (Arc(corner, half, first, sweep),)
