"""Exact gaps between outlines of lines and arcs; mm. Nothing here is sampled or faceted."""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    bounds,
    segments,
)

Box = tuple[float, float, float, float]
MANY = 4000  # pairs of segments: of more, boxes are compared all at once


def loop_gap(a: Loop, b: Loop, enough_mm: float = math.inf) -> float:
    """Least distance between two closed outlines; 0 where they cross or touch.

    Pairs of segments whose boxes are further apart than `enough_mm` are not looked at: the
    result is then at least `enough_mm`.
    """
    if isinstance(a, Circle) and isinstance(b, Circle):
        return _circle_gap(a, b)
    least = enough_mm
    ones, others = segments(a), segments(b)
    if len(ones) * len(others) > MANY:
        return _gap_of_many(ones, others, enough_mm)
    boxed = [(segment, segment_box(segment)) for segment in others]
    for one in ones:
        box = segment_box(one)
        for other, other_box in boxed:
            if box_gap(box, other_box) < least:
                least = min(least, segment_gap(one, other))
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


def box_gap(a: Box, b: Box) -> float:
    """Distance between two upright boxes; 0 where they meet."""
    dx = max(a[0] - b[2], b[0] - a[2], 0.0)
    dy = max(a[1] - b[3], b[1] - a[3], 0.0)
    return math.hypot(dx, dy)


def segment_box(segment: Segment) -> Box:
    """Bounds of one segment."""
    return bounds((segment,))


def segment_gap(a: Segment, b: Segment) -> float:
    """Least distance between two segments; exact for every mix of lines and arcs."""
    if meetings(a, b):
        return 0.0
    gaps = [point_gap(p, b) for p in (a.start, a.end)]
    gaps += [point_gap(p, a) for p in (b.start, b.end)]
    gaps += [math.dist(p, q) for p, q in _between(a, b)]
    return min(gaps)


def point_gap(point: Point, segment: Segment) -> float:
    """Distance from a point to a segment."""
    if isinstance(segment, Line):
        return math.dist(point, _foot(point, segment))
    from_centre = math.dist(point, segment.centre)
    if from_centre == 0.0:
        return segment.radius_mm
    angle = _angle(segment.centre, point)
    if segment.covers(angle):
        return abs(from_centre - segment.radius_mm)
    return min(math.dist(point, segment.start), math.dist(point, segment.end))


def _circle_gap(a: Circle, b: Circle) -> float:
    apart = math.dist(a.centre, b.centre)
    return max(apart - a.radius_mm - b.radius_mm, abs(a.radius_mm - b.radius_mm) - apart, 0.0)


def _angle(centre: Point, point: Point) -> float:
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def _foot(point: Point, line: Line) -> Point:
    """Point of the line nearest to a point."""
    (ax, ay), (bx, by) = line.start, line.end
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    if square == 0:
        return line.start
    share = max(0.0, min(1.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / square))
    return ax + share * dx, ay + share * dy


def _between(a: Segment, b: Segment) -> Iterator[tuple[Point, Point]]:
    """Pairs of inner points at which the distance can be least: on common normals."""
    if isinstance(a, Line) and isinstance(b, Line):
        return
    if isinstance(a, Line) and isinstance(b, Arc):
        a, b = b, a
    assert isinstance(a, Arc)
    if isinstance(b, Line):
        foot = _foot(a.centre, b)
        if foot != a.centre:
            angle = _angle(a.centre, foot)
            if a.covers(angle):
                yield a.at(angle), foot
        return
    if math.dist(a.centre, b.centre) < 1e-12:  # concentric: any common direction
        for angle in (b.start_deg, b.start_deg + b.sweep_deg, a.start_deg):
            if a.covers(angle) and b.covers(angle):
                yield a.at(angle), b.at(angle)
        return
    line = _angle(a.centre, b.centre)
    for on_a in (line, line + 180):
        for on_b in (line, line + 180):
            if a.covers(on_a) and b.covers(on_b):
                yield a.at(on_a), b.at(on_b)


def meetings(a: Segment, b: Segment) -> list[Point]:
    """Points in which two segments cross; segments that run along each other give none."""
    if isinstance(a, Line) and isinstance(b, Line):
        return [_lines_meet(a, b)] if _lines_cross(a, b) else []
    if isinstance(a, Arc) and isinstance(b, Arc):
        return [p for p in _arc_meets(a, b) if a.covers(_angle(a.centre, p))]
    arc, line = (a, b) if isinstance(a, Arc) else (b, a)
    assert isinstance(arc, Arc)
    assert isinstance(line, Line)
    return [p for p in _line_meets(line, arc) if arc.covers(_angle(arc.centre, p))]


def _lines_meet(a: Line, b: Line) -> Point:
    """Crossing of two lines that are known to cross."""
    (ax, ay), (bx, by) = a.start, a.end
    (cx, cy), (dx, dy) = b.start, b.end
    cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    share = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
    return ax + share * (bx - ax), ay + share * (by - ay)


def _lines_cross(a: Line, b: Line) -> bool:
    def side(line: Line, p: Point) -> float:
        (ax, ay), (bx, by) = line.start, line.end
        return (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)

    return side(a, b.start) * side(a, b.end) < 0 and side(b, a.start) * side(b, a.end) < 0


def _line_meets(line: Line, arc: Arc) -> list[Point]:
    """Points of the line on the arc's circle."""
    (ax, ay), (bx, by) = line.start, line.end
    dx, dy = bx - ax, by - ay
    fx, fy = ax - arc.centre[0], ay - arc.centre[1]
    square = dx * dx + dy * dy
    if square == 0:
        return []
    half = (fx * dx + fy * dy) / square
    root = half * half - (fx * fx + fy * fy - arc.radius_mm**2) / square
    if root < 0:
        return []
    shares = (-half - math.sqrt(root), -half + math.sqrt(root))
    return [(ax + s * dx, ay + s * dy) for s in shares if 0 <= s <= 1]


def _arc_meets(a: Arc, b: Arc) -> list[Point]:
    """Points of arc b on the circle of arc a."""
    apart = math.dist(a.centre, b.centre)
    if apart == 0 or apart > a.radius_mm + b.radius_mm or apart < abs(a.radius_mm - b.radius_mm):
        return []
    along = (apart**2 + b.radius_mm**2 - a.radius_mm**2) / (2 * apart * b.radius_mm)
    spread = math.degrees(math.acos(max(-1.0, min(1.0, along))))
    to_a = _angle(b.centre, a.centre)
    return [b.at(angle) for angle in (to_a - spread, to_a + spread) if b.covers(angle)]
