"""Loops of a drawing sorted: the one outline and the holes inside it. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice

from platewheel.nesting.drawings.closed_loops import (
    JOIN_MM,
    MOST_TOLD,
    SHORT_MM,
    Found,
    more,
    said,
)
from platewheel.nesting.geometry.gaps import Box, meetings, point_gap
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Loop,
    Point,
    Segment,
    area_mm2,
    bounds,
    contains,
    length_mm,
    segments,
)

TOUCH_MM = 1e-6  # edges this close touch
MOST_COUNTED = 1000  # places at which edges meet: of more no number is told


def outline_and_holes(
    found: Found, unit_mm: float = 1.0, join_mm: float = JOIN_MM
) -> tuple[Loop, tuple[Loop, ...]] | None:
    """The one outermost loop and the loops inside it; None, and `found.wrong`, otherwise.

    `join_mm`: how far apart ends may have lain that are corners now."""
    for loop in found.loops:
        if area_mm2(loop) <= SHORT_MM * length_mm(loop):
            place = said(segments(loop)[0].start, unit_mm)
            found.wrong.append(
                ("loops that enclose an area", f"draw the loop at {place} wider, or remove it")
            )
    places = list(islice(_crossings(found.loops, join_mm), MOST_COUNTED + 1))
    told = list(dict.fromkeys(said(place, unit_mm) for place in places))  # a corner is met twice
    others = more(len(told))
    if len(places) > MOST_COUNTED:
        others = f" (and more than {MOST_COUNTED - MOST_TOLD} more places)"
    for where in told[:MOST_TOLD]:
        found.wrong.append(
            (
                "loops that neither cross nor touch themselves or each other",
                f"part the lines at {where}{others}",
            )
        )
    if found.wrong:
        return None
    boxes = [bounds(loop) for loop in found.loops]
    depth = [
        sum(
            _within(box, other) and _inside(a, b)
            for b, other in zip(found.loops, boxes, strict=True)
            if b is not a
        )
        for a, box in zip(found.loops, boxes, strict=True)
    ]
    outer = [loop for loop, deep in zip(found.loops, depth, strict=True) if deep == 0]
    islands = [loop for loop, deep in zip(found.loops, depth, strict=True) if deep > 1]
    if len(outer) > 1:
        where = ", ".join(said(_corner(loop), unit_mm) for loop in outer[:MOST_TOLD])
        found.wrong.append(
            (
                f"one part a file, so one outermost loop; there are {len(outer)}",
                f"a file of its own for each; their lower left corners: {where}",
            )
        )
    if islands:
        where = ", ".join(said(_corner(loop), unit_mm) for loop in islands[:MOST_TOLD])
        found.wrong.append(
            (
                "holes with nothing in them: a loop in a hole is another part",
                f"move to a file of its own what is inside a hole, lower left corner: {where}",
            )
        )
    if found.wrong or not outer:
        return None
    return outer[0], tuple(loop for loop in found.loops if loop is not outer[0])


def _corner(loop: Loop) -> Point:
    return bounds(loop)[:2]


def _within(box: Box, other: Box) -> bool:
    return other[0] <= box[0] and other[1] <= box[1] and box[2] <= other[2] and box[3] <= other[3]


def _inside(a: Loop, b: Loop) -> bool:
    return contains(b, segments(a)[0].start)


def _crossings(loops: Sequence[Loop], join_mm: float) -> Iterator[Point]:
    """Places where edges meet that should not."""
    edges: list[Segment] = []
    after: dict[int, int] = {}  # edge -> the one that follows it in its loop
    for loop in loops:
        run, first = segments(loop), len(edges)
        after |= {first + i: first + (i + 1) % len(run) for i in range(len(run))}
        edges += run
    for i, j in _near(edges):
        shared = []
        if after[i] == j:
            shared.append(edges[j].start)
        if after[j] == i:
            shared.append(edges[i].start)
        place = _meet(edges[i], edges[j], shared, join_mm)
        if place is not None:
            yield place


def _near(edges: Sequence[Segment]) -> Iterator[tuple[int, int]]:
    """Pairs of edges that may meet, the lower number first, by rising numbers."""
    import numpy as np

    from platewheel.nesting.geometry.near import boxes_of, ends_of, line_gaps, near_pairs

    boxes, ends = boxes_of(edges), ends_of(edges)
    straight = np.array([isinstance(edge, Line) for edge in edges], dtype=bool)
    for i, j in near_pairs(boxes, boxes, TOUCH_MM):
        i, j = i[i < j], j[i < j]
        lines = straight[i] & straight[j]
        near = ~lines
        near[lines] = line_gaps(ends[i[lines]], ends[j[lines]]) <= 2 * TOUCH_MM
        yield from sorted(zip(i[near].tolist(), j[near].tolist(), strict=True))


def _meet(a: Segment, b: Segment, shared: list[Point], join_mm: float) -> Point | None:
    """Where two edges meet away from the corners they share.

    Next to a shared corner, edges that are meant to run into each other smoothly may cross by
    the rounding of the drawing: that is no fault as long as they stay within the joint.
    """
    places = meetings(a, b)
    places += [p for p in (a.start, a.end) if point_gap(p, b) <= TOUCH_MM]
    places += [p for p in (b.start, b.end) if point_gap(p, a) <= TOUCH_MM]
    bend = sum(1 / s.radius_mm for s in (a, b) if isinstance(s, Arc))
    for place in places:
        near = min((math.dist(place, corner) for corner in shared), default=math.inf)
        if near > join_mm and (bend == 0 or near**2 / 8 * bend > join_mm):
            return place
    return None
