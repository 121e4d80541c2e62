"""Setting up a plate has a price: the cheapest plan, beside every number of plates tried."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.search.nest import Effort, nest
from platewheel.nesting.stock.layout import Layout, Sheet, Wanted
from tests.nesting.plates import assert_sound, cutting, disc, offcut, plate

D, SPACING, MARGIN = 50.0, 5.0, 8.0
CUT = cutting(SPACING, MARGIN)


def row_mm(discs: int) -> float:
    """Length that a row of discs takes, and not quite one more."""
    return 2 * MARGIN + discs * D + (discs - 1) * SPACING + 3


def row(discs: int, **more: Any) -> Sheet:
    return plate(row_mm(discs), row_mm(1), **more)


def lay(wanted: int, stock: list[Sheet], effort: Effort) -> tuple[Layout, ...]:
    done = nest([Wanted(disc(D), wanted)], stock, CUT, effort=effort)
    assert not done.unplaced
    for layout in done.layouts:
        assert_sound(layout, SPACING, MARGIN)
    return done.layouts


def cost(layouts: tuple[Layout, ...]) -> float:
    """By hand: offcuts are to hand, each plate is set up."""
    return math.fsum(
        lay.repeat * (lay.sheet.setup_price + (0 if lay.sheet.is_offcut else lay.sheet.price))
        for lay in layouts
    )


def least(wanted: int, sizes: dict[int, float], setup: float) -> float:
    """Every number of plates of each size that holds so many discs."""
    most = [range(-(-wanted // held) + 1) for held in sizes]
    return min(
        sum(n * (price + setup) for n, price in zip(times, sizes.values(), strict=True))
        for times in itertools.product(*most)
        if sum(n * held for n, held in zip(times, sizes, strict=True)) >= wanted
    )


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_an_offcut_for_one_part_stays_on_the_rack_where_a_plate_has_room(effort: Effort) -> None:
    side = row_mm(1)
    rest = offcut("rest", [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)])
    used = lay(9, [rest, row(9, price=50.0)], effort)
    assert [layout.sheet.is_offcut for layout in used].count(True) == 1
    dear = [replace(sheet, setup_price=4.0) for sheet in (rest, row(9, price=50.0))]
    (one,) = lay(9, dear, effort)
    assert not one.sheet.is_offcut


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_an_offcut_that_saves_a_plate_is_set_up_all_the_same(effort: Effort) -> None:
    side = row_mm(1)
    rest = offcut("rest", [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)])
    stock = [replace(sheet, setup_price=4.0) for sheet in (rest, row(8, price=50.0))]
    layouts = lay(9, stock, effort)
    assert cost(layouts) == 50 + 2 * 4


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_two_small_plates_give_way_to_a_large_one(effort: Effort) -> None:
    """Two of 10 are cheaper than one of 20.5, until each is set up for 5."""
    for setup, sizes in ((0.0, [4, 4]), (5.0, [8])):
        stock = [
            row(4, price=10.0, setup_price=setup),
            row(8, price=20.5, setup_price=setup),
        ]
        layouts = lay(8, stock, effort)
        held = [len(layout.placements) for layout in layouts for _ in range(layout.repeat)]
        assert held == sizes


@settings(max_examples=15, deadline=None)
@given(
    wanted=st.integers(1, 11),
    small=st.sampled_from([5.0, 8.0, 10.0]),
    large=st.sampled_from([16.0, 20.5, 26.0]),
    setup=st.sampled_from([0.0, 1.0, 6.0]),
)
def test_no_number_of_plates_is_cheaper(
    wanted: int, small: float, large: float, setup: float
) -> None:
    sizes = {3: small, 7: large}
    stock = [row(held, price=price, setup_price=setup) for held, price in sizes.items()]
    layouts = lay(wanted, stock, "normal")
    assert cost(layouts) == pytest.approx(least(wanted, sizes, setup))


def test_steel_by_its_mass_stands_in_for_a_price() -> None:
    """7850 kg a m3 (EN 1991-1-1, table A.4: 77 to 78.5 kN a m3)."""
    by_kg = plate(1000.0, 500.0, kg_price=2.0, setup_price=3.0)
    assert by_kg.counts_for(True) == pytest.approx(1.0 * 0.5 * 0.006 * 7850 * 2 + 3)
    assert by_kg.counts_for(False) == 1000 * 500
    assert replace(by_kg, price=7.0).counts_for(True) == 10
