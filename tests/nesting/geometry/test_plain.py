"""Polygons of very many corners are laid as plain ones that hold them; others as they are."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry import facets
from platewheel.nesting.geometry.facets import (
    MANY_CORNERS,
    MOST_CORNERS,
    TOLERANCE_MM,
    convex_pieces,
    laid_larger,
    laid_polygon,
    outer_polygon,
)
from platewheel.nesting.geometry.plain import PLAIN_CORNERS, joined_convex
from platewheel.parts.geometry.outline import Loop, polygon
from tests.bench.sizes import wavy

few = settings(max_examples=25, deadline=None)


def star(count: int, size: float, waves: list[tuple[int, float]]) -> Loop:
    """A polygon whose radius goes up and down."""

    def at(turn: float) -> tuple[float, float]:
        radius = size * (1 + sum(high * math.sin(often * turn) for often, high in waves))
        return radius * math.cos(turn), radius * math.sin(turn)

    return polygon([at(2 * math.pi * k / count) for k in range(count)])


def comb(teeth: int, pitch: float, deep: float) -> Loop:
    points = [(0.0, -5.0)]
    for k in range(teeth):
        x = k * pitch
        points += [(x, deep), (x + pitch / 2, deep), (x + pitch / 2, 0.0), (x + pitch, 0.0)]
    points = [(0.0, -5.0), *((x, y) for x, y in points[1:])]
    return polygon([(0.0, -5.0), (teeth * pitch, -5.0), *reversed(points[1:])])


waves = st.lists(st.tuples(st.integers(2, 60), st.floats(0.0, 0.2)), max_size=4)
many = st.builds(star, st.integers(MOST_CORNERS + 1, 900), st.floats(5, 800), waves)
combs = st.builds(comb, st.integers(60, 200), st.floats(2, 40), st.floats(5, 300))


@given(many | combs)
@few
def test_a_plain_polygon_holds_the_one_of_many_corners(loop: Loop) -> None:
    shape = shapely.Polygon(outer_polygon(loop))
    assume(shape.is_valid)
    plain = laid_polygon(loop)
    assert len(plain) <= PLAIN_CORNERS
    assert shapely.Polygon(plain).is_valid
    assert shapely.Polygon(plain).covers(shape)
    assert laid_larger(loop) == pytest.approx(shapely.Polygon(plain).area / shape.area - 1)


fewer = st.builds(star, st.integers(MANY_CORNERS + 1, MOST_CORNERS), st.floats(5, 800), waves)


@given(many | combs | fewer)
@few
def test_its_pieces_are_convex_and_together_just_it(loop: Loop) -> None:
    assume(shapely.Polygon(outer_polygon(loop)).is_valid)
    plain = shapely.Polygon(laid_polygon(loop))
    pieces = [shapely.Polygon(piece) for piece in convex_pieces(loop)]
    assert all(p.area == pytest.approx(p.convex_hull.area, rel=1e-9) for p in pieces)
    assert math.fsum(p.area for p in pieces) == pytest.approx(plain.area, rel=1e-9)
    assert shapely.union_all(pieces).symmetric_difference(plain).area <= 1e-6 * plain.area


@given(st.builds(star, st.integers(3, MOST_CORNERS), st.floats(5, 800), waves))
@few
def test_a_polygon_of_fewer_corners_is_laid_as_it_is(loop: Loop) -> None:
    points = outer_polygon(loop)
    assert laid_polygon(loop) == points
    assert laid_larger(loop) == 0.0
    triangles = facets._triangles(points)
    assert len(convex_pieces(loop)) <= len(triangles)
    if len(points) <= MANY_CORNERS:
        assert convex_pieces(loop) == triangles


def test_many_corners_are_few_pieces() -> None:
    """Waves of a round edge: half the corners, the hollow ones, could each ask for a piece."""
    loop = star(100, 80.0, [(5, 0.08)])
    assert len(facets._triangles(outer_polygon(loop))) == 98
    assert len(convex_pieces(loop)) <= 50


def test_a_round_of_short_lines_is_hardly_larger_and_a_fine_comb_is_filled() -> None:
    disc, fine = star(4000, 80, []), comb(200, 2.0, 80)
    assert 0 < laid_larger(disc) < 4 * TOLERANCE_MM * 2 / 80
    solid = shapely.Polygon(outer_polygon(fine)).convex_hull
    assert shapely.Polygon(laid_polygon(fine)).area > 0.98 * solid.area
    assert laid_larger(fine) > 0.5


def test_triangles_of_a_convex_polygon_become_one_piece() -> None:
    ring = [(math.cos(k), math.sin(k)) for k in (0, 1, 2, 3, 4, 5, 6)]
    fan = [[ring[0], ring[k], ring[k + 1]] for k in range(1, 6)]
    assert len(joined_convex(fan)) == 1
    assert len(joined_convex([fan[0][::-1], *fan[1:]])) == 1


def test_what_lies_round_an_uneven_plate_is_joined_to_few_pieces_that_are_all_of_it() -> None:
    plate = shapely.Polygon(wavy(1000, 600.0, 31))
    for scrap in shapely.get_parts(shapely.box(*plate.bounds).difference(plate)):
        parts = shapely.constrained_delaunay_triangles(scrap).geoms
        triangles = [list(part.exterior.coords)[:-1] for part in parts]
        pieces = [shapely.Polygon(piece) for piece in joined_convex(triangles)]
        assert len(pieces) < 0.6 * len(triangles)
        assert shapely.union_all(pieces).symmetric_difference(scrap).area < 1e-6
        assert sum(piece.area for piece in pieces) < scrap.area + 1e-6
