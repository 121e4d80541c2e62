"""The grid that is left when the parts are out, cut up into pieces that a person can lift.

Straight cuts across the sheet and along it, in scrap alone. Each is found exactly on the true
outlines: it changes between free and not free only where it meets a curve at the clearance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from platewheel.nesting.geometry.gaps import Box, box_gap, point_gap, segment_box
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.cutting import LEAST_WEB_MM, Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Loop,
    Point,
    Segment,
    bounds,
    contains,
    polygon,
    segments,
)

Stretch = tuple[float, float]  # of a cut, from the lower left on
LEAST_CUT_MM = 5.0  # shorter webs are left to be bent off; common practice, no source
PLACES = 12  # where each cut may lie, tried for the one that leaves least uncut
LEAST_OFF_MM = 0.1  # that a cut keeps off a lead beside it, where the kerf is told as nothing
NEAREST = 0.6  # least distance from cut to cut, as a share of the size wanted


@dataclass(frozen=True)
class _Obstacle:
    """A part or a piece to keep; holes of parts are scrap too, but fall out by themselves."""

    loop: Loop
    box: Box
    clear: float


def skeleton_lines(
    layout: Layout,
    cutting: Cutting,
    keep: Sequence[Sequence[Point]] = (),
    leads: Sequence[Segment] = (),
) -> tuple[Line, ...]:
    """Cuts that leave no piece of scrap larger than `skeleton_piece_mm`, as far as they can.

    None comes nearer than a kerf and a least web to a part, none runs beside a polygon of `keep`;
    those that meet one end in the middle of the kerf round it. Webs shorter than 5 mm stay:
    between close parts the grid is bent apart. They cross `leads`, which are cut by then, and run
    along none. In cutting order, to and fro; the cuts across come first.
    """
    size = cutting.skeleton_piece_mm
    if size == 0:
        return ()
    clear = cutting.kerf_mm + LEAST_WEB_MM
    parts = [_obstacle(p.outline, clear) for p in layout.placements]
    kept = [_obstacle(polygon(ring), clear) for ring in keep]
    parted = [replace(one, clear=cutting.kerf_mm / 2) for one in kept]
    lines: list[Line] = []
    for across in (True, False):
        beside = _along(leads, across, cutting.kerf_mm)
        plate = _Plate(layout, [*parts, *kept], across, beside)
        joined = _Plate(layout, [*parts, *parted], across)
        for i, at in enumerate(_places(plate, size)):
            free = _ends_in(plate.free(at), joined.scrap(at), 2 * clear)
            if i % 2:
                free = [(high, low) for low, high in reversed(free)]
            lines += [Line(plate.point(at, a), plate.point(at, b)) for a, b in free]
    return tuple(lines)


def kept_rings(layout: Layout, kept: Sequence[Remnant]) -> tuple[tuple[Point, ...], ...]:
    """Corners of the pieces that are kept of a layout."""
    return tuple(piece.corners for piece in kept if piece.layout == layout)


def _obstacle(loop: Loop, clear: float) -> _Obstacle:
    return _Obstacle(loop, bounds(loop), clear)


def _ends_in(cuts: Sequence[Stretch], wider: Sequence[Stretch], most_mm: float) -> list[Stretch]:
    """The cuts, each end moved on to that of the wider stretch it lies in where that is near."""
    found = []
    for low, high in cuts:
        for first, last in wider:
            if first <= low and high <= last:
                begin = first if low - first <= most_mm else low
                end = last if last - high <= most_mm else high
                found.append((begin, end))
    return found


class _Plate:
    """A plate seen along one direction of cuts; `free` tells where a cut may run."""

    def __init__(
        self,
        layout: Layout,
        parts: Sequence[_Obstacle],
        across: bool,
        beside: Sequence[Stretch] = (),  # of places for a cut that would run along a lead
    ) -> None:
        sheet = layout.sheet
        self.beside = beside
        self.across, self.parts = across, parts
        self.width = sheet.length_mm if across else sheet.width_mm  # from cut to cut
        self.height = sheet.width_mm if across else sheet.length_mm  # along each
        self.edges = [polygon(ring) for ring in (sheet.corners, *sheet.holes)]

    def point(self, at: float, along: float) -> Point:
        return (at, along) if self.across else (along, at)

    def free(self, at: float) -> list[Stretch]:
        """Stretches of the cut at `at` that are scrap and long enough to be cut."""
        return [(a, b) for a, b in self.scrap(at) if b - a >= LEAST_CUT_MM]

    def scrap(self, at: float) -> list[Stretch]:
        """Stretches of the line that lie on the plate and clear of all parts."""
        line = Line(self.point(at, 0.0), self.point(at, self.height))
        box = segment_box(line)
        near = [part for part in self.parts if box_gap(part.box, box) < part.clear]
        places = {0.0, self.height}
        for edge in self.edges:
            for side in segments(edge):
                places |= set(_meets_line(line, side.start, side.end))
        for part in near:
            for segment in segments(part.loop):
                if box_gap(segment_box(segment), box) < part.clear:
                    places |= set(_at_clearance(line, segment, part.clear))
        marks = sorted(place for place in places if 0 <= place <= self.height)
        found: list[Stretch] = []
        for low, high in pairwise(marks):
            if high - low < 1e-9 or not self._is_free(self.point(at, (low + high) / 2), near):
                continue
            if found and low - found[-1][1] < 1e-9:
                found[-1] = (found[-1][0], high)
            else:
                found.append((low, high))
        return found

    def _is_free(self, point: Point, near: Sequence[_Obstacle]) -> bool:
        on_plate, *holes = self.edges
        if not contains(on_plate, point) or any(contains(hole, point) for hole in holes):
            return False
        spot = (*point, *point)
        for part in near:
            if box_gap(part.box, spot) >= part.clear:
                continue
            if contains(part.loop, point):
                return False
            if any(point_gap(point, side) < part.clear for side in segments(part.loop)):
                return False
        return True


def _places(plate: _Plate, size: float) -> Iterator[float]:
    """Where to cut: no further apart than the size, and where the least stays uncut."""
    last = 0.0
    while plate.width - last > size:
        tried = [last + size * (1 - (1 - NEAREST) * i / (PLACES - 1)) for i in range(PLACES)]
        last = min(tried, key=lambda at: (*_worse(plate, at), -at))
        yield last


def _worse(plate: _Plate, at: float) -> tuple[bool, float]:
    """Whether a cut runs along a lead, and the length of the webs that it leaves."""
    return any(low < at < high for low, high in plate.beside), round(_uncut_mm(plate, at), 3)


def _along(leads: Sequence[Segment], across: bool, kerf_mm: float) -> list[Stretch]:
    """Places where the middle of a cut would lie in the kerf of a straight lead all along it."""
    axis, half = 0 if across else 1, max(kerf_mm / 2, LEAST_OFF_MM)
    ends = [sorted((a.start[axis], a.end[axis])) for a in leads if isinstance(a, Line)]
    return [(high - half, low + half) for low, high in ends if high - low < 2 * half]


def _uncut_mm(plate: _Plate, at: float) -> float:
    """Length of the webs that a cut leaves for being short."""
    return math.fsum(b - a for a, b in plate.scrap(at) if b - a < LEAST_CUT_MM)


def _at_clearance(line: Line, segment: Segment, clear: float) -> Iterator[float]:
    """Places along the line that may lie at the clearance from a segment: all are among them."""
    yield from _meets_circle(line, segment.start, clear)
    yield from _meets_circle(line, segment.end, clear)
    if isinstance(segment, Arc):
        yield from _meets_circle(line, segment.centre, segment.radius_mm + clear)
        if segment.radius_mm > clear:
            yield from _meets_circle(line, segment.centre, segment.radius_mm - clear)
        return
    (ax, ay), (bx, by) = segment.start, segment.end
    length = segment.length_mm
    if length == 0:
        return
    dx, dy = -(by - ay) / length * clear, (bx - ax) / length * clear
    yield from _meets_line(line, (ax + dx, ay + dy), (bx + dx, by + dy))
    yield from _meets_line(line, (ax - dx, ay - dy), (bx - dx, by - dy))


def _meets_circle(line: Line, centre: Point, radius: float) -> Iterator[float]:
    """Distances from the line's start to a circle; the line is upright or level."""
    (x, y), (u, v) = line.start, centre
    off, along = (u - x, v - y) if line.end[0] == x else (v - y, u - x)
    if abs(off) <= radius:
        half = math.sqrt(radius * radius - off * off)
        yield along - half
        yield along + half


def _meets_line(line: Line, a: Point, b: Point) -> Iterator[float]:
    """Distance from the line's start to where it meets a straight piece."""
    x, y = line.start
    upright = line.end[0] == x
    (p, q), (s, t) = [(u - x, v - y) if upright else (v - y, u - x) for u, v in (a, b)]
    if p == s:  # along the line or beside it: its ends are met by its neighbours
        return
    share = -p / (s - p)
    if 0 <= share <= 1:
        yield q + share * (t - q)
