"""What a wheel and an axle cost, part by part, as tables."""

from __future__ import annotations

from platewheel.cli.schema.shop import CostRow
from platewheel.cli.words.on_paper import without_keys
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Money

NONE = "-"  # in place of a price; which prices are missing is told in one line


def wheel_cost_table(cost: CostRow, wheels: int) -> Table:
    """A row a part, one wheel and all of them; below it the sum, and a bought wheel's price."""
    word = "sum of what is priced" if cost.not_priced else "sum"
    sums = [_part(word, cost.per_wheel, cost.price)]
    if cost.bought_wheel_price is not None:
        bought = cost.bought_wheel_price
        sums.append(_part("a bought wheel", bought, bought * wheels))
    rows = (_part(p.part, p.per_wheel, p.price, p.says) for p in cost.parts)
    return table(_columns(cost, "A wheel", "All wheels"), rows, sums)


def axle_cost_table(cost: CostRow) -> Table:
    """The same of an axle; without rows for a job without [axle]."""
    parts = cost.axle_parts
    rows = [_part(p.part, p.per_axle, p.price, p.says) for p in parts]
    word = "sum of what is priced" if any(p.price is None for p in parts) else "sum"
    price = sum(p.price for p in parts if p.price is not None)
    sums = [_part(word, cost.per_axle, price)] if rows else []
    return table(_columns(cost, "An axle", "All axles"), rows, sums)


def price_or_none(price: float | None) -> Money | Name:
    """A price; a dash where there is none."""
    return Name(NONE) if price is None else Money(price)


def _columns(cost: CostRow, one: str, every: str) -> tuple[Column, ...]:
    currency = f", {cost.currency}" if cost.currency else ""
    return (
        Column("part", "Part", Sentence),
        Column("one", f"{one}{currency}", Money, "number"),
        Column("all", f"{every}{currency}", Money, "number"),
        Column("says", "Of what", Sentence),
    )


def _part(part: str, one: float | None, every: float | None, says: str = "") -> Cells:
    why = Name(NONE) if one is None else Sentence(without_keys(says))
    each, all_of_them = price_or_none(one), price_or_none(every)
    return {"part": Sentence(part), "one": each, "all": all_of_them, "says": why}
