"""What a wheel costs, part by part, as a table."""

from __future__ import annotations

from platewheel.cli.schema.shop import CostRow
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Money


def wheel_cost_table(cost: CostRow, wheels: int) -> Table:
    """A row a part, one wheel and all of them; below it the sum, and a bought wheel's price."""
    currency = f", {cost.currency}" if cost.currency else ""
    columns = (
        Column("part", "Part", Sentence),
        Column("one", f"A wheel{currency}", Money, "number"),
        Column("all", f"All wheels{currency}", Money, "number"),
        Column("says", "Of what", Sentence),
    )
    word = "sum of what is priced" if cost.not_priced else "sum"
    sums = [_part(word, cost.per_wheel, cost.price)]
    if cost.bought_wheel_price is not None:
        bought = cost.bought_wheel_price
        sums.append(_part("a bought wheel", bought, bought * wheels))
    rows = (_part(p.part, p.per_wheel, p.price, p.says) for p in cost.parts)
    return table(columns, rows, sums)


def _part(part: str, one: float | None, every: float | None, says: str = "") -> Cells:
    return {"part": Sentence(part), "one": Money(one), "all": Money(every), "says": Sentence(says)}
