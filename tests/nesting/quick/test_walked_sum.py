"""The walked no-fit region beside the union of sums that a polygon library makes."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.facets import laid_polygon
from platewheel.nesting.quick.no_fit import NoFit, variants
from platewheel.nesting.quick.no_fit_polygon import mask_of, no_fit_polygon
from platewheel.nesting.quick.walked_sum import mask_within, walk_of, walked_sum
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Point, moved, polygon
from tests.bench.sizes import comb, thin_c, wavy

FAR = st.integers(5, 60)  # whole mm, so that corners and grid points fall together


@st.composite
def drawn(draw: st.DrawFn) -> list[Point]:
    """A polygon seen whole from its middle, its corners on whole mm."""
    far = draw(st.lists(FAR, min_size=5, max_size=14))
    turns = [2 * math.pi * k / len(far) for k in range(len(far))]
    points = [
        (round(r * math.cos(t)), round(r * math.sin(t))) for r, t in zip(far, turns, strict=True)
    ]
    return [(float(x), float(y)) for x, y in points]


def triangles(points: list[Point]) -> list[list[Point]]:
    parts = shapely.constrained_delaunay_triangles(shapely.Polygon(points))
    return [list(part.exterior.coords)[:-1] for part in parts.geoms]


@settings(max_examples=10, deadline=None, derandomize=True)
@given(drawn(), drawn(), st.sampled_from([0.0, 0.25]))
def test_it_bars_the_grid_points_that_the_union_of_sums_bars(
    a: list[Point], b: list[Point], off: float
) -> None:
    if not (shapely.Polygon(a).is_valid and shapely.Polygon(b).is_valid):
        return
    edges = walked_sum(walk_of(a), walk_of([(-x, -y) for x, y in b]))
    region = no_fit_polygon(triangles(a), triangles(b), 0.0)
    mask, (i0, j0) = mask_within(edges, (off, off), 1.0)
    at = np.stack(np.indices(mask.shape), axis=-1).reshape(-1, 2) + np.array([off + i0, off + j0])
    clear = shapely.distance(region.boundary, shapely.points(at)) > 1e-6
    inside = shapely.contains_xy(region, at)
    assert (mask.ravel() == inside)[clear].all()
    assert mask_of(region, (off, off), 1.0)[0].sum() <= mask.sum() + region.length


def test_walks_are_closed_where_sides_of_both_are_parallel() -> None:
    """Two combs: nearly all sides lie in four directions."""
    one, other = comb(12, 8.0, 40.0), comb(9, 11.0, 30.0)
    edges = walked_sum(walk_of(one), walk_of([(-x, -y) for x, y in other]))
    leave, arrive = np.unique(edges[:, :2], axis=0), np.unique(edges[:, 2:], axis=0)
    assert np.allclose(leave, arrive)
    assert abs((edges[:, 2:] - edges[:, :2]).sum(axis=0)).max() < 1e-6


def blank(name: str, points: list[Point]) -> Blank:
    return Blank(name, "extra", 6.0, polygon(points))


def test_a_plate_takes_no_other_places_for_parts_of_many_corners() -> None:
    """Masks with the spacing, at quarter turns, walked and united."""
    comb_, disc = blank("comb", comb(30, 16.0, 60.0)), blank("disc", wavy(150, 45.0, 9))
    walked, united = NoFit(6.0, 1.0), NoFit(6.0, 1.0)
    united._rings = {(name, wide): None for name in ("comb", "disc") for wide in (True, False)}
    fixed = variants(comb_)[1]
    for moving in (variants(disc)[0], variants(comb_)[2]):
        assert walked._walked(fixed.blank, moving.blank)[0] is not None
        (a, low), (b, other) = walked.mask(fixed, moving), united.mask(fixed, moving)
        assert low == other
        assert (a != b).sum() <= 2  # a point on the region's own edge


def test_a_hollow_that_the_spacing_closes_is_left_to_the_union() -> None:
    """A disc may lie in a ring whose mouth is narrower than the spacing."""
    ring, disc = blank("ring", thin_c(180, 100.0, 12.0)), blank("disc", wavy(120, 40.0, 9))
    fits = NoFit(12.0, 1.0)
    assert fits._walked(ring, disc)[0] is None
    (mask, (i, j)) = fits.mask(variants(ring)[0], variants(disc)[0])
    low, high = variants(ring)[0].low, variants(disc)[0].low
    assert not mask[round(high[0] - low[0]) - i, round(high[1] - low[1]) - j]


@pytest.mark.parametrize("turns", [(90, 270), (180, 90), (270, 180)])
def test_parts_that_may_touch_do_not_overlap_at_any_grid_point(turns: tuple[int, int]) -> None:
    """Corners on whole mm, turned: grid points lie on sides of both, but for the last digit."""
    one, other = blank("one", comb(6, 8.0, 20.0)), blank("other", comb(4, 12.0, 25.0))
    fits = NoFit(0.0, 1.0)
    fixed, moving = (
        next(v for v in variants(part) if v.rotation_deg == turn)
        for part, turn in zip((one, other), turns, strict=True)
    )
    assert fits._walked(one, other)[0] is not None
    mask, low = fits.mask(fixed, moving)
    shapes = [
        shapely.Polygon(laid_polygon(moved(v.blank.outline, 0, 0, v.rotation_deg)))
        for v in (fixed, moving)
    ]
    off = np.stack(np.indices(mask.shape), axis=-1).reshape(-1, 2) + np.array(low)
    off = off + np.array(fixed.low) - np.array(moving.low)
    laid = shapely.polygons(shapely.get_coordinates(shapes[1])[None] + off[:, None])
    shapely.prepare(shapes[0])
    overlap = shapely.area(shapely.intersection(shapes[0], laid))
    apart = shapely.distance(shapes[0], laid)
    barred = mask.ravel()
    assert (overlap[~barred] < 1e-4).all()
    assert (apart[barred] < 1e-6).all()
