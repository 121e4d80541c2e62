"""Of an outline of thousands of chords, only those about a place are looked at."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings.narrow_places import Chords, narrow_places, region_of
from platewheel.parts.geometry.outline import polygon

places = st.tuples(st.floats(-60, 60), st.floats(-60, 60))
RING = shapely.Point(0, 0).buffer(40, quad_segs=8).difference(shapely.box(-10, -9, 12, 8))


@given(st.lists(places, min_size=1, max_size=5), st.floats(0.1, 30))
def test_chords_near_a_place_are_those_that_a_polygon_library_finds(spots, wide: float) -> None:
    edge = Chords(RING.boundary)
    assert [bool(near) for near in edge.within(shapely.points(spots), wide)] == [
        RING.boundary.distance(shapely.Point(spot)) <= wide for spot in spots
    ]
    disc = shapely.Point(spots[0]).buffer(wide)
    wanted = RING.boundary.intersection(disc).length
    assert edge.about(disc).intersection(disc).length == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize(("gap_mm", "found"), [(1.9, 39), (2.1, 0)])
def test_each_gap_of_a_comb_is_told_once(gap_mm: float, found: int) -> None:
    """Forty teeth; the disc that goes into the gaps or does not has a radius of 1 mm."""
    corners = [(0.0, -20.0), (40 * 6.0 - gap_mm, -20.0)]
    for k in reversed(range(40)):
        left, right = k * 6.0, (k + 1) * 6.0 - gap_mm
        corners += [(right, 0.0), (right, 30.0), (left, 30.0), (left, 0.0)]
    comb = region_of(polygon(corners))
    narrow = narrow_places(shapely.box(*comb.bounds).buffer(9).difference(comb), 1.0)
    assert [one.kind for one in narrow] == found * ["end"]
    assert [one.width_mm for one in narrow] == pytest.approx(found * [gap_mm], abs=0.02)
    rests = math.sqrt(max(0.0, 1 - (gap_mm / 2) ** 2))  # the disc's centre above the teeth
    deep = math.hypot(30 + rests, gap_mm / 2) - 1
    assert [one.deep_mm for one in narrow] == pytest.approx(found * [deep], abs=0.02)
