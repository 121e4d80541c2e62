"""One line of the buying list, and what steel costs that has a price of its own or none."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.schema.shop import BuyKind, BuyRow
from platewheel.parts.setting.costs import Costs


def buy_row(
    kind: BuyKind,
    item: str,
    quantity: float,
    unit: str,
    unit_price: float | None,
    says: str,
    *,
    mass_kg: float | None = None,
    wheel_share: float = 1.0,
) -> BuyRow:
    """A line; its price follows from the unit's."""
    return BuyRow(
        kind=kind,
        item=item,
        quantity=quantity,
        unit=unit,
        mass_kg=mass_kg,
        unit_price=unit_price,
        price=None if unit_price is None else unit_price * quantity,
        wheel_share=wheel_share,
        says=says,
    )


def stock_rows(
    kind: BuyKind,
    item: str,
    count: int,
    price: tuple[float | None, str],
    names: list[str],
    kg: float,
    wheel_share: float = 1.0,
) -> Iterator[BuyRow]:
    """So many plates or lengths of `kg` each: those on the rack by name, with nothing to pay, and
    the rest to buy. Names that are told are taken out of the list."""
    here, names[:] = names[:count], names[count:]
    if here:
        words = f"{item}, on the rack: {', '.join(here)}"
        row = (kind, words, len(here), "off", 0.0, "to hand, nothing to pay")
        yield buy_row(*row, mass_kg=kg * len(here), wheel_share=wheel_share)
    more = count - len(here)
    if more:
        yield buy_row(kind, item, more, "off", *price, mass_kg=kg * more, wheel_share=wheel_share)


def of_stock(price: float, mass_kg: float, costs: Costs, key: str) -> tuple[float | None, str]:
    """Price of one piece of steel: its own, or by its mass; and by what."""
    if price > 0:
        return price, f"price of its [[{key}]]"
    if costs.steel_price_per_kg is not None:
        return costs.steel_price_per_kg * mass_kg, "by its mass, costs.steel_price_per_kg"
    return None, f"not priced: set price in its [[{key}]], or costs.steel_price_per_kg"
