"""Cost of a wheel: a sum made by hand, and parts without a price named."""

from __future__ import annotations

import pytest

from platewheel.cli.money.wheel_cost import wheel_cost
from platewheel.cli.schema.shop import BuyRow, TimePlanRow, TimeRow
from tests.cli.money.test_buying import PRICED
from tests.cli.shop import Shop, shop

ALL = {
    "cutting.price_per_h": "60",
    "costs.currency": '"EUR"',
    "costs.labour_price_per_h": "30",
    "costs.steel_price_per_kg": "2",
    "costs.filler_price_per_kg": "4",
    "costs.galvanizing_price_per_kg": "1.5",
    "costs.bought_wheel_price": "100",
}


def buy(kind: str, price: float | None, share: float = 1.0) -> BuyRow:
    return BuyRow(
        kind=kind,  # type: ignore[arg-type]
        item=kind,
        quantity=1,
        unit="off",
        mass_kg=None,
        unit_price=price,
        price=price,
        wheel_share=share,
        says="not priced: set a key" if price is None else "",
    )


def work(name: str, hours: float, labour: bool = True) -> TimeRow:
    return TimeRow(
        work=name,
        quantity=1,
        unit="off",
        minutes_each=60 * hours,
        hours=hours,
        wheel_share=1.0,
        labour=labour,
        rate="",
    )


def plan(*works: TimeRow) -> TimePlanRow:
    return TimePlanRow(works=list(works), hours=0, hours_per_wheel=0)


def test_a_cost_summed_by_hand() -> None:
    job = shop(ALL, PRICED).job  # two wheels, labour at 30
    rows = [
        buy("sheet", 100.0, share=0.75),  # a quarter is the user's own parts: 75
        buy("sheet", 20.0),  # 20
        buy("tube", 9.0),  # 9
        buy("cutting", 30.0, share=0.5),  # 15
        buy("filler", 4.0),  # 4
        buy("gas", 3.0),  # 3
        buy("galvanizing", 24.0),  # 24
        buy("zinc", 0.0),  # 0
    ]
    works = plan(work("cutting plates", 0.5, labour=False), work("welding", 2), work("tacking", 1))
    cost = wheel_cost(job, rows, works)
    # 75 + 20 + 9 + 15 + 4 + 3 + 24 = 150; labour 2 x 30 + 1 x 30 = 90; all 240, a wheel 120
    assert {part.part: part.price for part in cost.parts} == {
        "plates": 95,
        "hub tube": 9,
        "cutting": 15,
        "filler and gas": 7,
        "zinc or paint": 24,
        "welding, labour": 60,
        "other labour": 30,
    }
    assert cost.price == 240
    assert cost.per_wheel == 120
    assert cost.saving_per_wheel == -20  # bought: 100
    assert cost.not_priced == []
    assert "20.00 EUR more than a bought one" in cost.says


def test_the_parts_make_the_sum() -> None:
    cost = shop(ALL, PRICED).cost
    assert cost.not_priced == []
    assert all(part.price is not None for part in cost.parts)
    assert cost.price == pytest.approx(sum(part.price or 0 for part in cost.parts))
    assert cost.per_wheel == pytest.approx(sum(part.per_wheel or 0 for part in cost.parts))
    assert cost.saving_per_wheel == pytest.approx(100 - cost.per_wheel)


def test_without_parts_of_ones_own_it_is_buying_list_and_labour() -> None:
    found: Shop = shop(ALL, PRICED)
    bought = sum(row.price or 0 for row in found.buying)
    labour = sum(row.hours for row in found.time.works if row.labour)
    assert found.cost.price == pytest.approx(bought + 30 * labour)


@pytest.mark.parametrize(
    ("key", "part"),
    [
        ("costs.labour_price_per_h", "welding, labour"),
        ("costs.filler_price_per_kg", "filler and gas"),
        ("costs.galvanizing_price_per_kg", "zinc or paint"),
        ("cutting.price_per_h", "cutting"),
        ("costs.steel_price_per_kg", "hub tube"),
    ],
)
def test_a_missing_price_is_named_and_no_saving_is_told(key: str, part: str) -> None:
    changes = {name: value for name, value in ALL.items() if name != key}
    cost = shop(changes, PRICED).cost
    whole = shop(ALL, PRICED).cost
    assert part in cost.not_priced
    missing = next(row for row in cost.parts if row.part == part)
    assert missing.price is None
    assert key in missing.says
    assert cost.saving_per_wheel is None
    assert "Not priced" in cost.says
    assert part in cost.says
    if key != "cutting.price_per_h":  # then the cutter's hours are labour
        assert cost.price < whole.price


def test_labour_at_nothing_is_a_choice_and_told() -> None:
    cost = shop(ALL | {"costs.labour_price_per_h": "0"}, PRICED).cost
    assert cost.not_priced == []
    free = [part for part in cost.parts if "labour" in part.part]
    assert [part.price for part in free] == [0, 0]
    assert all("counted as free" in part.says for part in free)
