"""Plain geometry of pieces with a bulge, beside closed forms and a polygon library."""

from __future__ import annotations

import math
import tracemalloc
from itertools import pairwise

import ezdxf.math
import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.proof.pieces import (
    SAG_MM,
    Piece,
    _off_many,
    _short_chords,
    backwards,
    facets,
    off,
    path_length_mm,
    path_of,
    points_at,
    ring_path,
    samples,
    turned_area_mm2,
)
from platewheel.parts.geometry.blank import annular_sector
from platewheel.parts.geometry.outline import Circle
from tests.bench.sizes import comb

places = st.tuples(st.floats(-200, 200), st.floats(-200, 200))
bulges = st.floats(-1, 1).filter(lambda b: abs(b) > 0.01)


@st.composite
def arcs(draw: st.DrawFn) -> Piece:
    start = draw(places)
    turn, length = draw(st.floats(0, 2 * math.pi)), draw(st.floats(1, 200))
    end = (start[0] + length * math.cos(turn), start[1] + length * math.sin(turn))
    return Piece(start, end, draw(bulges))


@given(arcs())
def test_a_bulge_is_the_arc_that_the_drawing_library_makes_of_it(arc: Piece) -> None:
    """ezdxf.math.bulge_to_arc; it gives every arc counter-clockwise."""
    centre, low, high, radius = ezdxf.math.bulge_to_arc(arc.start, arc.end, arc.bulge)
    assert arc.circle[0] == pytest.approx(tuple(centre), abs=1e-6)
    assert arc.circle[1] == pytest.approx(radius)
    assert abs(arc.turn) == pytest.approx((high - low) % math.tau)
    assert arc.length_mm == pytest.approx(radius * abs(arc.turn))
    middle = (low + (high - low) % math.tau / 2) % math.tau
    half = (centre[0] + radius * math.cos(middle), centre[1] + radius * math.sin(middle))
    assert arc.at(0.5) == pytest.approx(half, abs=1e-6)
    assert arc.at(1.0) == pytest.approx(arc.end, abs=1e-6)


@given(arcs(), st.floats(0, 1))
def test_the_heading_is_the_way_from_just_before_to_just_behind(arc: Piece, share: float) -> None:
    for piece in (arc, Piece(arc.start, arc.end)):
        (ax, ay), (bx, by) = piece.at(share - 1e-5), piece.at(share + 1e-5)
        way = math.dist((ax, ay), (bx, by))
        assert piece.heading(share) == pytest.approx(((bx - ax) / way, (by - ay) / way), abs=1e-4)


@given(arcs(), places)
def test_distances_are_those_of_a_polygon_library(arc: Piece, spot: tuple[float, float]) -> None:
    wanted = shapely.LineString(facets((arc,))).distance(shapely.Point(spot))
    assert off(np.array([spot]), (arc,))[0] == pytest.approx(wanted, abs=2 * SAG_MM)
    chord = Piece(arc.start, arc.end)
    straight = shapely.LineString([arc.start, arc.end]).distance(shapely.Point(spot))
    assert off(np.array([spot]), (chord,))[0] == pytest.approx(straight, abs=1e-9)
    both = off(np.array([spot]), (arc, chord))[0]
    assert both == pytest.approx(min(wanted, straight), abs=2 * SAG_MM)


@given(st.lists(arcs(), min_size=1, max_size=4), st.lists(st.floats(0, 1), min_size=1))
def test_points_at_shares_of_all_pieces_are_those_of_each(round_, shares) -> None:
    path = (*round_, *(Piece(piece.end, piece.start) for piece in round_))
    wanted = [[piece.at(share) for share in shares] for piece in path]
    assert points_at(path, shares) == pytest.approx(np.array(wanted), abs=1e-9)


