"""The largest free rectangle: free by exact gaps, and as large as by slower and plainer means."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.free_cells import largest_blocks, taken_cells
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.offcuts.largest_rectangle import END_WORTH, Rectangle, largest_rectangle
from platewheel.nesting.offcuts.taken import faceted, rings_of, taken_rings
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, contains, polygon, segments
from tests.nesting.plates import disc, offcut, on_plate, plate, sector, steel, strip
from tests.nesting.plates import faceted as fine

GAP = 1.7  # between two pieces that are kept
CLEAR = 3.0
NOTCHED = offcut(
    "notched",
    [(0.0, 0.0), (803.0, 0.0), (803.0, 250.0), (350.0, 250.0), (350.0, 602.0), (0.0, 602.0)],
    (((500.0, 100.0), (540.0, 100.0), (520.0, 140.0)),),
)
BLANKS = [disc(90.0), strip(300.0, 40.0), sector(100.0, 120.0, 330.0), sector(90.0, 110.0, 100.0)]
places = st.tuples(
    st.sampled_from(BLANKS),
    st.floats(0, 800),
    st.floats(0, 600),
    st.floats(0, 360),
)
layouts = st.builds(
    lambda placed, sheet: Layout(sheet, tuple(Placement(*one) for one in placed)),
    st.lists(places, min_size=1, max_size=5),
    st.sampled_from([plate(803.0, 602.0), NOTCHED]),
)


def area(room: Rectangle | None) -> float:
    return (room[2] - room[0]) * (room[3] - room[1]) if room else 0.0


def assert_free(room: Rectangle, layout: Layout, clear_mm: float) -> None:
    """By the exact gaps of the verifier, on true arcs."""
    x0, y0, x1, y1 = room
    loop = polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    for placement in layout.placements:
        assert loop_gap(loop, placement.outline) >= clear_mm - 1e-9
        assert not contains(loop, segments(placement.outline)[0].start)
        if not any(contains(hole, (x0, y0)) for hole in placement.holes):
            assert not contains(placement.outline, (x0, y0))
    assert steel(layout.sheet).buffer(1e-6).covers(shapely.box(*room))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(layouts, st.sampled_from([1.0, CLEAR, 8.0]), st.sampled_from([0.0, 120.0]))
def test_it_is_free_and_not_below_the_least_side(
    layout: Layout, clear_mm: float, least_mm: float
) -> None:
    room = largest_rectangle(layout, clear_mm, least_mm)
    if room is None:
        assert least_mm > 0
        return
    assert_free(room, layout, clear_mm)
    assert min(room[2] - room[0], room[3] - room[1]) >= least_mm
    more = largest_rectangle(layout, clear_mm, least_mm, [room], GAP)
    if more:
        assert_free(more, layout, clear_mm)
        assert area(more) <= END_WORTH * area(room)
        assert shapely.box(*more).distance(shapely.box(*room)) >= GAP - 1e-9


def plain_best(layout: Layout, clear_mm: float) -> float:
    """Largest rectangle with corners on whole 2 mm, each pair of columns tried on true distances.

    The reference's polygons (`tests.nesting.plates`) decide which squares are free.
    """
    step, sheet = 2.0, layout.sheet
    taken = shapely.union_all([on_plate(p) for p in layout.placements]).buffer(clear_mm)
    x, y = np.arange(0, sheet.length_mm, step), np.arange(0, sheet.width_mm, step)
    squares = shapely.box(x[:, None], y[None, :], x[:, None] + step, y[None, :] + step)
    shapely.prepare(taken)
    free = ~shapely.intersects(taken, squares)
    most = 0
    for left in range(len(x)):
        rows = np.ones(len(y), dtype=bool)
        for right in range(left, len(x)):
            rows = rows & free[right]
            edges = np.flatnonzero(np.diff(np.concatenate([[0], rows.astype(int), [0]])))
            if len(edges):
                most = max(most, (right - left + 1) * int((edges[1::2] - edges[::2]).max()))
    return most * step**2


@pytest.mark.parametrize("seed", range(8))
def test_none_larger_is_found_by_trying_all(seed: int) -> None:
    rng = np.random.default_rng(seed)
    blanks = [disc(40.0), strip(80.0, 20.0), sector(60.0, 70.0, 200.0), sector(30.0, 40.0, 300.0)]
    placed = tuple(
        Placement(
            blanks[rng.integers(4)], rng.uniform(0, 240), rng.uniform(0, 180), rng.uniform(0, 360)
        )
        for _ in range(rng.integers(1, 6))
    )
    layout = Layout(plate(240.0, 180.0), placed)
    found = area(largest_rectangle(layout, CLEAR))
    assert found * END_WORTH >= plain_best(layout, CLEAR)
    blocked = Layout(layout.sheet, (*placed, Placement(strip(180.0, 1.0), 240.0, 0.0, 90.0)))
    assert area(largest_rectangle(blocked, CLEAR)) >= plain_best(blocked, CLEAR)


def test_in_a_round_hollow_it_is_the_square() -> None:
    """Of all rectangles in a circle the square is the largest, 2 r^2 (Euclid, from memory).

    The 10 degrees that the ring is open lie off the square's corners.
    """
    ring = sector(300.0, 320.0, 350.0)
    layout = Layout(plate(640.0, 640.0), (Placement(ring, 320.0, 320.0, 5.0),))
    room = largest_rectangle(layout, 2.0)
    assert room is not None
    assert area(room) == pytest.approx(2 * 298**2, rel=1e-3)
    assert_free(room, layout, 2.0)


def test_what_falls_out_of_a_hole_counts() -> None:
    """A plate all taken by one part, but for its hole of 500 mm: a square in 496 mm."""
    frame = Blank(
        "frame",
        "extra",
        6.0,
        polygon([(0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0)]),
        (Circle((300.0, 300.0), 250.0),),
    )
    layout = Layout(plate(620.0, 620.0), (Placement(frame, 10.0, 10.0, 0.0),))
    room = largest_rectangle(layout, 2.0, 50.0)
    assert area(room) == pytest.approx(2 * 248**2, rel=1e-3)


def test_straight_parts_leave_what_is_between_them() -> None:
    """A strip 40 mm wide along x = 10 to 50, 3 mm clear: free from 53 on, to micrometres."""
    layout = Layout(plate(803.0, 602.0), (Placement(strip(582.0, 40.0), 50.0, 10.0, 90.0),))
    assert largest_rectangle(layout, CLEAR) == pytest.approx((53.0, 0.0, 803.0, 602.0), abs=0.01)


def test_the_larger_of_two_rests_is_taken() -> None:
    """A wall of strips at x = 300: 297 mm to its left, 460 mm to its right; and mirrored."""
    layout = Layout(plate(803.0, 602.0), (Placement(strip(602.0, 40.0), 340.0, 0.0, 90.0),))
    assert largest_rectangle(layout, CLEAR) == pytest.approx((343, 0, 803, 602), abs=0.01)
    mirrored = Layout(plate(803.0, 602.0), (Placement(strip(602.0, 40.0), 500.0, 0.0, 90.0),))
    assert largest_rectangle(mirrored, CLEAR) == pytest.approx((0, 0, 457, 602), abs=0.01)


@pytest.mark.parametrize(("wall_mm", "end"), [(410.0, True), (440.0, False)])
def test_the_rest_at_the_end_is_preferred_to_one_a_little_larger(wall_mm: float, end: bool) -> None:
    """Left of the wall 367 or 397 mm of 800 are free; right of it 387 or 357 are."""
    laid = Placement(strip(602.0, 40.0), wall_mm, 0.0, 90.0)
    low = Placement(disc(40.0), wall_mm + 20.0, 100.0, 0.0)
    room = largest_rectangle(Layout(plate(800.0, 602.0), (laid, low)), CLEAR)
    assert room is not None
    assert (room[2] == 800.0) is end


def test_an_empty_plate_is_free_whole() -> None:
    assert largest_rectangle(Layout(plate(903.0, 402.0), ()), CLEAR) == (0.0, 0.0, 903.0, 402.0)
    tiny = Layout(plate(30.0, 4.0), ())
    assert largest_rectangle(tiny, CLEAR) == (0.0, 0.0, 30.0, 4.0)


def test_a_plate_that_is_all_part_has_none() -> None:
    layout = Layout(plate(300.0, 200.0), (Placement(strip(300.0, 200.0), 0.0, 0.0, 0.0),))
    assert largest_rectangle(layout, CLEAR) is None


def test_least_side_is_met_exactly() -> None:
    """A strip 40 mm wide from y = 10, 3 mm clear: the rest is 149.9 or 150.1 mm wide."""
    for rest, found in ((149.9, False), (150.1, True)):
        laid = Placement(strip(900.0, 40.0), 0.0, 10.0, 0.0)
        layout = Layout(plate(900.0, 53 + rest), (laid,))
        assert (largest_rectangle(layout, CLEAR, 150.0) is not None) is found


@pytest.mark.parametrize("seed", range(30))
def test_largest_block_against_trying_all(seed: int) -> None:
    rng = np.random.default_rng(seed)
    rows, columns = (int(n) for n in rng.integers(1, 9, 2))
    least = int(rng.integers(1, 4))
    free = rng.random((rows, columns)) < rng.choice([0.3, 0.7, 0.9])
    most = max(
        (
            (b - a) * (d - c)
            for a, b in itertools.combinations(range(rows + 1), 2)
            for c, d in itertools.combinations(range(columns + 1), 2)
            if free[a:b, c:d].all() and min(b - a, d - c) >= least
        ),
        default=0,
    )
    blocks = largest_blocks(free, least, 100)
    assert max((ni * nj for _, _, ni, nj in blocks), default=0) == most
    for i, j, ni, nj in blocks:
        assert free[i : i + ni, j : j + nj].all()
        assert min(ni, nj) >= least
        assert 0 <= i <= i + ni <= rows
        assert 0 <= j <= j + nj <= columns
    assert [b[2] * b[3] for b in blocks] == sorted((b[2] * b[3] for b in blocks), reverse=True)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.lists(places, min_size=1, max_size=4))
def test_taken_cells_are_those_whose_middle_is_taken(placed) -> None:
    layout = Layout(plate(803.0, 602.0), tuple(Placement(*one) for one in placed))
    rings = taken_rings(layout, CLEAR, 0.5)
    cells = taken_cells(rings, (41, 30), 19.9)
    holders = [r for r in rings if shapely.is_ccw(shapely.LinearRing(r))]
    taken = shapely.union_all([shapely.Polygon(r) for r in holders])
    middle_x, middle_y = (np.arange(41) + 0.5) * 19.9, (np.arange(30) + 0.5) * 19.9
    expected = shapely.contains_xy(taken, middle_x[:, None], middle_y[None, :])
    assert (cells == expected).all()


@pytest.mark.parametrize("blank", BLANKS, ids=lambda b: f"{b.name}-{b.area_mm2:.0f}")
def test_facets_lie_on_their_side_of_the_curve(blank: Blank) -> None:
    true = fine(blank.outline)
    around = shapely.Polygon(faceted(blank.outline, 0.5, bulging=True))
    inside = shapely.Polygon(faceted(blank.outline, 0.5, bulging=False))
    assert around.buffer(2e-4).covers(true)
    assert true.buffer(2e-4).covers(inside)
    assert true.buffer(0.501).covers(around)
    assert inside.buffer(0.501).covers(true)
    assert all(shapely.is_closed(shapely.LineString(ring)) for ring in rings_of(around))


def test_offcut_with_a_hole_is_left_beside_it() -> None:
    sheet: Sheet = offcut(
        "window",
        [(0.0, 0.0), (900.0, 0.0), (900.0, 500.0), (0.0, 500.0)],
        (((300.0, 100.0), (400.0, 100.0), (400.0, 400.0), (300.0, 400.0)),),
    )
    room = largest_rectangle(Layout(sheet, ()), CLEAR)
    assert room == pytest.approx((400.0, 0.0, 900.0, 500.0), abs=1e-6)
