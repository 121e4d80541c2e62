"""Places that the kerf cannot follow beside corners and each other: told for what they are."""

from __future__ import annotations

import pytest
import shapely
import shapely.affinity

from platewheel.nesting.drawings.kerf_fit import Fitted, fitted
from platewheel.nesting.drawings.narrow_places import region_of
from platewheel.parts.geometry.outline import area_mm2, polygon

KERF = 1.7


@pytest.mark.parametrize("share", [0.8, 0.9, 0.97])
@pytest.mark.parametrize("turn", [10, 25, 45])
@pytest.mark.parametrize("deep", [2.5, 5.0])
def test_a_slanting_slit_is_no_corner_however_short(share: float, turn: float, deep: float) -> None:
    """The disc rolls along one wall and rests on the other's end, as in a corner that runs to a
    point; but behind is a slit of one width."""
    wide = share * KERF
    slit = shapely.box(-wide / 2, -deep, wide / 2, 30)
    slit = shapely.affinity.translate(shapely.affinity.rotate(slit, turn, origin=(0, 0)), 50, 50)
    left = shapely.box(0, 0, 100, 50).difference(slit)
    found = fitted(polygon(shapely.get_coordinates(left)[:-1].tolist()), (), KERF)
    (fine,) = found.fine
    assert fine.what == "a hollow"
    assert fine.width_mm == pytest.approx(wide, abs=0.2)
    assert 0 <= 5000.0 - area_mm2(found.outline) + 1e-6 < wide**2  # of wide x deep or more


@pytest.mark.parametrize("hook", [1.0, 3.0])
def test_places_behind_one_mouth_are_filled_once(hook: float) -> None:
    """A slit with a barb: two places, before which the disc rests alike."""
    corners = [
        *[(-33.52, 1.183), (-8.084, -12.677), (-6.963, -10.281), (-0.981, -10.956)],
        *[(-1.199, -12.884), (-5.796, -12.365), (-6.378, -13.607), (19.165, -27.526)],
        *[(33.52, -1.183), (-19.165, 27.526 + hook)],
    ]
    found = fitted(polygon(corners), (), 2.0)
    assert len(found.fine) >= 2
    assert not found.stuck
    hull = shapely.Polygon(corners).convex_hull
    assert region_of(found.outline).area == pytest.approx(hull.area, abs=1.0)


def test_a_tiny_edge_beside_an_open_corner_is_no_narrow_place() -> None:
    """A bay of eight sides whose mouth does not quite meet its corner."""
    bay_ = [
        *[(-15.0, -2.5), (-8.24338, -2.5), (-8.24338, -2.48774), (-6.24338, -3.31617)],
        *[(-3.83079, -2.31684), (-2.83147, 0.09575), (-3.83079, 2.50833), (-6.24338, 3.50766)],
        *[(-8.65597, 2.50833), (-8.65942, 2.5), (-15.0, 2.5)],
    ]
    loop = polygon([(-15.0, 30.0), (15.0, 30.0), (15.0, -30.0), (-15.0, -30.0), *bay_])
    assert fitted(loop, (), 2.0) == Fitted(loop, (), ())
