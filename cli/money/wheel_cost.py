"""What a wheel costs, part by part, beside a bought one; what has no price is named."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.money.axle_cost import axle_cost, axle_words, per_axle
from platewheel.cli.money.priced import of_hours, unpriced
from platewheel.cli.schema.shop import BuyRow, CostPartRow, CostRow, TimePlanRow, TimeRow

PARTS = {  # part of the cost -> kinds of the buying list
    "plates": ("sheet",),
    "bar or pipe": ("bar", "pipe"),
    "hub tube": ("tube",),
    "cutting": ("cutting",),
    "filler and gas": ("filler", "gas"),
    "zinc or paint": ("galvanizing", "zinc", "paint"),
}


def wheel_cost(job: Job, buying: Sequence[BuyRow], plan: TimePlanRow) -> CostRow:
    """Cost from the buying list and the time plan; nothing is priced a second time."""
    wheels, costs = job.head.wheels, job.costs
    parts = [
        _bought(name, [row for row in buying if row.kind in kinds], wheels)
        for name, kinds in PARTS.items()
    ]
    labour = [row for row in plan.works if row.labour]
    parts += [
        _labour("welding, labour", [row for row in labour if row.work == "welding"], job),
        _labour("other labour", [row for row in labour if row.work != "welding"], job),
    ]
    there = [part for part in parts if part is not None]
    price = sum(part.price for part in there if part.price is not None)
    lacking = [part.part for part in there if part.price is None]
    bought = costs.bought_wheel_price
    each = price / wheels
    axles = axle_cost(job, buying, plan)
    saving = None if bought is None or lacking else bought - each
    return CostRow(
        currency=costs.currency,
        parts=there,
        price=price,
        per_wheel=each,
        not_priced=lacking,
        bought_wheel_price=bought,
        axle_parts=axles,
        per_axle=per_axle(axles),
        saving_per_wheel=saving,
        says=" ".join(
            (_says(each, bought, lacking, costs.currency), axle_words(axles, costs.currency))
        ).rstrip(),
    )


def _bought(name: str, rows: Sequence[BuyRow], wheels: int) -> CostPartRow | None:
    if not rows:
        return None
    if missing := unpriced(rows):
        return CostPartRow(part=name, price=None, per_wheel=None, says=missing)
    price = sum((row.price or 0.0) * row.wheel_share for row in rows)
    own = sum((row.price or 0.0) * (1 - row.wheel_share) for row in rows)
    says = f"without {own:.2f} for your own parts and gauges, by their area" if own > 0.005 else ""
    return CostPartRow(part=name, price=price, per_wheel=price / wheels, says=says)


def _labour(name: str, rows: Sequence[TimeRow], job: Job) -> CostPartRow | None:
    if not rows:
        return None
    hours = sum(row.hours * row.wheel_share for row in rows)
    price, says = of_hours(hours, job.costs.labour_price_per_h)
    each = None if price is None else price / job.head.wheels
    return CostPartRow(part=name, price=price, per_wheel=each, says=says)


def _says(each: float, bought: float | None, lacking: Sequence[str], currency: str) -> str:
    unit = f" {currency}" if currency else ""
    if lacking:
        words = f"Not priced, so not in the sum: {', '.join(lacking)}. A wheel costs more than "
        words += f"{each:.2f}{unit}."
        if bought is not None:
            words += (
                f" A bought one costs {bought:.2f}{unit}; no saving is told with parts missing."
            )
        return words
    words = f"A wheel costs {each:.2f}{unit}, all parts priced."
    if bought is None:
        return f"{words} Set costs.bought_wheel_price to set a bought wheel beside it."
    way = "less" if bought >= each else "more"
    return f"{words} That is {abs(bought - each):.2f}{unit} {way} than a bought one, {bought:.2f}."
