"""Splines given by the points they run through. Reference: the drawing library's own, of few."""

from __future__ import annotations

import itertools
import math
import tracemalloc

import ezdxf
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings.curves import spline_of

PLACES = st.lists(
    st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=2, max_size=30
).filter(lambda places: all(a != b for a, b in itertools.pairwise(places)))


def drawn(places: list[tuple[float, float]], *, tangents: bool = False) -> ezdxf.entities.Spline:
    spline = ezdxf.new().modelspace().add_spline(places)
    if tangents:
        spline.dxf.start_tangent, spline.dxf.end_tangent = (1, 2, 0), (0, -1, 0)
    return spline


@given(PLACES, st.booleans())
def test_a_spline_through_points_is_the_librarys_own(
    places: list[tuple[float, float]], tangents: bool
) -> None:
    spline = drawn(places, tangents=tangents)
    found, expected = spline_of(spline), spline.construction_tool()
    assert found.knots() == pytest.approx(expected.knots(), abs=1e-12)
    points, own = (np.array(list(one.control_points)) for one in (found, expected))
    assert points == pytest.approx(own, abs=1e-6)


def test_a_point_drawn_twice_is_one() -> None:
    places = [(0.0, 0.0), (10.0, 5.0), (20.0, 0.0), (30.0, 9.0)]
    twice = [place for place in places for _ in range(2)]
    assert spline_of(drawn(twice)).knots() == spline_of(drawn(places)).knots()
    with pytest.raises(ValueError, match="no two points"):
        spline_of(drawn(2 * places[:1]))


def test_thousands_of_points_take_no_square_of_memory() -> None:
    """Two thousand by two thousand numbers of eight bytes are 32 MB."""
    turns = [i * 2 * math.pi / 2000 for i in range(2001)]
    spline = drawn([(500 * math.cos(turn), 500 * math.sin(turn)) for turn in turns])
    spline_of(drawn([(0.0, 0.0), (1.0, 0.0)]))  # what is loaded once
    tracemalloc.start()
    try:
        found = spline_of(spline)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert most < 10e6
    middle = next(iter(found.points([0.5])))
    assert (middle.x, middle.y) == pytest.approx((-500.0, 0.0), abs=1e-6)
