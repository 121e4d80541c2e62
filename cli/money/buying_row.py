"""One line of the buying list, and what steel costs that has a price of its own or none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.cli.money.order_words import standard_words, stock_words
from platewheel.cli.schema.shop import BuyKind, BuyRow
from platewheel.parts.setting.costs import Costs


@dataclass(frozen=True)
class TubeCut:
    """Lengths of one tube, `metres` together with their saw cuts, `mass_kg` without."""

    steel: str
    outside_mm: float
    bore_mm: float
    mass_kg: float
    metres: float


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
    metres: float | None = None,
    standard: str = "",
    stock: str = "",
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
        metres=metres,
        standard=standard,
        stock=stock,
    )


def stock_rows(
    kind: BuyKind,
    item: str,
    count: int,
    price: tuple[float | None, str],
    names: list[str],
    kg: float,
    wheel_share: float = 1.0,
    *,
    standard: str,
    length_mm: float | None = None,
    stock: str = "",
) -> Iterator[BuyRow]:
    """So many plates or lengths of `kg` each, a bar or pipe `length_mm` long: those on the rack by
    name, with nothing to pay, and the rest to buy. Names told are taken out of the list."""
    here, names[:] = names[:count], names[count:]

    def row(words: str, off: int, price: float | None, says: str, stock: str) -> BuyRow:
        return buy_row(
            kind,
            words,
            off,
            "off",
            price,
            says,
            mass_kg=kg * off,
            wheel_share=wheel_share,
            metres=None if length_mm is None else length_mm * off / 1000,
            standard=standard,
            stock=stock,
        )

    if here:
        words = f"{item}, on the rack: {', '.join(here)}"
        yield row(words, len(here), 0.0, "to hand, nothing to pay", "")
    if more := count - len(here):
        yield row(item, more, *price, stock)


def tube_row(
    kind: BuyKind, item: str, cut: TubeCut, costs: Costs, wheel_share: float = 1.0, more: str = ""
) -> BuyRow:
    """A line of tube, priced as tube or else as other steel; `more` is said of the price."""
    price, says = by_key(costs.tube_price_per_kg, "costs.tube_price_per_kg", more)
    if price is None and costs.steel_price_per_kg is not None:
        price, says = costs.steel_price_per_kg, "costs.steel_price_per_kg, as other steel"
    elif price is None:
        says += " or costs.steel_price_per_kg"
    return buy_row(
        kind,
        item,
        cut.mass_kg,
        "kg",
        price,
        says,
        mass_kg=cut.mass_kg,
        wheel_share=wheel_share,
        metres=cut.metres,
        standard=standard_words(kind, cut.steel),
        stock=stock_words(cut.outside_mm, cut.bore_mm),
    )


def by_key(price: float | None, key: str, more: str = "") -> tuple[float | None, str]:
    """The price that a key gives, and what is said of it: the key and `more`, or how to set it."""
    return price, f"not priced: set {key}" if price is None else f"{key}{more}"


def of_stock(price: float, mass_kg: float, costs: Costs, key: str) -> tuple[float | None, str]:
    """Price of one piece of steel: its own, or by its mass; and by what."""
    if price > 0:
        return price, f"price of its [[{key}]]"
    if costs.steel_price_per_kg is not None:
        return costs.steel_price_per_kg * mass_kg, "by its mass, costs.steel_price_per_kg"
    return None, f"not priced: set price in its [[{key}]], or costs.steel_price_per_kg"
