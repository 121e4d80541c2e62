"""Straight lead-ins on the scrap side: where the torch pierces and how it runs to the part."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from nesting.gaps import box_gap, loop_gap, segment_gap
from nesting.layout import Layout, Placement
from parts.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    bounds,
    contains,
    polygon,
    segments,
)

LEAST_CLEAR_MM = 0.5  # a pierce needs some room even where the kerf is told as nothing


@dataclass(frozen=True)
class Start:
    """A cut path that begins where its lead ends; `lead` is None where none found room."""

    path: Loop
    lead: Line | None


def hole_start(hole: Circle, lead_mm: float) -> Start:
    """Lead inside a round hole, from the centre outwards, at most its radius long."""
    if lead_mm == 0:
        return Start(hole, None)
    (x, y), radius = hole.centre, hole.radius_mm
    lead = Line((x + max(0.0, radius - lead_mm), y), (x + radius, y))
    return Start(segments(hole), lead)


def short_leads(layout: Layout, lead_mm: float) -> int:
    """Holes of one plate whose lead is shorter than asked, for want of radius."""
    return sum(
        1
        for placement in layout.placements
        for hole in placement.blank.holes
        if isinstance(hole, Circle) and hole.radius_mm < lead_mm
    )


def outline_start(
    placement: Placement, path: Loop, layout: Layout, kerf_mm: float, lead_mm: float
) -> Start:
    """Lead outside an outline, clear of every other part by a kerf and inside the plate."""
    if lead_mm == 0:
        return Start(path, None)
    others = [p.outline for p in layout.placements if p is not placement]
    edges = [polygon(ring) for ring in (layout.sheet.corners, *layout.sheet.holes)]
    reach = lead_mm + kerf_mm
    box = bounds(path)
    near = [loop for loop in others if box_gap(bounds(loop), box) <= reach]
    for begun, lead in _candidates(path, lead_mm):
        if _clear(lead, placement, near, edges, kerf_mm):
            return Start(begun, lead)
    return Start(path, None)


def _clear(
    lead: Line, placement: Placement, near: Sequence[Loop], edges: Sequence[Loop], kerf_mm: float
) -> bool:
    if not contains(edges[0], lead.start) or contains(placement.outline, lead.start):
        return False
    if any(contains(loop, lead.start) for loop in (*near, *edges[1:])):
        return False
    own = min(
        segment_gap(Line(lead.start, _middle(lead)), side) for side in segments(placement.outline)
    )
    if own < 0.4 * lead.length_mm:  # runs along or across its own part
        return False
    clear = max(kerf_mm, LEAST_CLEAR_MM)
    return all(loop_gap((lead,), loop, clear) >= clear for loop in (*near, *edges))


def _middle(line: Line) -> Point:
    return (line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2


def _candidates(path: Loop, lead_mm: float) -> Iterator[tuple[Loop, Line]]:
    """The path begun at places spread along it, with the lead square to it there."""
    ring = segments(path)
    for shares in ((0.5,), (0.25, 0.75), (0.1, 0.4, 0.6, 0.9)):
        for i, segment in enumerate(ring):
            for share in shares:
                before, after = _split(segment, share)
                x, y, out = _outward(after)
                lead = Line((x + lead_mm * out[0], y + lead_mm * out[1]), (x, y))
                yield (after, *ring[i + 1 :], *ring[:i], before), lead


def _split(segment: Segment, share: float) -> tuple[Segment, Segment]:
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        point = (ax + share * (bx - ax), ay + share * (by - ay))
        return Line(segment.start, point), Line(point, segment.end)
    turn = segment.sweep_deg * share
    first = Arc(segment.centre, segment.radius_mm, segment.start_deg, turn)
    second = Arc(
        segment.centre, segment.radius_mm, segment.start_deg + turn, segment.sweep_deg - turn
    )
    return first, second


def _outward(segment: Segment) -> tuple[float, float, Point]:
    """Start of a segment and the direction out of a counter-clockwise outline there."""
    x, y = segment.start
    if isinstance(segment, Line):
        length = segment.length_mm
        dx, dy = segment.end[0] - x, segment.end[1] - y
        return x, y, (dy / length, -dx / length)
    turn = math.radians(segment.start_deg)
    sign = 1.0 if segment.sweep_deg > 0 else -1.0
    return x, y, (sign * math.cos(turn), sign * math.sin(turn))
