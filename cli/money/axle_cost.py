"""What an axle costs beside its two wheels, part by part, from buying list and time plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from platewheel.cli.job.axles import axles_of
from platewheel.cli.job.job import Job
from platewheel.cli.money.priced import of_hours, unpriced
from platewheel.cli.schema.shop import AxleCostRow, BuyRow, TimePlanRow

PARTS = {  # part of the cost -> kinds of the buying list
    "bar": ("round",),
    "bearings": ("bearing", "bush"),
    "spacers and collars": ("spacer",),
    "keys and screws": ("holding",),
}
AXLE_WORK = "making axles"


def axle_cost(job: Job, buying: Sequence[BuyRow], plan: TimePlanRow) -> list[AxleCostRow]:
    """Parts of an axle's cost; nothing for a job without a wheelset."""
    return [*_bought(job, buying), *_labour(job, plan)]


def axle_words(parts: Sequence[AxleCostRow], currency: str) -> str:
    """One sentence: what an axle costs, and what has no price."""
    if not parts:
        return ""
    lacking = [part.part for part in parts if part.price is None]
    unit = f" {currency}" if currency else ""
    words = f"An axle without its wheels costs {per_axle(parts):.2f}{unit}"
    return f"{words} and more: not priced {', '.join(lacking)}." if lacking else f"{words}."


def per_axle(parts: Sequence[AxleCostRow]) -> float:
    """Sum of the parts that are priced, one axle."""
    return sum(part.per_axle for part in parts if part.per_axle is not None)


def _bought(job: Job, buying: Sequence[BuyRow]) -> Iterator[AxleCostRow]:
    for name, kinds in PARTS.items():
        rows = [row for row in buying if row.kind in kinds]
        if missing := unpriced(rows):
            yield AxleCostRow(part=name, price=None, per_axle=None, says=missing)
        elif rows:
            price = sum(row.price or 0.0 for row in rows)
            yield AxleCostRow(part=name, price=price, per_axle=price / axles_of(job), says="")


def _labour(job: Job, plan: TimePlanRow) -> Iterator[AxleCostRow]:
    hours = sum(row.hours for row in plan.works if row.work == AXLE_WORK)
    if hours:
        price, says = of_hours(hours, job.costs.labour_price_per_h)
        each = None if price is None else price / axles_of(job)
        yield AxleCostRow(part="labour", price=price, per_axle=each, says=says)
