"""Exact gaps against a polygon library on fine facets, and against closed forms."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.gaps import box_gap, loop_gap, point_gap, segment_gap
from platewheel.parts.geometry.blank import annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Segment, moved, polygon
from tests.nesting.plates import SAG_MM, along, faceted

quick = settings(max_examples=150, deadline=None, derandomize=True)
TOLERANCE_MM = 2 * SAG_MM

# a coarse grid besides free values: concentric, tangent and collinear cases come up often
ordinate = st.floats(-100, 100) | st.integers(-4, 4).map(lambda n: 25.0 * n)
radius = st.floats(1, 100) | st.sampled_from([25.0, 50.0, 75.0])
turn = st.floats(-360, 360) | st.integers(-8, 8).map(lambda n: 45.0 * n)
sweep = st.floats(1, 359) | st.sampled_from([90.0, 180.0, 270.0])
points = st.tuples(ordinate, ordinate)
lines = st.tuples(points, points).filter(lambda ab: math.dist(*ab) > 1e-3).map(lambda ab: Line(*ab))
arcs = st.builds(
    lambda centre, r, start, size, sign: Arc(centre, r, start, sign * size),
    points,
    radius,
    turn,
    sweep,
    st.sampled_from([1, -1]),
)
segment_s = lines | arcs


def as_string(segment: Segment) -> shapely.LineString:
    return shapely.LineString([*along(segment), segment.end])


@quick
@given(segment_s, segment_s)
def test_segments_as_far_apart_as_the_reference_says(a: Segment, b: Segment) -> None:
    expected = as_string(a).distance(as_string(b))
    assert segment_gap(a, b) == pytest.approx(expected, abs=TOLERANCE_MM)
    assert segment_gap(b, a) == pytest.approx(segment_gap(a, b), abs=1e-9)


@quick
@given(points, segment_s)
def test_points_as_far_off_as_the_reference_says(point: tuple[float, float], a: Segment) -> None:
    expected = as_string(a).distance(shapely.Point(point))
    assert point_gap(point, a) == pytest.approx(expected, abs=TOLERANCE_MM)


@st.composite
def loops(draw: st.DrawFn) -> Loop:
    x, y = draw(points)
    kind = draw(st.sampled_from(["circle", "sector", "box"]))
    if kind == "circle":
        return Circle((x, y), draw(radius))
    if kind == "sector":
        inner = draw(radius)
        return moved(annular_sector(inner, inner + draw(radius), draw(sweep)), x, y, draw(turn))
    w, h = draw(radius), draw(radius)
    return moved(polygon([(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]), x, y, draw(turn))


@quick
@given(loops(), loops())
def test_loops_as_far_apart_as_the_reference_says(a: Loop, b: Loop) -> None:
    expected = faceted(a).exterior.distance(faceted(b).exterior)
    assert loop_gap(a, b) == pytest.approx(expected, abs=TOLERANCE_MM)
    assert loop_gap(b, a) == pytest.approx(loop_gap(a, b), abs=1e-9)


@quick
@given(loops(), loops(), st.floats(0.5, 50))
def test_a_gap_beyond_enough_is_never_told_smaller(a: Loop, b: Loop, enough: float) -> None:
    full, cut_off = loop_gap(a, b), loop_gap(a, b, enough)
    if full < enough:
        assert cut_off == pytest.approx(full, abs=1e-9)
    else:
        assert cut_off >= enough


def circle(x: float, r: float) -> Circle:
    return Circle((x, 0.0), r)


@pytest.mark.parametrize(
    ("a", "b", "gap"),
    [
        (circle(0, 10), circle(30, 15), 5),  # side by side: distance less radii
        (circle(0, 10), circle(25, 15), 0),  # touching
        (circle(0, 10), circle(20, 15), 0),  # crossing
        (circle(0, 10), circle(0, 15), 5),  # concentric
        (circle(2, 10), circle(0, 15), 3),  # nested: difference of radii less distance
        (circle(5, 10), circle(0, 15), 0),  # touching from inside
        (circle(0, 10), circle(0, 10), 0),  # the same
    ],
)
def test_circles(a: Circle, b: Circle, gap: float) -> None:
    assert loop_gap(a, b) == pytest.approx(gap, abs=1e-12)
    assert loop_gap(b, a) == pytest.approx(gap, abs=1e-12)


def test_arc_that_does_not_reach_its_nearest_point() -> None:
    """Upper half of a circle from a point below: measured to an end, not to the circle."""
    half = Arc((0.0, 0.0), 10.0, 0.0, 180.0)
    assert point_gap((0.0, -20.0), half) == pytest.approx(math.hypot(10, 20))
    assert point_gap((0.0, 20.0), half) == pytest.approx(10)
    assert point_gap((0.0, 0.0), half) == pytest.approx(10)  # all of it is as near


def test_disc_in_the_mouth_of_a_sector_is_measured_to_the_hollow_side() -> None:
    ring = annular_sector(50.0, 60.0, 300.0)
    assert loop_gap(ring, Circle((0.0, 0.0), 44.0)) == pytest.approx(6)
    assert loop_gap(ring, Circle((3.0, 0.0), 44.0)) == pytest.approx(3)


@pytest.mark.parametrize("turn", [0.0, 45.0, 170.0, 260.0])
def test_arc_off_centre_within_another_is_nearest_on_the_far_side(turn: float) -> None:
    """Radii 10 in 20, centres 4 apart: 6 between them there, told either way round."""
    x, y = 4 * math.cos(math.radians(turn)), 4 * math.sin(math.radians(turn))
    inner = Arc((x, y), 10.0, turn - 30, 60.0)
    outer = Arc((0.0, 0.0), 20.0, turn + 100, -200.0)
    assert segment_gap(inner, outer) == pytest.approx(6)
    assert segment_gap(outer, inner) == pytest.approx(6)


def test_line_across_two_sides_crosses() -> None:
    box = polygon([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    assert loop_gap((Line((-5.0, 5.0), (15.0, 5.0)),), box) == 0.0
    assert loop_gap((Line((2.0, 5.0), (8.0, 5.0)),), box) == pytest.approx(2)


def test_box_gap_is_the_distance_of_boxes() -> None:
    assert box_gap((0, 0, 1, 1), (4, 5, 6, 7)) == pytest.approx(5)  # 3, 4, 5
    assert box_gap((0, 0, 1, 1), (0.5, 3, 6, 7)) == pytest.approx(2)
    assert box_gap((0, 0, 9, 9), (1, 1, 2, 2)) == 0
