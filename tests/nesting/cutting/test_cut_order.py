"""The order of cutting against every possible order, a closed form, and the rules it must keep."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.cut_order import cut_order, cuts
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import Circle, contains
from tests.nesting.plates import cutting, disc, on_plate, plate, sector, strip

FEW = settings(max_examples=40, deadline=None, derandomize=True)
PITCH_MM = 130.0
RING = disc(120.0, "ring", holes=(Circle((0.0, 0.0), 40.0),))
CORE = disc(60.0, "core")
HALF = sector(45.0, 60.0, 180.0, "half")  # its mouth, a half circle of 45 mm, opens downwards
ROUND = disc(40.0, "round")


def layout(*placed: Placement) -> Layout:
    return Layout(plate(2500.0, 1250.0), placed)


@st.composite
def plates(draw: st.DrawFn, most: int) -> Layout:
    """Parts in cells of a grid, some with another in their hole or mouth; in any order."""
    cells = draw(
        st.lists(
            st.tuples(
                st.integers(0, 5),
                st.integers(0, 4),
                st.sampled_from(["disc", "strip", "ring", "half"]),
            ),
            min_size=1,
            max_size=most,
            unique_by=lambda cell: cell[:2],
        )
    )
    placed = []
    for i, j, kind in cells:
        x, y = 70 + PITCH_MM * i + draw(st.floats(-4, 4)), 70 + PITCH_MM * j
        if kind == "disc":
            placed.append(Placement(disc(90.0), x, y, 0.0))
        elif kind == "strip":
            placed.append(Placement(strip(80.0, 20.0), x, y, draw(st.sampled_from([0.0, 30.0]))))
        elif kind == "ring":
            placed += [Placement(RING, x, y, 0.0), Placement(CORE, x, y, 0.0)]
        else:
            placed += [Placement(HALF, x, y, 0.0), Placement(ROUND, x, y + 22.0, 0.0)]
    return layout(*draw(st.permutations(placed)))


def held(inner: Placement, outer: Placement) -> bool:
    """By the names of the cells: a core in its ring, a round in the mouth of its half."""
    pair = (inner.blank.name, outer.blank.name)
    near = math.dist((inner.x_mm, inner.y_mm), (outer.x_mm, outer.y_mm)) < 30
    return near and pair in (("core", "ring"), ("round", "half"))


def allowed(order: tuple[Placement, ...]) -> bool:
    return not any(held(b, a) for a, b in itertools.combinations(order, 2))


def travel(order: tuple[Placement, ...]) -> float:
    """From the corner to the start of each cut, holes before outlines."""
    here, total = (0.0, 0.0), 0.0
    for placement in order:
        begins = [
            (loop.centre[0] + loop.radius_mm, loop.centre[1])
            if isinstance(loop, Circle)
            else loop[0].start
            for loop in (*placement.holes, placement.outline)
        ]
        for point in begins:
            total += math.dist(here, point)
            here = point
    return total


@FEW
@given(plates(most=4), st.sampled_from([0.0, 60.0, 150.0, 400.0]))
def test_every_part_once_and_what_is_inside_first(lay: Layout, apart_mm: float) -> None:
    order = cut_order(lay, cutting(heat_apart_mm=apart_mm))
    assert sorted(map(id, order)) == sorted(map(id, lay.placements))
    assert allowed(order)


@FEW
@given(plates(most=3))
def test_as_short_as_the_shortest_of_all_orders(lay: Layout) -> None:
    """All orders tried: the way found is never longer than the least by more than a fiftieth."""
    least = min(travel(o) for o in itertools.permutations(lay.placements) if allowed(o))
    assert travel(cut_order(lay, cutting())) <= 1.02 * least


def shortest(points: list[tuple[float, float]]) -> float:
    """Least open way from 0, 0 through all points, by dynamic programming over their subsets.

    Source: M. Held and R. M. Karp, 1962, from memory.
    """
    count = len(points)
    least = {(1 << i, i): math.dist((0.0, 0.0), p) for i, p in enumerate(points)}
    for subset in range(1, 1 << count):
        for i in (i for i in range(count) if subset >> i & 1):
            here = least[subset, i]
            for j in (j for j in range(count) if not subset >> j & 1):
                key, way = (subset | 1 << j, j), here + math.dist(points[i], points[j])
                least[key] = min(way, least.get(key, math.inf))
    return min(least[(1 << count) - 1, i] for i in range(count))


@settings(FEW, max_examples=12)
@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 20)), min_size=9, max_size=9, unique=True)
)
def test_nine_discs_as_short_as_the_exact_answer(cells: list[tuple[int, int]]) -> None:
    """Each is reached at its right: its centre and its radius of 20 mm along x."""
    points = [(60.0 * x, 60.0 * y) for x, y in cells]
    lay = layout(*(Placement(ROUND, x - 20, y, 0.0) for x, y in points))
    least = shortest(points)
    assert least - 1e-6 <= travel(cut_order(lay, cutting())) <= 1.02 * least


@pytest.mark.parametrize(("across", "up"), [(10, 6), (7, 7), (25, 8)])
def test_a_full_grid_is_cut_from_neighbour_to_neighbour(across: int, up: int) -> None:
    """No way through n points of a square grid is shorter than n - 1 pitches (closed form)."""
    placed = [
        Placement(ROUND, 50.0 + 60.0 * i, 50.0 + 60.0 * j, 0.0)
        for j in range(up)
        for i in range(across)
    ]
    least = math.hypot(70.0, 50.0) + 60.0 * (len(placed) - 1)
    order = cut_order(layout(*placed), cutting())
    assert least - 1e-6 <= travel(order) <= 1.06 * least


@settings(FEW, max_examples=20)
@given(plates(most=7), st.sampled_from([60.0, 150.0, 400.0]))
def test_heat_is_kept_apart_while_any_part_allows_it(lay: Layout, apart_mm: float) -> None:
    """By a polygon library's distances, within a hundredth of a millimetre."""
    order = cut_order(lay, cutting(heat_apart_mm=apart_mm))
    shapes = {id(p): on_plate(p) for p in order}
    for i, placement in enumerate(order[:-1]):
        apart = {id(p): shapes[id(placement)].distance(shapes[id(p)]) for p in order[i + 1 :]}
        if apart[id(order[i + 1])] < apart_mm - 0.01:
            rest = order[i + 1 :]
            may = [p for p in rest if not any(held(q, p) for q in rest)]
            assert not [p for p in may if apart[id(p)] > apart_mm + 0.01]


