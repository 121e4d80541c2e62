"""What a part of the cost comes to, and why one has no price."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.shop import BuyRow


def of_hours(hours: float, rate: float | None) -> tuple[float | None, str]:
    """Price of so many hours of work, and what is said of it."""
    if rate is None:
        return None, f"{hours:.1f} h not priced: set costs.labour_price_per_h"
    free = ", counted as free" if rate == 0 else ""
    return rate * hours, f"{hours:.1f} h at {rate:g}{free}"


def unpriced(rows: Iterable[BuyRow]) -> str:
    """The lines of the buying list that have no price, each with what it lacks."""
    return "; ".join(f"{row.item}: {row.says}" for row in rows if row.price is None)
