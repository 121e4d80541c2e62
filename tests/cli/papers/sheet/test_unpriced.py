"""What has no price is told in one line, by what would price it."""

from __future__ import annotations

from platewheel.cli.papers.sheet.shop import unpriced_words
from platewheel.cli.schema.shop import BuyRow


def row(item: str, says: str, price: float | None = None) -> BuyRow:
    return BuyRow(
        kind="sheet",
        item=item,
        quantity=1,
        unit="off",
        mass_kg=None,
        unit_price=price,
        price=price,
        wheel_share=1.0,
        says=says,
    )


def test_rows_without_a_price_are_told_together() -> None:
    rows = [
        row("tube", "not priced: set costs.tube_price_per_kg"),
        row("plate", "its [[stock]]", 12.0),
        row("sleeve", "not priced: set costs.tube_price_per_kg"),
        row("wire", "not priced: set costs.filler_price_per_kg"),
    ]
    assert unpriced_words(rows) == (
        "Not priced: tube, sleeve (set costs.tube_price_per_kg); wire (set "
        "costs.filler_price_per_kg)."
    )
    assert unpriced_words(rows[1:2]) == ""
