"""Gaps and crossings in closed form: where the sampled cases never come."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.geometry.gaps import loop_gap, meetings, point_gap, segment_gap
from platewheel.parts.geometry.outline import Arc, Circle, Line, Point, Segment, polygon

Numbers = tuple[float, float, float, float, float]  # centre, radius, start, sweep
TURNS = [0.0, 37.0, 90.0, 180.0, 251.0]


def turned(point: Point, turn_deg: float) -> Point:
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return 30.0 + c * point[0] - s * point[1], 70.0 + s * point[0] + c * point[1]


def line(a: Point, b: Point, turn: float) -> Line:
    return Line(turned(a, turn), turned(b, turn))


def arc(centre: Point, radius: float, start: float, sweep: float, turn: float) -> Arc:
    return Arc(turned(centre, turn), radius, start + turn, sweep)


def near(points: list[Point], *expected: Point) -> bool:
    """The same points in any order."""
    return len(points) == len(expected) and all(
        min(math.dist(p, q) for p in points) < 1e-9 for q in expected
    )


@pytest.mark.parametrize("turn", TURNS)
def test_where_lines_cross(turn: float) -> None:
    """(0, 0) to (12, 9) and (0, 10) to (10, 0): 3 x = 4 y and x + y = 10 at (40, 30) / 7."""
    a, b = line((0, 0), (12, 9), turn), line((0, 10), (10, 0), turn)
    at = turned((40 / 7, 30 / 7), turn)
    assert near(meetings(a, b), at)
    assert near(meetings(b, a), at)
    assert segment_gap(a, b) == 0.0


@pytest.mark.parametrize("turn", TURNS)
def test_short_lines_that_cross_are_seen(turn: float) -> None:
    """A cross of 0.2 mm: the products of its sides are far below one."""
    a, b = line((-0.1, 0), (0.1, 0), turn), line((0.02, -0.1), (0.02, 0.1), turn)
    assert near(meetings(a, b), turned((0.02, 0), turn))
    assert segment_gap(a, b) == 0.0


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("sweep", [180.0, -180.0])
def test_where_a_line_crosses_an_arc(turn: float, sweep: float) -> None:
    """Circle of 5 at height 3: x = -4 and 4; the half above, told either way round."""
    half = arc((0, 0), 5.0, 0.0 if sweep > 0 else 180.0, sweep, turn)
    across = line((-9, 3), (9, 3), turn)
    assert near(meetings(across, half), turned((-4, 3), turn), turned((4, 3), turn))
    assert near(meetings(half, across), turned((-4, 3), turn), turned((4, 3), turn))
    assert meetings(half, line((-9, -3), (9, -3), turn)) == []
    assert near(meetings(line((0, 3), (9, 3), turn), half), turned((4, 3), turn))
    assert meetings(line((-3, 3), (3, 3), turn), half) == []
    assert meetings(Line((1.0, 1.0), (1.0, 1.0)), half) == []


@pytest.mark.parametrize("turn", TURNS)
def test_where_arcs_cross(turn: float) -> None:
    """Circles of 13 and 15, centres 14 apart: the 13-14-15 triangle, height 12 over 5 from the
    first. The upper halves meet above, halves on different sides nowhere."""
    up = arc((0, 0), 13.0, 0.0, 180.0, turn), arc((14, 0), 15.0, 0.0, 180.0, turn)
    down = arc((14, 0), 15.0, 180.0, 180.0, turn)
    assert near(meetings(*up), turned((5, 12), turn))
    assert near(meetings(*up[::-1]), turned((5, 12), turn))
    assert meetings(up[0], down) == []
    whole = arc((0, 0), 13.0, 0.0, 359.9, turn), arc((14, 0), 15.0, 0.0, 359.9, turn)
    assert near(meetings(*whole), turned((5, 12), turn), turned((5, -12), turn))


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize(
    ("a", "b", "gap"),
    [
        # concentric, over a shared range of 10 degrees: the difference of the radii
        ((0, 0, 10, 0, 60), (0, 0, 14, 50, 60), 4.0),
        ((0, 0, 14, 50, 60), (0, 0, 10, 0, 60), 4.0),
        ((0, 0, 10, 0, 60), (0, 0, 14, 40, 10), 4.0),  # the one within the other's range
        ((0, 0, 10, 40, 10), (0, 0, 14, 0, 60), 4.0),
        # concentric, ranges a right angle apart: law of cosines between the ends
        ((0, 0, 10, 0, 45), (0, 0, 14, 135, 45), math.sqrt(296)),
        # side by side, facing each other: centres less radii
        ((0, 0, 10, -30, 60), (30, 0, 12, 150, 60), 8.0),
        # turned away from each other: 10 and 12 beyond their centres
        ((0, 0, 10, 170, 20), (30, 0, 12, -10, 20), None),
    ],
)
def test_arcs_side_by_side(a: Numbers, b: Numbers, gap: float | None, turn: float) -> None:
    one, other = (arc((x, y), r, start, sweep, turn) for x, y, r, start, sweep in (a, b))
    if gap is None:  # nearest at their ends: 20 degrees of 10 and of 12, each 10 from the axis
        c, s = math.cos(math.radians(10)), math.sin(math.radians(10))
        gap = math.hypot(30 + 22 * c, 2 * s)
    assert segment_gap(one, other) == pytest.approx(gap)
    assert segment_gap(other, one) == pytest.approx(gap)


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("sweep", [120.0, -120.0])
def test_a_line_beside_an_arc_is_nearest_at_the_foot(turn: float, sweep: float) -> None:
    """Crown of 10 mm radius below a line at 16: 6 off; beyond the arc's range, to its end."""
    crown = arc((0, 0), 10.0, 90 - sweep / 2, sweep, turn)
    assert segment_gap(line((-20, 16), (20, 16), turn), crown) == pytest.approx(6)
    assert segment_gap(crown, line((-20, 16), (20, 16), turn)) == pytest.approx(6)
    end = (10 * math.sin(math.radians(60)), 5.0)
    right = line((12, 0), (12, -40), turn)
    assert segment_gap(right, crown) == pytest.approx(math.hypot(12 - end[0], 5))
    assert point_gap(turned((0, 0), turn), crown) == pytest.approx(10)


def test_a_point_from_a_line_of_no_length() -> None:
    dot = Line((3.0, 4.0), (3.0, 4.0))
    assert point_gap((0.0, 0.0), dot) == 5.0
    assert segment_gap(dot, Arc((0.0, 0.0), 2.0, 0.0, 90.0)) == pytest.approx(3.0)


@pytest.mark.parametrize("shift", [0.0, 1e-9, 0.25])
def test_a_line_through_the_centre_of_an_arc(shift: float) -> None:
    """From the centre outwards as far as 7 of 10: 3 off, whatever the foot of the centre is."""
    whole: Segment = Arc((0.0, 0.0), 10.0, -170.0, 340.0)
    assert segment_gap(Line((shift, 0.0), (7.0, 0.0)), whole) == pytest.approx(3)


def test_enough_is_enough_only_where_boxes_are_that_far_apart() -> None:
    """Two squares 5 apart: 5 is not below 5, so nothing is looked at; 5.001 is."""
    one = polygon([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    other = polygon([(15.0, 0.0), (25.0, 0.0), (25.0, 10.0), (15.0, 10.0)])
    for enough in (5.0, 5.001, math.inf):
        assert loop_gap(one, other, enough) == 5.0
    assert loop_gap(one, other, 4.0) == 4.0
    assert loop_gap(Circle((0.0, 0.0), 5.0), Circle((20.0, 0.0), 5.0), 4.0) == 10.0
