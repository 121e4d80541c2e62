"""True lines, arcs and circles in the plane: what every blank is made of. mm, degrees.

Nothing here is a facet: an arc stays an arc from the part to the cutting file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.plain_number import plain_number

Point = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """Straight cut from start to end, points (x, y) in mm.

    >>> Line((0.0, 0.0), (30.0, 40.0)).length_mm
    50.0
    """

    start: Point
    end: Point

    @property
    def length_mm(self) -> float:
        """From start to end."""
        return math.dist(self.start, self.end)

    @property
    def bulge(self) -> float:
        """0: a line does not bulge."""
        return 0.0


@dataclass(frozen=True)
class Arc:
    """Arc run from `start_deg` through `sweep_deg`; a positive sweep is counter-clockwise. mm,
    degrees from +x.

    >>> Arc((0.0, 0.0), 10.0, 0.0, -180.0).end[0]
    -10.0
    """

    centre: Point
    radius_mm: float
    start_deg: float
    sweep_deg: float

    def at(self, angle_deg: float) -> Point:
        """Point of the arc's circle at an angle."""
        turn = math.radians(angle_deg)
        return (
            self.centre[0] + self.radius_mm * math.cos(turn),
            self.centre[1] + self.radius_mm * math.sin(turn),
        )

    @property
    def start(self) -> Point:
        """Where it begins."""
        return self.at(self.start_deg)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.at(self.start_deg + self.sweep_deg)

    @property
    def length_mm(self) -> float:
        """Along the arc."""
        return self.radius_mm * math.radians(abs(self.sweep_deg))

    @property
    def bulge(self) -> float:
        """tan(sweep / 4), positive counter-clockwise. Source: DXF reference, group code 42."""
        return math.tan(math.radians(self.sweep_deg) / 4)

    def covers(self, angle_deg: float) -> bool:
        """Whether the arc passes the angle, ends included."""
        turn = (angle_deg - self.start_deg) * (1 if self.sweep_deg >= 0 else -1)
        return turn % 360 <= abs(self.sweep_deg) + 1e-9 or (-turn) % 360 <= 1e-9


@dataclass(frozen=True)
class Circle:
    """Whole circle: a round outline or a hole; mm.

    >>> Blank("lid", "extra", 6.0, Circle((5.0, 0.0), 10.0)).bounds
    (-5.0, -10.0, 15.0, 10.0)
    """

    centre: Point
    radius_mm: float


Segment = Line | Arc
Loop = Circle | tuple[Segment, ...]  # a closed outline: one circle, or segments end to end


def polygon(points: Sequence[Point]) -> tuple[Line, ...]:
    """Closed outline of straight lines through the points, mm; the first is not said again.
    Raises: SpecError where it is no list, or there is none.

    >>> Blank("rib", "extra", 6.0, polygon([(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)])).area_mm2
    600.0
    """
    allowed = "a list of three or more points, each (x, y) in mm"
    advice = "polygon([(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)])"
    require_kind("points", points, Iterable, allowed, advice)
    run = [_pair(one) for one in points]
    if not run:
        raise SpecError([Fault("points", points, allowed, advice)])
    return tuple(Line(a, b) for a, b in zip(run, [*run[1:], run[0]], strict=True))


def _pair(one: Point) -> Point:
    """A point that was given as a list, or as a row of numpy; what is none goes to its proof."""
    listed = isinstance(one, Iterable) and not isinstance(one, str | tuple)
    return tuple(map(plain_number, one)) if listed else one


def arc_pieces(arc: Arc, most_deg: float = 180.0) -> tuple[Arc, ...]:
    """The same arc in equal pieces of at most `most_deg`, so that bulges stay well conditioned."""
    count = max(1, math.ceil(abs(arc.sweep_deg) / most_deg - 1e-9))
    step = arc.sweep_deg / count
    return tuple(
        replace(arc, start_deg=arc.start_deg + i * step, sweep_deg=step) for i in range(count)
    )


def segments(loop: Loop) -> tuple[Segment, ...]:
    """The loop as segments; a circle as two half turns, counter-clockwise."""
    if isinstance(loop, Circle):
        return arc_pieces(Arc(loop.centre, loop.radius_mm, 0.0, 360.0))
    return loop


def length_mm(loop: Loop) -> float:
    """Length round the loop."""
    return math.fsum(segment.length_mm for segment in segments(loop))


