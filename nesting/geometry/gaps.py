"""Exact gaps between outlines of lines and arcs; mm. Nothing here is sampled or faceted."""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.parts.geometry.meeting import (
    Box,
    box_gap,
    direction_deg,
    foot_on,
    meetings,
    point_gap,
    segment_box,
)
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, Segment, segments

__all__ = ["Box", "box_gap", "loop_gap", "meetings", "point_gap", "segment_box", "segment_gap"]

MANY = 4000  # pairs of segments: of more, boxes are compared all at once
FEW = 4
LONG = 100  # segments: of more, the boxes are kept for the next time, as leads ask of one outline


def loop_gap(a: Loop, b: Loop, enough_mm: float = math.inf) -> float:
    """Least distance between two closed outlines; 0 where they cross or touch.

    Pairs of segments whose boxes are further apart than `enough_mm` are not looked at: the
    result is then at least `enough_mm`.
    """
    if isinstance(a, Circle) and isinstance(b, Circle):
        return _circle_gap(a, b)
    least = enough_mm
    ones, others = segments(a), segments(b)
    if len(ones) <= FEW and len(others) > LONG:
        return _gap_of_few(ones, others, enough_mm)
    if len(ones) * len(others) > MANY:
        return _gap_of_many(ones, others, enough_mm)
    boxed = [(segment, segment_box(segment)) for segment in others]
    for one in ones:
        box = segment_box(one)
        for other, other_box in boxed:
            if box_gap(box, other_box) < least:
                least = min(least, segment_gap(one, other))
    return least


def _gap_of_few(a: tuple[Segment, ...], b: tuple[Segment, ...], enough_mm: float) -> float:
    """`loop_gap` of a few segments and many, the nearest boxes first."""
    import numpy as np

    from platewheel.nesting.geometry.near import known_boxes

    boxes, least = known_boxes(b), enough_mm
    for one in a:
        x0, y0, x1, y1 = segment_box(one)
        beside = np.maximum(boxes[:, 0] - x1, x0 - boxes[:, 2]).clip(min=0.0)
        above = np.maximum(boxes[:, 1] - y1, y0 - boxes[:, 3]).clip(min=0.0)
        gaps = np.hypot(beside, above)
        near = np.flatnonzero(gaps < least)
        for k in near[np.argsort(gaps[near], kind="stable")].tolist():
            if gaps[k] >= least:
                break
            least = min(least, segment_gap(one, b[k]))
    return least


def _gap_of_many(a: tuple[Segment, ...], b: tuple[Segment, ...], enough_mm: float) -> float:
    """`loop_gap` of outlines of many segments."""
    import numpy as np

    from platewheel.nesting.geometry.near import known_boxes, line_gaps, near_pairs, start_gap

    least = enough_mm if enough_mm < math.inf else start_gap(a, b)
    for i, k in near_pairs(known_boxes(a), known_boxes(b), least):
        pairs = [(a[m], b[n]) for m, n in zip(i.tolist(), k.tolist(), strict=True)]
        lines = [(p, q) for p, q in pairs if isinstance(p, Line) and isinstance(q, Line)]
        if lines:
            ends = np.array([(*p.start, *p.end, *q.start, *q.end) for p, q in lines])
            least = min(least, float(line_gaps(ends[:, :4], ends[:, 4:]).min()))
        for p, q in pairs:
            if not (isinstance(p, Line) and isinstance(q, Line)):
                least = min(least, segment_gap(p, q))
        if least == 0.0:
            break
    return least


def segment_gap(a: Segment, b: Segment) -> float:
    """Least distance between two segments; exact for every mix of lines and arcs."""
    if meetings(a, b):
        return 0.0
    gaps = [point_gap(p, b) for p in (a.start, a.end)]
    gaps += [point_gap(p, a) for p in (b.start, b.end)]
    gaps += [math.dist(p, q) for p, q in _between(a, b)]
    return min(gaps)


def _circle_gap(a: Circle, b: Circle) -> float:
    apart = math.dist(a.centre, b.centre)
    return max(apart - a.radius_mm - b.radius_mm, abs(a.radius_mm - b.radius_mm) - apart, 0.0)


def _between(a: Segment, b: Segment) -> Iterator[tuple[Point, Point]]:
    """Pairs of inner points at which the distance can be least: on common normals."""
    if isinstance(a, Line) and isinstance(b, Line):
        return
    if isinstance(a, Line) and isinstance(b, Arc):
        a, b = b, a
    assert isinstance(a, Arc)
    if isinstance(b, Line):
        foot = foot_on(a.centre, b)
        if foot != a.centre:
            angle = direction_deg(a.centre, foot)
            if a.covers(angle):
                yield a.at(angle), foot
        return
    if math.dist(a.centre, b.centre) < 1e-12:  # concentric: any common direction
        for angle in (b.start_deg, b.start_deg + b.sweep_deg, a.start_deg):
            if a.covers(angle) and b.covers(angle):
                yield a.at(angle), b.at(angle)
        return
    line = direction_deg(a.centre, b.centre)
    for on_a in (line, line + 180):
        for on_b in (line, line + 180):
            if a.covers(on_a) and b.covers(on_b):
                yield a.at(on_a), b.at(on_b)
