"""Sums over a nest: stock used, parts, scrap, cutting length, time and price."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from nesting.layout import Layout
from nesting.left_over import LeftOver
from nesting.stock import Cutting


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


def scrap(layouts: Sequence[Layout], kept: Sequence[LeftOver]) -> Scrap:
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


@dataclass(frozen=True)
class CuttingWork:
    """Cutting of all plates: length of cut, pierces, hours, and their price."""

    cut_length_mm: float
    pierces: int
    hours: float
    price: float


def cutting_work(layouts: Sequence[Layout], cutting: Cutting) -> CuttingWork:
    """Length over speed plus a pierce for each cut; rapid moves are not counted."""
    length = math.fsum(
        p.blank.cut_length_mm * lay.repeat for lay in layouts for p in lay.placements
    )
    pierces = sum((1 + len(p.blank.holes)) * lay.repeat for lay in layouts for p in lay.placements)
    hours = length / cutting.speed_mm_per_min / 60 + pierces * cutting.pierce_s / 3600
    return CuttingWork(length, pierces, hours, hours * cutting.price_per_h)


def price_with_cutting(total: Scrap, work: CuttingWork) -> float | None:
    """Sheets and their cutting; None where a sheet's price is missing."""
    return None if total.price is None else total.price + work.price