@pytest.mark.parametrize("far_x", [700.0, 1500.0])
def test_near_follows_near_only_when_all_that_is_far_is_cut(far_x: float) -> None:
    """Five in the corner and two away from them: the two are used up first, one at a time."""
    five = [Placement(ROUND, 50.0 + 50.0 * i, 50.0, 0.0) for i in range(5)]
    two = [Placement(ROUND, far_x + 50.0 * i, 50.0, 0.0) for i in range(2)]
    order = cut_order(layout(*five, *two), cutting(heat_apart_mm=300.0))
    sides = "".join("f" if placement.x_mm >= far_x else "n" for placement in order)
    assert sides in ("nfnfnnn", "fnfnnnn")


def test_heat_apart_lengthens_the_way() -> None:
    placed = [Placement(ROUND, 50.0 + 60.0 * i, 50.0, 0.0) for i in range(9)]
    near, far = (cut_order(layout(*placed), cutting(heat_apart_mm=mm)) for mm in (0.0, 100.0))
    assert near == tuple(placed)  # a row is cut from its end on
    gaps = [abs(a.x_mm - b.x_mm) - 40 for a, b in itertools.pairwise(far)]
    assert min(gaps) >= 100
    assert travel(far) > travel(near)


def test_holes_come_before_the_outline() -> None:
    ring = Placement(RING, 200.0, 200.0, 0.0)
    *holes, last = cuts(ring)
    assert all(isinstance(hole, Circle) and hole.radius_mm == 40 for hole in holes)
    assert contains(last, (200.0 + 59, 200.0))
    assert len(holes) == 1


def test_an_empty_plate_and_a_single_part() -> None:
    assert cut_order(layout(), cutting()) == ()
    one = Placement(ROUND, 50.0, 50.0, 0.0)
    assert cut_order(layout(one), cutting(heat_apart_mm=500.0)) == (one,)


def test_parts_in_one_place_do_not_wait_for_each_other() -> None:
    """No sound layout has them, but the order must come to an end."""
    twice = layout(Placement(ROUND, 50.0, 50.0, 0.0), Placement(ROUND, 50.0, 50.0, 0.0))
    assert len(cut_order(twice, cutting())) == 2


def test_equal_layouts_give_their_own_placements_in_one_order() -> None:
    """Callers tell placements apart by identity."""
    first = layout(*(Placement(ROUND, 50.0 * i, 900.0 - 50 * i, 0.0) for i in (1, 5, 3)))
    again = layout(*(Placement(ROUND, 50.0 * i, 900.0 - 50 * i, 0.0) for i in (1, 5, 3)))
    one, two = cut_order(first, cutting()), cut_order(again, cutting())
    assert one == two
    assert set(map(id, two)) == set(map(id, again.placements))
