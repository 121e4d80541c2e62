"""Places along a closed path of lines and arcs, told by the length run from its start; mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.nesting.geometry.trim import between
from platewheel.parts.geometry.outline import Line, Point, Segment

Ring = tuple[Segment, ...]
TINY_MM = 1e-9
SHARES = ((0.5,), (0.25, 0.75), (0.1, 0.4, 0.6, 0.9), tuple((2 * k + 1) / 32 for k in range(16)))
SHORT_MM = 8.0  # a shorter stretch is tried in its middle only


@dataclass(frozen=True)
class Spot:
    """A place on a path: the length run to it, the point, and the direction of travel there."""

    along_mm: float
    point: Point
    ahead: Point  # of length 1

    @property
    def left(self) -> Point:
        """Direction square to the travel, to its left; of length 1."""
        return -self.ahead[1], self.ahead[0]

    def off(self, ahead_mm: float, left_mm: float) -> Point:
        """Point so far ahead of the spot and so far to its left."""
        (x, y), (ax, ay), (lx, ly) = self.point, self.ahead, self.left
        return x + ahead_mm * ax + left_mm * lx, y + ahead_mm * ay + left_mm * ly


def ring_length(ring: Ring) -> float:
    """Length once round."""
    return math.fsum(segment.length_mm for segment in ring)


def heading(segment: Segment, share: float) -> Point:
    """Direction of travel at a share of a segment."""
    if isinstance(segment, Line):
        length = segment.length_mm
        return (
            (segment.end[0] - segment.start[0]) / length,
            (segment.end[1] - segment.start[1]) / length,
        )
    turn = math.radians(segment.start_deg + share * segment.sweep_deg)
    sign = 1.0 if segment.sweep_deg > 0 else -1.0
    return -sign * math.sin(turn), sign * math.cos(turn)


def spot_on(ring: Ring, index: int, share: float) -> Spot:
    """Place at a share of one of the path's segments."""
    before = math.fsum(segment.length_mm for segment in ring[:index])
    return _spot(ring[index], share, before)


def _spot(segment: Segment, share: float, before: float) -> Spot:
    point = between(segment, share, 1.0).start if share else segment.start
    return Spot(before + share * segment.length_mm, point, heading(segment, share))


def spot_at(ring: Ring, along_mm: float) -> Spot:
    """Place after a length run, once round and more allowed."""
    rest = along_mm % ring_length(ring)
    for i, segment in enumerate(ring):
        if rest < segment.length_mm or i == len(ring) - 1:
            return spot_on(ring, i, min(1.0, rest / segment.length_mm))
        rest -= segment.length_mm
    raise ValueError("a path without segments")


def stretch(ring: Ring, first_mm: float, last_mm: float) -> Ring:
    """The path from one place to another further on; once round where they are that far apart."""
    total = ring_length(ring)
    shift = math.floor(first_mm / total) * total
    first, last = first_mm - shift, last_mm - shift
    result: list[Segment] = []
    begun = 0.0
    for segment in (*ring, *ring):
        length = segment.length_mm
        low, high = max(first, begun), min(last, begun + length)
        if high - low > TINY_MM:
            a, b = (low - begun) / length, (high - begun) / length
            a = a if a > 1e-12 else 0.0
            b = b if b < 1 - 1e-12 else 1.0
            result.append(between(segment, a, b))
        begun += length
    return tuple(result)


def spots(ring: Ring) -> Iterator[Spot]:
    """Places for a lead, the middles of the longest stretches first."""
    lengths = [segment.length_mm for segment in ring]
    before: dict[int, float] = {}  # of thousands of segments: each sum once
    order = sorted(range(len(ring)), key=lambda i: -round(lengths[i], 6))
    for turn, shares in enumerate(SHARES):
        for i in order:
            if turn == 0 or lengths[i] > SHORT_MM * turn:
                if i not in before:
                    before[i] = math.fsum(lengths[:i])
                for share in shares:
                    yield _spot(ring[i], share, before[i])