def test_points_along_short_pieces_are_as_many_as_their_length_asks() -> None:
    lengths = {0.05: 2, 0.15: 2, 0.45: 5, 0.75: 8, 2.0: 8, 6.0: 12}
    for length, wanted in lengths.items():
        spots = samples((Piece((0.0, 0.0), (length, 0.0)),), 0.5)
        assert len(spots) == wanted + 1
        assert np.diff(spots[:, 0]) == pytest.approx(length / wanted)


@given(arcs())
def test_points_along_a_piece_lie_on_it(arc: Piece) -> None:
    for points in (facets((arc,)), samples((arc,), 1.0)):
        assert off(points, (arc,)).max() < 1e-6
        assert tuple(points[0]) == pytest.approx(arc.start, abs=1e-6)
        assert tuple(points[-1]) == pytest.approx(arc.end, abs=1e-6)
    chords = samples(tuple(Piece(tuple(a), tuple(b)) for a, b in pairwise(facets((arc,)))), 1.0)
    assert off(chords, (arc,)).max() <= SAG_MM + 1e-9


def test_areas_and_lengths_by_closed_forms() -> None:
    circle = path_of(Circle((3.0, 4.0), 10.0))
    assert turned_area_mm2(circle) == pytest.approx(100 * math.pi)
    assert turned_area_mm2(backwards(circle)) == pytest.approx(-100 * math.pi)
    assert path_length_mm(circle) == pytest.approx(20 * math.pi)
    sector = path_of(annular_sector(50.0, 60.0, 200.0))
    assert turned_area_mm2(sector) == pytest.approx(200 / 360 * math.pi * (60**2 - 50**2))
    assert path_length_mm(sector) == pytest.approx(20 + 200 / 180 * math.pi * 110)
    assert path_of(annular_sector(50.0, 60.0, 200.0))[0].start == pytest.approx((60.0, 0.0))


def test_a_path_that_is_open_in_places_is_closed_by_straight_lines() -> None:
    corners = [(0.0, 0.0), (4.0, 0.0), (10.0, 0.0), (10.0, 5.0), (0.0, 5.0)]
    open_path = (Piece(*corners[:2]), Piece(corners[2], corners[3]), Piece(corners[3], corners[4]))
    assert turned_area_mm2(open_path) == pytest.approx(50.0)


@given(st.lists(arcs(), min_size=1, max_size=6), st.lists(places, min_size=1, max_size=8))
def test_distances_from_a_path_of_many_pieces_are_those_from_each(one, spots) -> None:
    path = tuple(one) + tuple(Piece(piece.end, piece.start) for piece in one)
    points = np.array(spots)
    assert _off_many(points, path) == pytest.approx(off(points, path), abs=1e-9)


def test_a_long_slanting_line_is_asked_for_by_short_parts_of_it() -> None:
    """Boxes of a star's rays lie over each other; those of their parts are about a ray each."""
    rays = [(math.cos(k * math.pi / 60), math.sin(k * math.pi / 60)) for k in range(120)]
    path = tuple(Piece((300 * x, 300 * y), (600 * x, 600 * y)) for x, y in rays)
    parts, home = _short_chords(path)
    spots = shapely.buffer(shapely.points([(470 * x, 470 * y) for x, y in rays]), 0.01)
    met = shapely.STRtree(parts).query(spots)
    assert len(met.T) <= 3 * len(rays)  # 28 boxes of whole rays about each
    assert set(range(120)) == set(home[met[1]])
    assert shapely.length(parts).sum() == pytest.approx(120 * 300.0)
    ends = shapely.get_coordinates(parts).reshape(-1, 4)
    assert off(ends[:, :2], path) == pytest.approx(0.0, abs=1e-9)


def test_distances_from_a_path_of_very_many_pieces_take_little_memory() -> None:
    """A comb of long teeth: the nearest end of a piece is often far off, other pieces are not."""
    path = ring_path(comb(600, 4.0, 150.0))
    points = samples(path, 10.0)[:20_000]
    tracemalloc.start()
    far = _off_many(points + np.array([0.3, 0.0]), path)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert far.max() == pytest.approx(0.3, abs=1e-9)
    assert peak < 30e6
