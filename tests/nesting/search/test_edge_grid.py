"""Distances by the grid of near edges, and what the search sees of polygons, against shapely."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.search.depth import pair_depth
from platewheel.nesting.search.edge_grid import EdgeGrid, edge_grid, to_edges
from platewheel.nesting.search.samples import poles
from platewheel.nesting.search.search import Room, Try, separate
from platewheel.nesting.search.shape import shape_of
from platewheel.nesting.search.world import world_of
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Point, polygon
from tests.nesting.plates import disc, plate

AROUND = 60.0


@st.composite
def stars(draw: Any) -> tuple[Point, ...]:
    """A ring of 4 to 12 corners seen from its middle one after the other, thin tips and all."""
    count = draw(st.integers(4, 12))
    radii = draw(st.lists(st.floats(8.0, 150.0), min_size=count, max_size=count))
    turns = [2 * math.pi * (k + 0.3 * draw(st.floats(-1, 1))) / count for k in range(count)]
    return tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turns, strict=True))


def grid_distance(grid: EdgeGrid, x: float, y: float) -> float:
    """Distance as the search takes it: from the list of the point's own cell."""
    column, row = int((x - grid.x) / grid.cell), int((y - grid.y) / grid.cell)
    assert 0 <= column < grid.columns
    assert 0 <= row < grid.rows
    cell = column * grid.rows + row
    near = (grid.edges, grid.near, grid.first[cell], grid.first[cell + 1])
    return float(to_edges(*near, x, y))


@settings(max_examples=60, deadline=None)
@given(stars(), st.data())
def test_distance_from_any_cell_is_that_of_shapely(ring: tuple[Point, ...], data: Any) -> None:
    grid, steel = edge_grid([ring], AROUND), shapely.Polygon(ring)
    x0, y0, x1, y1 = steel.bounds
    for _ in range(20):
        x = data.draw(st.floats(x0 - AROUND + 0.1, x1 + AROUND - 0.1))
        y = data.draw(st.floats(y0 - AROUND + 0.1, y1 + AROUND - 0.1))
        point = shapely.Point(x, y)
        off = steel.exterior.distance(point)
        want = -off if steel.contains(point) else off
        assert grid_distance(grid, x, y) == pytest.approx(want, abs=1e-7)


def test_a_hole_in_a_plate_is_outside_of_it() -> None:
    rings = [
        [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)],
        [(40.0, 40.0), (40.0, 60.0), (60.0, 60.0), (60.0, 40.0)],
    ]
    grid = edge_grid(rings, 10.0)
    assert grid_distance(grid, 50.0, 50.0) == pytest.approx(10.0)
    assert grid_distance(grid, 50.0, 20.0) == pytest.approx(-20.0)
    assert grid_distance(grid, 50.0, -5.0) == pytest.approx(5.0)


@settings(max_examples=60, deadline=None)
@given(stars())
def test_poles_are_discs_inside_and_the_first_is_nearly_the_largest_there_is(
    ring: tuple[Point, ...],
) -> None:
    steel, found = shapely.Polygon(ring), poles(ring)
    for x, y, radius in found:
        assert steel.exterior.distance(shapely.Point(x, y)) == pytest.approx(radius, abs=1e-7)
        assert steel.contains(shapely.Point(x, y))
    widest = max(found, key=lambda pole: pole[2])[2]
    best = shapely.maximum_inscribed_circle(steel, 0.1).length
    cell = max(np.ptp(np.array(ring), axis=0)) / 64
    assert best - 0.1 - cell * math.sqrt(2) / 2 <= widest <= best + 0.1


def star_depths(a: tuple[Point, ...], b: tuple[Point, ...], x: float, y: float) -> float:
    shapes = [
        shape_of(Blank(name, "extra", 8.0, polygon(list(ring))))
        for name, ring in (("a", a), ("b", b))
    ]
    world = world_of(shapes, plate(900.0, 900.0), 0.0, 0.0, 900.0)
    (ax, ay), (bx, by) = shapes[0].centre, shapes[1].centre
    one, two = (0, ax, ay, 1.0, 0.0), (1, bx + x, by + y, 1.0, 0.0)
    return float(pair_depth(world, *one, *two)[0])


@settings(max_examples=150, deadline=None)
@given(stars(), stars(), st.floats(-250.0, 250.0), st.floats(-250.0, 250.0))
def test_polygons_that_overlap_are_seen_to_and_others_are_not(
    a: tuple[Point, ...], b: tuple[Point, ...], x: float, y: float
) -> None:
    one = shapely.Polygon(a)
    two = shapely.Polygon([(p + x, q + y) for p, q in b])
    found = star_depths(a, b, x, y)
    if one.distance(two) > 0.021:  # the search keeps 0.02 mm off
        assert found == 0.0
    elif one.intersection(two).area > 1e-3:
        assert found > 0.0


def test_thin_tips_that_cross_between_their_corners_are_seen() -> None:
    flat = ((-200.0, 0.0), (0.0, -1.0), (200.0, 0.0), (0.0, 1.0))
    upright = tuple((-y, x) for x, y in flat)
    assert star_depths(flat, upright, 71.0, 53.0) > 1.0


def test_of_two_tries_the_one_with_fewer_moves_wins_on_one_core_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    room = Room(plate(640.0, 640.0), 6.0, 10.0, 640.0)
    shapes = [shape_of(disc(140.0))]
    found: list[Any] = []
    for cores in (1, 2):
        monkeypatch.setattr("os.cpu_count", lambda cores=cores: cores)
        found.append(separate(shapes, [16], room, [Try(3, {}), Try(8, {})], 20000))
    alone = [separate(shapes, [16], room, [Try(seed, {})], 20000) for seed in (3, 8)]
    best = min((one for one in alone if one), key=lambda one: one.moves)
    assert found[0].placements == found[1].placements == best.placements
