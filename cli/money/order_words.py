"""What to ask a steel merchant for: grade, standard of the product, the size that is stocked."""

from __future__ import annotations

from platewheel.cli.schema.shop import BuyKind
from platewheel.parts.wheel.stock_pipe import StockPipe, stock_pipe

# by the scopes of these standards; JR and JRH are what stockists hold, common practice, no source
PRODUCT: dict[BuyKind, str] = {
    "sheet": "EN 10029, or EN 10051 from coil",
    "bar": "EN 10058",
    "pipe": "EN 10210-1 or EN 10219-1",
    "tube": "EN 10210-1 or EN 10219-1",
    "spacer": "EN 10210-1 or EN 10219-1",
    "round": "EN 10060",
}
# consumables for structural steel up to S355; common practice, no source
OF_WELDING = {"rod": "EN ISO 2560-A", "wire": "EN ISO 14341-A", "gas": "EN ISO 14175, M21"}


def standard_words(kind: BuyKind, steel: str) -> str:
    """`S235JR, EN 10025-2; EN 10058`: grade and product; a tube's has its grade in its own."""
    product = PRODUCT[kind]
    if kind in ("pipe", "tube", "spacer"):
        return f"{steel}JRH, {product}"
    if steel == "C45":
        return f"C45, EN 10083-2; {product}"
    return f"{steel}JR, EN 10025-2; {product}"


def stock_words(outside_mm: float, bore_mm: float) -> str:
    """The tube to ask for, and what is turned and bored of it."""
    found = stock_pipe(outside_mm, bore_mm)
    if found is None:
        return (
            f"no tube of EN 10220 or EN 10305-1 is so thick: take round bar of "
            f"{outside_mm:.5g} mm or more, bored to {bore_mm:.5g} mm"
        )
    if work := _work(found, outside_mm, bore_mm):
        return f"no stock size: take {_size(found)} ({found.standard}), {work}"
    return f"{_size(found)} ({found.standard})"


def _size(pipe: StockPipe) -> str:
    return f"{pipe.outside_mm:g} x {pipe.wall_mm:g} mm"


def _work(pipe: StockPipe, outside_mm: float, bore_mm: float) -> str:
    work = []
    if pipe.outside_mm > outside_mm + 0.005:
        work.append(f"turned to {outside_mm:.5g} mm")
    if pipe.bore_mm < bore_mm - 0.005:
        work.append(f"bored to {bore_mm:.5g} mm")
    return " and ".join(work)
