"""Sums over a nest: stock used, parts, scrap and price."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.nesting.cutting.cut_time import CuttingWork
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.layout import Layout


@dataclass(frozen=True)
class Scrap:
    """Totals of a nest. Percentages are of the stock area; `price` None where any is missing."""

    sheets_used: int
    stock_area_mm2: float
    parts_area_mm2: float
    kept_area_mm2: float
    price: float | None

    @property
    def scrap_percent(self) -> float:
        """All that is not part."""
        return self._percent(self.stock_area_mm2 - self.parts_area_mm2)

    @property
    def scrap_percent_after_offcuts(self) -> float:
        """What is neither part nor an offcut worth keeping."""
        return self._percent(self.stock_area_mm2 - self.parts_area_mm2 - self.kept_area_mm2)

    def _percent(self, area_mm2: float) -> float:
        return 100 * area_mm2 / self.stock_area_mm2 if self.stock_area_mm2 else 0.0


def scrap(layouts: Sequence[Layout], kept: Sequence[Remnant]) -> Scrap:
    """Totals over all plates, repeats counted."""
    bought = [lay for lay in layouts if not lay.sheet.is_offcut]
    priced = all(lay.sheet.price > 0 for lay in bought)
    return Scrap(
        sum(lay.repeat for lay in layouts),
        math.fsum(lay.sheet.area_mm2 * lay.repeat for lay in layouts),
        math.fsum(lay.parts_area_mm2 * lay.repeat for lay in layouts),
        math.fsum(piece.area_mm2 * piece.layout.repeat for piece in kept),
        math.fsum(lay.sheet.price * lay.repeat for lay in bought) if priced else None,
    )


def price_with_cutting(total: Scrap, work: CuttingWork) -> float | None:
    """Sheets and their cutting; None where a sheet's price is missing."""
    return None if total.price is None else total.price + work.price
