"""Depths of the search against exact gaps on true arcs, and signed distances against shapely."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.search.depth import pair_depth, plate_depth
from platewheel.nesting.search.distance import extent, to_shape
from platewheel.nesting.search.search import Room, Try, separate
from platewheel.nesting.search.shape import Shape, goes_inside, placements_of, shape_of
from platewheel.nesting.search.world import world_of
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.outline import bounds, contains, segments
from tests.nesting.plates import disc, plate, sector, strip, tapered

SPACING = 6.0
SHEET = plate(900.0, 700.0)
SHAPES: list[Shape] = [
    shape_of(disc(140.0)),
    shape_of(sector(80.0, 105.0, 300.0)),
    shape_of(sector(80.0, 105.0, 100.0)),
    shape_of(strip(260.0, 40.0)),
    shape_of(tapered(160.0, 45.0, 700.0, "bent")),
]
WORLD = world_of(SHAPES, SHEET, SPACING, 10.0, SHEET.length_mm)
kinds = st.integers(0, len(SHAPES) - 1)
turns = st.floats(0.0, 2 * math.pi)
places = st.tuples(st.floats(-250.0, 250.0), st.floats(-250.0, 250.0), turns)


def depth(a: int, at: tuple[float, float, float], b: int, to: tuple[float, float, float]) -> float:
    first = (a, at[0], at[1], math.cos(at[2]), math.sin(at[2]))
    second = (b, to[0], to[1], math.cos(to[2]), math.sin(to[2]))
    return float(pair_depth(WORLD, *first, *second)[0])


@settings(max_examples=400, deadline=None)
@given(kinds, kinds, places, turns)
def test_parts_that_lie_apart_lack_just_what_the_exact_gap_lacks(
    a: int, b: int, at: tuple[float, float, float], turn: float
) -> None:
    here = (0.0, 0.0, turn)
    one, two = placements_of(SHAPES, [a, b], [here, at])
    gap = loop_gap(one.outline, two.outline)
    inside = contains(one.outline, segments(two.outline)[0].start)
    if gap == 0.0 or inside or contains(two.outline, segments(one.outline)[0].start):
        assert depth(a, here, b, at) > SPACING - 0.1
    else:
        lack = SPACING + 0.02 - gap
        found = depth(a, here, b, at)
        assert found >= lack - 0.012 if lack > 0.012 else found < 0.02
        assert found <= max(0.0, lack) + 0.012


@settings(max_examples=100, deadline=None)
@given(kinds, places, turns)
def test_depth_is_the_same_from_either_part(
    a: int, at: tuple[float, float, float], turn: float
) -> None:
    here = (0.0, 0.0, turn)
    for b in range(len(SHAPES)):
        assert depth(a, here, b, at) == pytest.approx(depth(b, at, a, here), abs=1e-9)


@settings(max_examples=200, deadline=None)
@given(kinds, st.floats(-200.0, 200.0), st.floats(-200.0, 200.0))
def test_signed_distance_is_that_of_shapely(kind: int, x: float, y: float) -> None:
    shape = SHAPES[kind]
    ring = outer_polygon(placements_of(SHAPES, [kind], [(0.0, 0.0, 0.0)])[0].outline)
    polygon = shapely.Polygon(ring)
    point = shapely.Point(x, y)
    want = polygon.exterior.distance(point) * (-1 if polygon.contains(point) else 1)
    got = float(to_shape(WORLD, kind, x, y))
    if want < SPACING:  # farther off, a polygon tells only that it is far
        assert got == pytest.approx(want, abs=0.35)  # facets stand off by up to 0.3 mm
    else:
        assert got > SPACING - 0.35
    assert shape.area_mm2 > 0


@settings(max_examples=200, deadline=None)
@given(kinds, turns)
def test_extent_is_the_bounds_of_the_true_outline(kind: int, turn: float) -> None:
    placed = placements_of(SHAPES, [kind], [(0.0, 0.0, turn)])[0]
    found = extent(WORLD, kind, math.cos(turn), math.sin(turn))
    loose = 2e-3
    assert found == pytest.approx(bounds(placed.outline), abs=loose)


def test_a_part_near_the_edge_of_an_uneven_plate_lacks_the_margin() -> None:
    corners = (
        (0.0, 0.0),
        (600.0, 0.0),
        (600.0, 300.0),
        (300.0, 300.0),
        (300.0, 600.0),
        (0.0, 600.0),
    )
    piece = Sheet("piece", 6.0, 600.0, 600.0, 1, 0.0, "S235", corners)
    world = world_of(SHAPES, piece, SPACING, 10.0, 600.0)
    gap = 10.0 + 0.001
    assert plate_depth(world, 0, 150.0, 150.0, 1.0, 0.0) == 0.0
    reflex = math.dist((250.0, 260.0), (300.0, 300.0)) - 70.0
    assert reflex < 0  # the disc lies over the inward corner
    assert plate_depth(world, 0, 250.0, 260.0, 1.0, 0.0) >= gap
    near = 600.0 - 70.0 - 4.0  # 4 mm from the upper edge
    assert plate_depth(world, 0, 150.0, near, 1.0, 0.0) >= gap - 4.0 - 1e-9


def test_a_disc_goes_into_the_mouth_that_holds_it_with_the_spacing() -> None:
    ring = sector(80.0, 105.0, 300.0)
    assert goes_inside(ring, disc(147.9), SPACING)
    assert not goes_inside(ring, disc(148.1), SPACING)
    assert not goes_inside(sector(80.0, 105.0, 170.0), disc(80.0), SPACING)
    assert not goes_inside(ring, strip(40.0, 20.0), SPACING)


def nested_shapes() -> list[Shape]:
    ring = sector(80.0, 105.0, 300.0)
    return [shape_of(ring, "any", disc(140.0)), shape_of(strip(260.0, 40.0), "half")]


def tries() -> list[Try]:
    return [Try(seed, {}) for seed in range(4)]


def test_the_search_lays_parts_proved_and_the_same_every_time() -> None:
    room = Room(SHEET, SPACING, 10.0, SHEET.length_mm)
    results: list[Any] = [separate(nested_shapes(), [6, 3], room, tries(), 3000) for _ in range(2)]
    assert results[0] is not None
    assert len(results[0].placements) == 6 * 2 + 3
    assert results[0].placements == results[1].placements
    turned = [p.rotation_deg for p in results[0].placements if p.blank.name.startswith("strip")]
    assert set(turned) <= {0.0, 180.0}


def test_the_first_try_that_ends_wins_whatever_the_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    room = Room(SHEET, SPACING, 10.0, SHEET.length_mm)
    both = separate(nested_shapes(), [6, 3], room, tries(), 3000)
    monkeypatch.setattr("platewheel.nesting.search.search.os.cpu_count", lambda: 1)
    one = separate(nested_shapes(), [6, 3], room, tries(), 3000)
    assert both is not None
    assert one is not None
    assert both.placements == one.placements


def test_what_no_room_holds_is_not_laid() -> None:
    room = Room(SHEET, SPACING, 10.0, SHEET.length_mm)
    assert separate([shape_of(strip(1000.0, 40.0))], [1], room, tries(), 50) is None
    assert separate([shape_of(disc(140.0))], [40], room, tries()[:1], 200) is None
    assert np.isfinite(WORLD.round).all()
