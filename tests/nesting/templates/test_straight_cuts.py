"""Straight cuts about round blanks, against regular polygons of a geometry library."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.templates.straight_cuts import (
    PROUD_MM,
    StraightCuts,
    cuts_of_arc,
    cuts_of_disc,
)

RADII = st.floats(15, 2000)


def polygon_about(cuts: StraightCuts) -> shapely.Polygon:
    """The square, turned again and again, cut with itself: what the straight cuts leave."""
    radius, far = cuts.radius_mm, 3 * cuts.radius_mm
    half_plane = shapely.box(-far, -far, radius, far)
    left = half_plane
    for i in range(1, cuts.count):
        turned = shapely.affinity.rotate(half_plane, 360 * i / cuts.count, origin=(0, 0))
        left = left.intersection(turned)
    return left


@given(RADII)
def test_cuts_leave_the_disc_whole_and_little_to_grind(radius: float) -> None:
    cuts = cuts_of_disc(radius)
    left = polygon_about(cuts)
    assert left.exterior.distance(shapely.Point(0, 0)) == pytest.approx(radius)
    far = left.exterior.hausdorff_distance(shapely.Point(0, 0))
    assert far - radius == pytest.approx(cuts.proud_mm, abs=1e-6)
    assert cuts.proud_mm <= PROUD_MM + 1e-9
    assert left.exterior.length / cuts.count == pytest.approx(cuts.length_mm, rel=1e-6)
    across = left.bounds[2] - left.bounds[0]  # a cut at +x and, the number even, one at -x
    assert across == pytest.approx(cuts.across_mm, rel=1e-9)


@given(RADII)
def test_two_fewer_would_leave_more(radius: float) -> None:
    count = cuts_of_disc(radius).count
    assert count % 2 == 0
    if count > 4:
        assert StraightCuts(count - 2, radius, 360.0).proud_mm > PROUD_MM - 1e-9


# Across corners by across flats of regular polygons, as in any engineering handbook (from memory)
@pytest.mark.parametrize(("count", "share"), [(4, 1.4142), (6, 1.1547), (8, 1.0824), (12, 1.0353)])
def test_across_corners_of_known_polygons(count: int, share: float) -> None:
    cuts = StraightCuts(count, 50.0, 360.0)
    assert (50.0 + cuts.proud_mm) / 50.0 == pytest.approx(share, abs=5e-5)


# Chords to divide a circle of diameter 1, as in any engineering handbook (from memory)
@pytest.mark.parametrize(("count", "chord"), [(4, 0.70711), (6, 0.5), (8, 0.38268), (12, 0.25882)])
def test_compass_step(count: int, chord: float) -> None:
    assert StraightCuts(count, 0.5, 360.0).step_mm == pytest.approx(chord, abs=5e-6)


@given(RADII, st.floats(5, 350))
def test_cuts_of_an_arc(radius: float, sweep: float) -> None:
    cuts = cuts_of_arc(radius, sweep)
    corner = radius / math.cos(math.radians(sweep / cuts.count / 2))
    assert corner - radius <= PROUD_MM + 1e-6
    if cuts.count > 1:
        assert StraightCuts(cuts.count - 1, radius, sweep).proud_mm > PROUD_MM - 1e-6 or (
            sweep / (cuts.count - 1) >= 180
        )
