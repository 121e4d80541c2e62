"""Where two segments meet, and how far a point is from one; exact on arcs. mm."""

from __future__ import annotations

import math

from platewheel.parts.geometry.outline import Arc, Line, Point, Segment, bounds

Box = tuple[float, float, float, float]


def box_gap(a: Box, b: Box) -> float:
    """Distance between two upright boxes; 0 where they meet."""
    dx = max(a[0] - b[2], b[0] - a[2], 0.0)
    dy = max(a[1] - b[3], b[1] - a[3], 0.0)
    return math.hypot(dx, dy)


def segment_box(segment: Segment) -> Box:
    """Bounds of one segment."""
    return bounds((segment,))


def point_gap(point: Point, segment: Segment) -> float:
    """Distance from a point to a segment."""
    if isinstance(segment, Line):
        return math.dist(point, foot_on(point, segment))
    from_centre = math.dist(point, segment.centre)
    if from_centre == 0.0:
        return segment.radius_mm
    angle = direction_deg(segment.centre, point)
    if segment.covers(angle):
        return abs(from_centre - segment.radius_mm)
    return min(math.dist(point, segment.start), math.dist(point, segment.end))


def meetings(a: Segment, b: Segment) -> list[Point]:
    """Points in which two segments cross; segments that run along each other give none."""
    if isinstance(a, Line) and isinstance(b, Line):
        return [_lines_meet(a, b)] if _lines_cross(a, b) else []
    if isinstance(a, Arc) and isinstance(b, Arc):
        return [p for p in _arc_meets(a, b) if a.covers(direction_deg(a.centre, p))]
    arc, line = (a, b) if isinstance(a, Arc) else (b, a)
    assert isinstance(arc, Arc)
    assert isinstance(line, Line)
    return [p for p in _line_meets(line, arc) if arc.covers(direction_deg(arc.centre, p))]


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
    to_a = direction_deg(b.centre, a.centre)
    return [b.at(angle) for angle in (to_a - spread, to_a + spread) if b.covers(angle)]


def direction_deg(centre: Point, point: Point) -> float:
    """Direction in which a point is seen from a centre, degrees."""
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def foot_on(point: Point, line: Line) -> Point:
    """Point of the line nearest to a point."""
    (ax, ay), (bx, by) = line.start, line.end
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    if square == 0:
        return line.start
    share = max(0.0, min(1.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / square))
    return ax + share * dx, ay + share * dy
