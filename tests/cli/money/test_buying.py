"""The buying list: masses and prices by hand, and nothing without a price passed over."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from platewheel.cli.money.buying import cutting_share, wheel_share
from platewheel.parts.wheel.assembly import wheel_mass_kg
from tests.cli.jobs import ROWS
from tests.cli.shop import shop

PRICED = ROWS.replace("length_mm = 500", "length_mm = 500\nprice = 20").replace(
    "length_mm = 600", "length_mm = 600\nprice = 11"
)
PIPE = (
    ROWS
    + """
[[pipe]]
outside_mm = 180
wall_mm = 6
length_mm = 1000
price = 70
"""
)


def test_plates_have_their_mass_and_price() -> None:
    rows = shop(rows=PRICED).bought("sheet")
    thin = next(row for row in rows if "5 mm" in row.item)
    # 400 x 500 x 5 mm, steel 7.85 kg a m2 and mm: 7.85 kg
    assert thin.mass_kg == pytest.approx(7.85 * thin.quantity)
    assert thin.price == pytest.approx(20 * thin.quantity)
    assert sum(row.price or 0 for row in rows) == pytest.approx(shop(rows=PRICED).nesting.price)


def test_what_has_no_price_is_told_and_is_no_zero() -> None:
    rows = shop().buying
    kinds = {row.kind for row in rows}
    assert kinds == {"sheet", "tube", "cutting", "filler", "galvanizing", "zinc"}
    for row in rows:
        assert row.price is None
        assert row.unit_price is None
        assert row.says.startswith("not priced: ")
        assert "costs." in row.says or "cutting." in row.says


def test_steel_without_a_price_of_its_own_goes_by_mass() -> None:
    rows = shop({"costs.steel_price_per_kg": "2"}).buying
    steel = [row for row in rows if row.kind in ("sheet", "tube")]
    assert len(steel) == 3
    for row in steel:
        assert row.mass_kg
        assert row.price == pytest.approx(2 * row.mass_kg)
        assert "costs.steel_price_per_kg" in row.says


def test_own_prices_go_before_the_price_by_mass() -> None:
    changes = {"costs.steel_price_per_kg": "2", "costs.tube_price_per_kg": "5"}
    found = shop(changes, PRICED)
    assert found.bought("sheet")[0].unit_price in (20, 11)
    (tube,) = found.bought("tube")
    # tube 42 / 30 x 60 long, two of them; pi / 4 (D2 - d2) l
    mass = 2 * math.pi / 4 * (42**2 - 30**2) * 60 * 7.85e-6
    assert tube.mass_kg == pytest.approx(mass)
    assert tube.price == pytest.approx(5 * mass)


def test_pipe_lengths_have_the_mass_of_a_pipe() -> None:
    (pipe,) = shop({"wheel.tread_from": '"pipe"'}, PIPE).bought("pipe")
    # 180 x 6: (180 - 6) x 6 x 0.02466 kg a metre, the trade's formula for round pipe
    assert pipe.mass_kg == pytest.approx((180 - 6) * 6 * 0.02466, rel=1e-3)
    assert (pipe.quantity, pipe.price) == (1, 70)


def test_gas_is_bought_for_wire_alone() -> None:
    assert not shop().bought("gas")
    changes = {"costs.welding": '"wire"', "costs.gas_price_per_m3": "10"}
    (gas,) = shop(changes).bought("gas")
    assert gas.price == pytest.approx(10 * gas.quantity)
    assert gas.quantity > 0


def test_zinc_is_in_the_galvanizers_price_unless_charged_apart() -> None:
    within = shop({"costs.galvanizing_price_per_kg": "1.5"})
    (bath,) = within.bought("galvanizing")
    assert bath.price == pytest.approx(1.5 * 2 * wheel_mass_kg(within.job.wheel))
    (zinc,) = within.bought("zinc")
    assert zinc.price == 0
    assert "in the galvanizer's price" in zinc.says
    apart = {"costs.galvanizing_price_per_kg": "1.5", "costs.zinc_price_per_kg": "4"}
    (zinc,) = shop(apart).bought("zinc")
    assert zinc.price == pytest.approx(4 * zinc.quantity)
    assert zinc.mass_kg == zinc.quantity > 0


def test_paint_goes_by_surface_and_bare_wheels_buy_none() -> None:
    (paint,) = shop({"finish.coating": '"painted"', "costs.paint_price_per_m2": "3"}).bought(
        "paint"
    )
    assert paint.price == pytest.approx(3 * paint.quantity)
    kinds = {row.kind for row in shop({"finish.coating": '"bare"'}).buying}
    assert not kinds & {"paint", "zinc", "galvanizing"}


def test_plates_shared_with_parts_of_ones_own_go_by_area() -> None:
    layout = shop().plan.layouts[0]
    first, *rest = layout.placements
    own = replace(first, blank=replace(first.blank, kind="extra"))
    areas = [placement.blank.area_mm2 for placement in layout.placements]
    assert wheel_share(layout) == 1
    mixed = replace(layout, placements=(own, *rest))
    assert wheel_share(mixed) == pytest.approx(1 - areas[0] / sum(areas))
    assert cutting_share([mixed]) == pytest.approx(wheel_share(mixed))


def test_an_offcut_to_hand_costs_nothing_and_says_so() -> None:
    rows = (
        ROWS
        + """
[[offcut]]
name = "corner"
thickness_mm = 5
outline = [[0, 0], [380, 0], [380, 390], [0, 390]]
"""
    )
    found = shop(rows=rows).bought("sheet")
    (own,) = [row for row in found if "corner" in row.item]
    assert own.price == 0
    assert own.says == "to hand, nothing to pay"
