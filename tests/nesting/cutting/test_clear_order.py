"""Travel keeps off parts already cut: counted anew by a polygon library, beside every order."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from random import Random

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting import clear_order
from platewheel.nesting.cutting.clear_order import Stop, travels_over
from platewheel.nesting.cutting.cut_order import cut_order
from platewheel.nesting.cutting.part_cuts import PartCuts, sheet_cuts
from platewheel.nesting.cutting.short_path import Places
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import Circle
from tests.nesting.cutting.test_cut_order import allowed, layout, plates
from tests.nesting.plates import cutting, disc, faceted, on_plate

FEW = settings(max_examples=30, deadline=None, derandomize=True)
HOME = (0.0, 0.0)
EDGE_MM = 0.5  # nearer to its edge a travel is not over a part


def crossings(parts: Sequence[PartCuts], within_mm: float = EDGE_MM) -> int:
    """Travels that run over a part cut before, so far within its edge."""
    count, here, cut = 0, None, []
    for part in parts:
        for one in part.cuts:
            if here is not None:
                way = shapely.LineString((here, one.begin))
                count += any(way.intersects(steel) for steel in cut)
            here = one.end
        if all(one.closed for one in part.cuts):
            cut.append(faceted(part.placement.outline, 0.01).buffer(-within_mm))
    return count


def way(parts: Sequence[PartCuts]) -> float:
    ends = [HOME, *(one.end for part in parts for one in part.cuts)]
    begins = [one.begin for part in parts for one in part.cuts]
    return sum(math.dist(a, b) for a, b in zip(ends, begins, strict=False))


def as_before(lay: Layout, cut: object) -> list[PartCuts]:
    """The same cuts in the order of least travel alone."""
    by_place = {part.placement: part for part in sheet_cuts(lay, cut).parts}
    return [by_place[placement] for placement in cut_order(lay, cut)]


KEYS = st.fixed_dictionaries(
    {"lead_in_mm": st.sampled_from([0.0, 4.0]), "heat_apart_mm": st.sampled_from([0.0, 150.0])}
)


@FEW
@given(plates(most=9), KEYS)
def test_never_more_travel_over_parts_than_the_shortest_way(lay: Layout, keys: dict) -> None:
    cut = cutting(**keys)
    done = sheet_cuts(lay, cut)
    # the plate is measured on chords within a quarter of a millimetre, and never to a hair
    assert crossings(done.parts, 1.0) <= done.travels_over <= crossings(done.parts, 0.2)
    before = as_before(lay, cut)
    assert done.travels_over <= told(before)
    assert crossings(done.parts, 1.0) <= crossings(before, 0.2)


def told(parts: Sequence[PartCuts]) -> int:
    return travels_over(([(c.begin, c.end) for c in part.cuts], part.loose) for part in parts)


@FEW
@given(plates(most=6), KEYS)
def test_every_part_once_holes_first_and_guests_before_hosts(lay: Layout, keys: dict) -> None:
    done = sheet_cuts(lay, cutting(**keys))
    order = tuple(part.placement for part in done.parts)
    assert len(order) == len(lay.placements)
    assert set(order) == set(lay.placements)
    assert allowed(order)
    assert [part.number for part in done.parts] == list(range(1, len(order) + 1))
    for part in done.parts:
        layers = [one.layer for one in part.cuts]
        assert layers == ["cut-hole"] * len(part.placement.holes) + ["cut-outline"]


@settings(FEW, max_examples=15)
@given(plates(most=6), st.sampled_from([60.0, 400.0]))
def test_heat_stays_apart(lay: Layout, apart_mm: float) -> None:
    """The order keeps the rule that the order of least travel keeps (its own tests): a part near
    the one just cut comes only where none that may be cut is further off."""
    order = [part.placement for part in sheet_cuts(lay, cutting(heat_apart_mm=apart_mm)).parts]
    steel = {id(p): on_plate(p) for p in order}
    for i, placement in enumerate(order[:-1]):
        rest = order[i + 1 :]
        off = {id(p): steel[id(placement)].distance(steel[id(p)]) for p in rest}
        if off[id(rest[0])] < apart_mm - 0.01:
            free = [p for p in rest if allowed((p, *(q for q in rest if q is not p)))]
            assert not [p for p in free if off[id(p)] > apart_mm + 0.01]


@settings(FEW, max_examples=20)
@given(plates(most=3))
def test_beside_all_orders_of_a_few_parts(lay: Layout) -> None:
    """A travel over a part weighs as a metre of way: at most a tenth and one travel above the
    least of all orders."""
    done = sheet_cuts(lay, cutting(lead_in_mm=4.0)).parts
    free = [o for o in itertools.permutations(done) if allowed(tuple(p.placement for p in o))]
    least = min(crossings(o) for o in free)
    assert crossings(done) <= least + 1
    short = min(way(o) for o in free if crossings(o) <= crossings(done))
    assert way(done) <= 1.1 * short + 1000.0


ROW = [Placement(disc(100.0), 100.0 + 110.0 * i, 100.0, 0.0) for i in range(6)]


def test_a_row_is_cut_away_from_where_its_cuts_end() -> None:
    """Circles begin and end at their right: from left to right nothing is crossed, from right to
    left each part is."""
    lay = layout(*ROW)
    assert [p.placement for p in sheet_cuts(lay, cutting()).parts] == ROW
    assert sheet_cuts(lay, cutting()).travels_over == 0
    back = list(reversed(sheet_cuts(lay, cutting()).parts))
    assert crossings(back) == 5


def test_a_detour_is_made_where_least_travel_runs_over_parts() -> None:
    """Two rows: least travel comes back along the upper one, over each of its parts."""
    upper = [Placement(p.blank, p.x_mm, 210.0, 0.0) for p in ROW]
    lay = layout(*ROW, *upper)
    before = as_before(lay, cutting())
    done = sheet_cuts(lay, cutting())
    assert crossings(before) >= 4
    assert done.travels_over <= 1
    assert way(done.parts) < way(before) + 1000.0 * (crossings(before) - done.travels_over)


def test_parts_held_by_tabs_do_not_tip() -> None:
    upper = [Placement(p.blank, p.x_mm, 210.0, 0.0) for p in ROW]
    lay, held = layout(*ROW, *upper), cutting(tab_count=2)
    done = sheet_cuts(lay, held)
    assert done.travels_over == 0
    assert tuple(part.placement for part in done.parts) == cut_order(lay, held)


def test_travel_within_a_part_runs_over_its_guest() -> None:
    """A disc in the left one of three holes in a row, drawn first, last and middle: no order of
    parts helps, and it is told."""
    holes = tuple(Circle((x, 0.0), 40.0) for x in (0.0, 200.0, -200.0))
    bar = Placement(disc(600.0, "bar", holes), 400.0, 400.0, 0.0)
    guest = Placement(disc(60.0, "guest"), 400.0, 400.0, 0.0)
    done = sheet_cuts(layout(bar, guest), cutting())
    assert [p.placement.blank.name for p in done.parts] == ["guest", "bar"]
    # the guest ends at its right and the middle hole begins at its own; from the right hole to
    # the left one the way runs over the guest, and back to the outline once more
    assert done.travels_over == 2


def test_the_same_plate_has_the_same_order() -> None:
    upper = [Placement(p.blank, p.x_mm, 210.0, 0.0) for p in ROW]
    lay, orders = layout(*ROW, *upper), []
    for _ in range(2):
        sheet_cuts.cache_clear()
        orders.append([id(part.placement) for part in sheet_cuts(lay, cutting()).parts])
    assert orders[0] == orders[1]


@pytest.mark.parametrize("most", [0, 1, 5])
def test_the_work_is_bounded(monkeypatch: pytest.MonkeyPatch, most: int) -> None:
    """However little may be tried, the order is sound and no worse than it was."""
    monkeypatch.setattr(clear_order, "TRIED_A_PART", most)
    sheet_cuts.cache_clear()
    upper = [Placement(p.blank, p.x_mm, 210.0, 0.0) for p in ROW]
    lay = layout(*ROW, *upper)
    done = sheet_cuts(lay, cutting()).parts
    before = as_before(lay, cutting())
    sheet_cuts.cache_clear()
    assert len(done) == 12
    assert crossings(done) <= crossings(before)
    assert most or [id(p.placement) for p in done] == [id(p.placement) for p in before]


def free(count: int) -> Places:
    """Places without rules."""
    none = np.zeros((count, count), dtype=np.bool_)
    return Places(np.zeros((count, count)), np.zeros(count), none, none)


def over(stops: Sequence[Stop], order: Sequence[int]) -> int:
    return travels_over(([(stops[i].begin, stops[i].end)], stops[i].loose) for i in order)


@settings(FEW, max_examples=150)
@given(
    st.lists(
        st.tuples(st.integers(0, 30), st.integers(0, 8)), min_size=6, max_size=12, unique=True
    ),
    st.randoms(use_true_random=False),
)
def test_from_any_order_no_more_is_crossed(cells: list[tuple[int, int]], rng: Random) -> None:
    """Far apart, so that much way could be saved at the price of one crossing more."""
    stops = []
    for i, j in cells:
        x, y = 400.0 * i, 400.0 * j
        begin, end = ((x + rng.choice((-190.0, 190.0)), y) for _ in range(2))
        stops.append(Stop(begin, end, Circle((x, y), 190.0)))
    order = list(range(len(stops)))
    rng.shuffle(order)
    found = clear_order.clear_order(stops, order, free(len(stops)), HOME)
    assert sorted(found) == sorted(order)
    assert over(stops, found) <= over(stops, order)


@pytest.mark.parametrize(("far_mm", "detour"), [(600.0, True), (1400.0, False)])
def test_no_detour_of_more_than_a_metre(far_mm: float, detour: bool) -> None:
    """The second disc ends at its left, and the third lies to its right: the way from the second
    is over it. In the other order nothing is crossed, but the way is there and back."""
    spot = Circle((0.0, 0.0), 1.0)
    stops = [
        Stop((1.0, 0.0), (1.0, 0.0), spot),
        Stop((40.0, 0.0), (40.0, 0.0), Circle((90.0, 0.0), 50.0)),
        Stop((far_mm, 0.0), (far_mm, 0.0), Circle((far_mm + 50.0, 0.0), 50.0)),
    ]
    found = clear_order.clear_order(stops, [0, 1, 2], free(3), HOME)
    assert found == ([0, 2, 1] if detour else [0, 1, 2])
