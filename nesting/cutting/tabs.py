"""Tabs: bridges left round an outline that hold the part in the sheet until it is broken out.

The cut is left open for the bridge and a kerf, so that the bridge of steel has its full width.
Tabs are spread evenly, away from corners (common practice, no source).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.geometry.ring import Ring, heading, ring_length, spot_at, stretch
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.geometry.outline import Arc, Line, Loop, reversed_loop, segments

CORNER_DEG = 10.0  # a path that turns more at once has a corner there
LEAST_PIECE = 2.0  # a cut between two tabs is at least so many times as long as the opening
ROOMS = (2.0, 0.6)  # from a tab's middle to a corner, in openings: well away, or just clear
PHASES = (0.0, 0.25, 0.5, 0.75)  # by which the tabs are moved on, in shares of their distance


def opening_mm(cutting: Cutting) -> float:
    """Length left out of the cut for one tab: the steel of the bridge and half a kerf each side."""
    return cutting.tab_width_mm + cutting.kerf_mm


def outline_ring(blank_outline: Loop, cutting: Cutting) -> Ring:
    """Path that cuts an outline, clockwise. Raises: NestingError, as `torch_path`."""
    kerf = cutting.kerf_mm if cutting.kerf_in_path else 0.0
    return segments(reversed_loop(segments(torch_path(blank_outline, kerf, hole=False))))


def tab_spots(ring: Ring, cutting: Cutting, phase: float = 0.0) -> tuple[float, ...]:
    """Middles of the tabs, as lengths along the path: as many as are wanted, or as fit."""
    for count in range(cutting.tab_count, 0, -1):
        spots = _spread(ring, count, opening_mm(cutting), phase)
        if spots is not None:
            return spots
    return ()


def _spread(ring: Ring, count: int, opening: float, phase: float) -> tuple[float, ...] | None:
    """So many tabs, each moved to the nearest place without a corner; None where one has none."""
    total = ring_length(ring)
    step, apart = total / count, (1 + LEAST_PIECE) * opening
    if step < apart:
        return None
    bends = _bends(ring, opening)
    most = (step - apart) / 2  # so that neighbours never come too near each other
    found = []
    for i in range(count):
        wanted = (i + 0.5 + phase) * step
        tries = [wanted + sign * most * k / 16 for k in range(17) for sign in (1, -1)]
        place = next(
            (s for room in ROOMS for s in tries if _clear_of(s, room * opening, bends, total)),
            None,
        )
        if place is None:
            return None
        found.append(place % total)
    return tuple(sorted(found))


def _bends(ring: Ring, opening: float) -> list[tuple[float, float]]:
    """Stretches that are corners: sharp ones, and arcs tighter than the opening."""
    bends, begun = [], 0.0
    for i, segment in enumerate(ring):
        (ax, ay), (bx, by) = heading(ring[i - 1], 1.0), heading(segment, 0.0)
        turn = math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by))
        if abs(turn) > CORNER_DEG:
            bends.append((begun, begun))
        tight = isinstance(segment, Arc) and segment.radius_mm < opening
        if tight and abs(getattr(segment, "sweep_deg", 0.0)) > CORNER_DEG:
            bends.append((begun, begun + segment.length_mm))
        begun += segment.length_mm
    return bends


def _clear_of(
    place: float, room: float, bends: Sequence[tuple[float, float]], total: float
) -> bool:
    return all(
        place + room + turn <= low or place - room + turn >= high
        for low, high in bends
        for turn in (-total, 0.0, total)
    )


def cut_pieces(
    ring: Ring, start_mm: float, tabs: Sequence[float], opening: float, *, led: bool
) -> tuple[Ring, ...]:
    """Open cuts between the tabs, in the order of travel.

    With a lead the first begins at the start and the last ends there; without one each begins
    behind a tab.
    """
    total = ring_length(ring)
    ahead = sorted((tab - start_mm) % total for tab in tabs)
    begins = [start_mm + tab + opening / 2 for tab in ahead]
    ends = [start_mm + tab - opening / 2 for tab in ahead]
    if led:
        return tuple(
            stretch(ring, a, b)
            for a, b in zip([start_mm, *begins], [*ends, start_mm + total], strict=True)
        )
    return tuple(
        stretch(ring, a, b) for a, b in zip(begins, [*ends[1:], ends[0] + total], strict=True)
    )


def bridge_lines(ring: Ring, tabs: Sequence[float], opening: float) -> tuple[Line, ...]:
    """Lines from the middles of the tabs out over the scrap, as far as the bridge must hold."""
    spots = [spot_at(ring, tab) for tab in tabs]
    return tuple(Line(spot.point, spot.off(0.0, opening)) for spot in spots)


def from_tabs(along_mm: float, tabs: Sequence[float], total: float) -> float:
    """Least length along the path to the middle of a tab; inf without tabs."""
    gaps = [abs((along_mm - tab + total / 2) % total - total / 2) for tab in tabs]
    return min(gaps, default=math.inf)
