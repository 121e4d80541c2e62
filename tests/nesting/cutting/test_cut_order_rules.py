"""What the order of cutting goes by: where a cut begins, what holds what, and the waiting torch."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.cut_order import cut_order, held_by, start_of
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Loop, polygon
from tests.nesting.plates import cutting, disc, faceted, plate, strip

DOT = disc(20.0, "dot")  # begins 10 mm to the right of its middle


def dot(x: float, y: float) -> Placement:
    """A disc whose cut begins at x, y."""
    return Placement(DOT, x - 10.0, y, 0.0)


def order(*placed: Placement, apart_mm: float = 0.0) -> tuple[Placement, ...]:
    return cut_order(Layout(plate(2500.0, 1250.0), placed), cutting(heat_apart_mm=apart_mm))


def test_where_a_cut_begins() -> None:
    """A drawn outline at its first corner, a circle at its right."""
    assert start_of(polygon([(3.0, 4.0), (9.0, 4.0), (9.0, 8.0)])) == (3.0, 4.0)
    assert start_of(Circle((3.0, 4.0), 5.0)) == pytest.approx((8.0, 4.0))


@pytest.mark.parametrize(
    ("near", "far"), [((300.0, 0.4), (0.4, 300.5)), ((0.4, 300.0), (300.5, 0.4))]
)
def test_the_torch_waits_in_the_corner(near: tuple[float, float], far: tuple[float, float]) -> None:
    """Two along the two edges, half a millimetre from being as far: a corner a millimetre off
    in any direction would turn the order round."""
    first, second = dot(*near), dot(*far)
    assert order(second, first) == (first, second)


def travel(placed: tuple[Placement, ...]) -> float:
    here, way = (0.0, 0.0), 0.0
    for placement in placed:
        first = placement.holes[0] if placement.holes else placement.outline
        way += math.dist(here, start_of(first))
        here = start_of(placement.outline)
    return way


ECCENTRIC = disc(200.0, "eccentric", (Circle((-80.0, 0.0), 10.0),))
spot = st.tuples(st.integers(1, 9), st.integers(1, 4), st.sampled_from([0.0, 90.0, 180.0, 270.0]))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(spot, min_size=2, max_size=3, unique_by=lambda s: s[:2]))
def test_two_or_three_parts_by_trying_all_orders(spots: list[tuple[int, int, float]]) -> None:
    """Discs entered at a hole 80 mm off their middles, and left at their outline's start."""
    placed = tuple(Placement(ECCENTRIC, 220.0 * i, 220.0 * j, turn) for i, j, turn in spots)
    least = min(travel(p) for p in itertools.permutations(placed))
    assert travel(order(*placed)) == pytest.approx(least, rel=1e-9)


U = polygon(
    [
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 80.0),
        (70.0, 80.0),
        (70.0, 20.0),
        (30.0, 20.0),
        (30.0, 80.0),
        (0.0, 80.0),
    ]
)
TROUGH = Blank("trough", "extra", 6.0, U)


def in_mouth(length_mm: float) -> Blank:
    """A bar in the trough's mouth from y = 25 up, drawn about the trough's own origin."""
    top = 25.0 + length_mm
    return Blank(
        "bar", "extra", 6.0, polygon([(35.0, 25.0), (65.0, 25.0), (65.0, top), (35.0, top)])
    )


@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize(("length", "inside"), [(40.0, True), (55.0, True), (56.0, False)])
def test_a_part_whole_in_a_mouth_is_held(turn: float, length: float, inside: bool) -> None:
    """Up to flush with the mouth's lips, whichever way it opens; not when it sticks out."""
    pair = tuple(Placement(blank, 500.0, 500.0, turn) for blank in (in_mouth(length), TROUGH))
    assert held_by(pair).tolist() == [[False, inside], [False, False]]
    assert held_by(pair[::-1]).tolist() == [[False, False], [inside, False]]


def test_a_part_in_any_hole_of_another_is_held() -> None:
    """Two holes, one at either end; the hull of neither matters."""
    bar = Blank(
        "bar",
        "extra",
        6.0,
        polygon([(0.0, 0.0), (300.0, 0.0), (300.0, 100.0), (0.0, 100.0)]),
        (Circle((50.0, 50.0), 40.0), Circle((250.0, 50.0), 40.0)),
    )
    whole = Placement(bar, 100.0, 100.0, 0.0)
    inner = [Placement(DOT, x, 150.0, 0.0) for x in (150.0, 350.0)]
    beside = Placement(DOT, 450.0, 150.0, 0.0)
    table = held_by((whole, *inner, beside))
    assert table[:, 0].tolist() == [False, True, True, False]
    assert not table[:, 1:].any()
    assert order(whole, *inner, beside).index(whole) > 1


def apart(a: Loop, b: Loop) -> float:
    return float(shapely.distance(faceted(a).exterior, faceted(b).exterior))


@pytest.mark.parametrize("gap_mm", [19.0, 20.0, 21.0])
def test_heat_is_measured_between_edges_holes_among_them(gap_mm: float) -> None:
    """A core in a ring's hole, 19 to 21 mm off its edge, with 20 mm asked; a third part away.
    Where the core is near, the third part comes between."""
    ring = Placement(disc(300.0, "ring", (Circle((0.0, 0.0), 100.0),)), 400.0, 400.0, 0.0)
    core = Placement(disc(200.0 - 2 * gap_mm, "core"), 400.0, 400.0, 0.0)
    away = Placement(strip(50.0, 20.0, "away"), 900.0, 900.0, 0.0)
    assert apart(core.outline, ring.holes[0]) == pytest.approx(gap_mm, abs=1e-3)
    names = [p.blank.name for p in order(ring, core, away, apart_mm=20.0)]
    assert names.index("core") < names.index("ring")
    assert (names == ["core", "away", "ring"]) == (gap_mm < 20)
