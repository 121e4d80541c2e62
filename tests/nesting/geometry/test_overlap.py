"""Depth of two outlines in each other, against shapely and by hand."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.overlap import inner_point, overlap_depth
from platewheel.parts.geometry.blank import annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, contains, moved, polygon

SQUARE = polygon([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
EASY = settings(max_examples=150, deadline=None, derandomize=True)


def test_touching_is_no_depth() -> None:
    assert overlap_depth(SQUARE, moved(SQUARE, 10.0, 3.0)) == 0.0
    assert overlap_depth(Circle((0.0, 0.0), 5.0), Circle((10.0, 0.0), 5.0)) < 1e-9


def test_a_cross_of_two_bars_has_no_corner_inside_and_still_a_depth() -> None:
    flat = polygon([(0.0, 4.0), (20.0, 4.0), (20.0, 6.0), (0.0, 6.0)])
    tall = polygon([(9.0, -10.0), (11.0, -10.0), (11.0, 20.0), (9.0, 20.0)])
    assert overlap_depth(flat, tall) == pytest.approx(1.0)  # middle of a 2 mm bar


def test_a_disc_in_a_mouth_and_out_of_it() -> None:
    cone = annular_sector(60.0, 80.0, 300.0)
    assert overlap_depth(cone, Circle((0.0, 0.0), 59.9)) == 0.0
    assert overlap_depth(cone, Circle((0.0, 0.0), 61.0)) == pytest.approx(1.0, abs=1e-6)


def test_one_inside_the_other() -> None:
    inner = moved(polygon([(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]), 4.0, 4.0)
    assert overlap_depth(SQUARE, inner) == pytest.approx(4.0)


@EASY
@given(st.floats(-12, 12), st.floats(-12, 12), st.integers(0, 359))
def test_depth_goes_with_shared_area(x: float, y: float, turn: int) -> None:
    """No shared area, no depth; a depth d needs an area of about d^2 at least in right corners,
    and a shared area of a has a depth of a over its length at least a quarter."""
    other = moved(polygon([(0.0, 0.0), (8.0, 0.0), (8.0, 5.0), (0.0, 5.0)]), x, y, float(turn))
    a, b = (shapely.Polygon([s.start for s in loop]) for loop in (SQUARE, other))
    area, depth = a.intersection(b).area, overlap_depth(SQUARE, other)
    if area < 1e-9:
        assert depth < 1e-3
    else:
        assert depth > 0
        assert depth <= math.sqrt(area) + 1e-9
        assert depth >= 0.1 * area / a.intersection(b).length


@pytest.mark.parametrize(
    "loop",
    [SQUARE, Circle((3.0, 4.0), 5.0), annular_sector(60.0, 80.0, 300.0), SQUARE[::-1]],
)
def test_an_outline_on_itself_is_as_deep_as_a_point_within(loop) -> None:
    """No piece of either lies inside the other, and they share all their steel."""
    assert overlap_depth(loop, loop) >= 0.1 - 1e-9
    assert overlap_depth(loop, moved(loop, 1e-7, 0.0)) >= 0.1 - 1e-6
    assert contains(loop, inner_point(loop))


def test_half_discs_of_one_circle_only_touch() -> None:
    """On either side of its diameter; each lies in the whole disc."""
    upper = (Arc((0.0, 0.0), 5.0, 0.0, 180.0), Line((-5.0, 0.0), (5.0, 0.0)))
    lower = (Arc((0.0, 0.0), 5.0, 180.0, 180.0), Line((5.0, 0.0), (-5.0, 0.0)))
    assert overlap_depth(upper, lower) == pytest.approx(0.0, abs=1e-9)
    assert overlap_depth(upper, Circle((0.0, 0.0), 5.0)) > 1.0