def signed_area_mm2(loop: Loop) -> float:
    """Enclosed area, positive counter-clockwise: shoelace plus circular segments."""
    if isinstance(loop, Circle):
        return math.pi * loop.radius_mm**2
    terms = []
    for segment in loop:
        (x0, y0), (x1, y1) = segment.start, segment.end
        terms.append((x0 * y1 - x1 * y0) / 2)
        if isinstance(segment, Arc):
            turn = math.radians(segment.sweep_deg)
            terms.append(segment.radius_mm**2 * (turn - math.sin(turn)) / 2)
    return math.fsum(terms)


def area_mm2(loop: Loop) -> float:
    """Enclosed area, whichever way the loop runs."""
    return abs(signed_area_mm2(loop))


def bounds(loop: Loop) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y; exact on arcs."""
    points: list[Point] = []
    for segment in segments(loop):
        points += [segment.start, segment.end]
        if isinstance(segment, Arc):
            points += [segment.at(a) for a in (0, 90, 180, 270) if segment.covers(a)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def turned(point: Point, rotation_deg: float) -> Point:
    """Point turned about the origin; quarter turns are exact."""
    cos, sin = _cos_sin(rotation_deg)
    return cos * point[0] - sin * point[1], sin * point[0] + cos * point[1]


def _cos_sin(angle_deg: float) -> tuple[float, float]:
    quarter = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}
    exact = quarter.get(angle_deg % 360)  # type: ignore[call-overload]
    turn = math.radians(angle_deg)
    return exact or (math.cos(turn), math.sin(turn))


def moved_point(point: Point, x_mm: float, y_mm: float, rotation_deg: float) -> Point:
    """Point turned about the origin by rotation_deg, then moved by x, y."""
    x, y = turned(point, rotation_deg)
    return x + x_mm, y + y_mm


def moved(loop: Loop, x_mm: float, y_mm: float, rotation_deg: float = 0.0) -> Loop:
    """The loop turned about the origin, then moved."""

    cos, sin = _cos_sin(rotation_deg)

    def place(point: Point) -> Point:
        x, y = point
        return cos * x - sin * y + x_mm, sin * x + cos * y + y_mm

    if isinstance(loop, Circle):
        return Circle(place(loop.centre), loop.radius_mm)
    result: list[Segment] = []
    for segment in loop:
        if isinstance(segment, Line):
            result.append(Line(place(segment.start), place(segment.end)))
        else:
            start = segment.start_deg + rotation_deg
            result.append(replace(segment, centre=place(segment.centre), start_deg=start))
    return tuple(result)


def counter_clockwise(loop: Loop) -> Loop:
    """The loop, or the same run the other way round where it runs clockwise."""
    return reversed_loop(loop) if signed_area_mm2(loop) < 0 else loop


def reversed_loop(loop: Loop) -> Loop:
    """The same loop run the other way round."""
    if isinstance(loop, Circle):
        return loop
    back: list[Segment] = []
    for segment in reversed(loop):
        if isinstance(segment, Line):
            back.append(Line(segment.end, segment.start))
        else:
            end = segment.start_deg + segment.sweep_deg
            back.append(replace(segment, start_deg=end, sweep_deg=-segment.sweep_deg))
    return tuple(back)


def contains(loop: Loop, point: Point) -> bool:
    """Whether the point lies inside the loop: winding number on the true lines and arcs."""
    x, y = point
    if isinstance(loop, Circle):
        return math.dist(loop.centre, point) < loop.radius_mm
    total = 0.0
    for segment in loop:
        (ax, ay), (bx, by) = segment.start, segment.end
        ax, ay, bx, by = ax - x, ay - y, bx - x, by - y
        swing = math.atan2(ax * by - bx * ay, ax * bx + ay * by)
        if isinstance(segment, Arc):
            swing = _arc_swing(segment, point, swing)
        total += swing
    return abs(total) > math.pi


def _arc_swing(arc: Arc, point: Point, chord_swing: float) -> float:
    """Angle through which the arc is seen from the point.

    From outside its circle that is the angle of its chord; from inside, the view turns one way
    all along the arc, so it is the difference of the two directions taken that way round.
    """
    if math.dist(arc.centre, point) >= arc.radius_mm:
        return chord_swing
    (ax, ay), (bx, by) = arc.start, arc.end
    turn = math.atan2(by - point[1], bx - point[0]) - math.atan2(ay - point[1], ax - point[0])
    return turn % (2 * math.pi) if arc.sweep_deg > 0 else -(-turn % (2 * math.pi))


def join(loops: Iterable[Loop]) -> tuple[float, float, float, float]:
    """Bounds of several loops together."""
    boxes = [bounds(loop) for loop in loops]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
