"""Moved outlines put in order: pieces cut where they cross, what lies too near taken away.

The way of offsetting is the common one: move every segment, split all at their crossings, keep
what is nowhere nearer to the outline than it was moved, join the rest end to end.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from platewheel.nesting.geometry.gaps import meetings, point_gap
from platewheel.nesting.geometry.near import boxes_of, near_pairs
from platewheel.parts.geometry.outline import Line, Point, Segment

NEAR_MM = 1e-7  # a piece this much too near is still good: rounding
LEAST_MM = 1e-7  # shorter pieces are rounding
JOIN_MM = 1e-5


@dataclass(frozen=True)
class Piece:
    """A stretch of a moved outline; `home` numbers the segment it came from, None for a corner."""

    segment: Segment
    home: int | None


def kept_pieces(
    pieces: Sequence[Piece], ring: Sequence[Segment], distance_mm: float
) -> list[Piece]:
    """Pieces split at their crossings, without those nearer to the ring than the distance."""
    boxes = boxes_of(tuple(piece.segment for piece in pieces))
    crossings: list[list[Point]] = [[] for _ in pieces]
    for i, j in _pairs(boxes, boxes, NEAR_MM):
        if i != j:
            one, other = pieces[i].segment, pieces[j].segment
            crossings[i] += (*meetings(one, other), *_touching(one, other))
    parts = [
        Piece(part, piece.home)
        for piece, places in zip(pieces, crossings, strict=True)
        for part in _split(piece.segment, places)
        if part.length_mm > LEAST_MM
    ]
    middles = [_middle(part.segment) for part in parts]
    spots = np.array([(*middle, *middle) for middle in middles]).reshape(-1, 4)
    least = distance_mm - NEAR_MM
    near: set[int] = set()
    for i, k in _pairs(spots, boxes_of(tuple(ring)), least):
        if i not in near and point_gap(middles[i], ring[k]) < least:
            near.add(i)
    return [part for i, part in enumerate(parts) if i not in near]


def _pairs(a: Any, b: Any, within_mm: float) -> Iterator[tuple[int, int]]:
    """By rising numbers, as a run through all pairs has them."""
    for i, k in near_pairs(a, b, within_mm):
        yield from sorted(zip(i.tolist(), k.tolist(), strict=True))


def _touching(segment: Segment, other: Segment) -> list[Point]:
    """Ends of another segment that lie on this one: crossings at an end are easily missed."""
    return [p for p in (other.start, other.end) if point_gap(p, segment) < LEAST_MM]


def _split(segment: Segment, points: Sequence[Point]) -> list[Segment]:
    """The segment cut at points that lie on it."""
    shares = sorted({0.0, 1.0, *(s for s in (share_of(segment, p) for p in points) if 0 < s < 1)})
    return [between(segment, a, b) for a, b in itertools.pairwise(shares)]


def share_of(segment: Segment, point: Point) -> float:
    """Share of a segment's length at which a point on it lies."""
    if isinstance(segment, Line):
        return math.dist(segment.start, point) / segment.length_mm
    (cx, cy), (x, y) = segment.centre, point
    turn = math.degrees(math.atan2(y - cy, x - cx)) - segment.start_deg
    turn = turn % 360 if segment.sweep_deg > 0 else -(-turn % 360)
    share = turn / segment.sweep_deg
    return share if share <= 1 else 0.0  # just before the start: rounding


def between(segment: Segment, first: float, last: float) -> Segment:
    """The segment from one share of its length to another; whole where these are 0 and 1."""
    if (first, last) == (0.0, 1.0):
        return segment
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end

        def at(share: float) -> Point:
            return segment.end if share == 1 else (ax + share * (bx - ax), ay + share * (by - ay))

        return Line(at(first), at(last))
    turn = segment.sweep_deg
    return replace(
        segment, start_deg=segment.start_deg + first * turn, sweep_deg=(last - first) * turn
    )


def _middle(segment: Segment) -> Point:
    return between(segment, 0.5, 1.0).start


def joined(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Closed paths made of the pieces, each begun at its first one; open ends are left out."""
    left = dict(enumerate(pieces))
    count, paths = len(pieces), []
    while left:
        first = next(iter(left))
        path, here = [left.pop(first)], first
        while math.dist(path[-1].segment.end, path[0].segment.start) > JOIN_MM or (
            len(path) == 1 and path[0].segment.length_mm < JOIN_MM
        ):
            end = path[-1].segment.end
            order = ((here + step) % count for step in range(1, count))
            found = next(
                (k for k in order if k in left and math.dist(left[k].segment.start, end) < JOIN_MM),
                None,
            )
            if found is None:
                break
            here = found
            path.append(left.pop(found))
        else:
            paths.append(path)
    return paths
