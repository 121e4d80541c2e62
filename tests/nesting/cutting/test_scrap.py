"""Totals of a nest, each added up by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.cutting.cut_time import CuttingWork
from platewheel.nesting.cutting.scrap import Scrap, price_with_cutting, scrap
from platewheel.nesting.offcuts.remnant import rectangle
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle
from tests.nesting.plates import disc, strip

PLATE = Sheet("500 x 1000", 6.0, 1000.0, 500.0, None, 80.0)  # 500 000 mm2
OFFCUT = Sheet(  # an L of 600 x 400 less 300 x 200, with a hole of 50 x 40: 178 000 mm2
    "corner",
    6.0,
    600.0,
    400.0,
    1,
    0.0,
    edge=((0.0, 0.0), (600.0, 0.0), (600.0, 200.0), (300.0, 200.0), (300.0, 400.0), (0.0, 400.0)),
    holes=(((20.0, 20.0), (70.0, 20.0), (70.0, 60.0), (20.0, 60.0)),),
)
STRIP = strip(200.0, 100.0)  # 20 000 mm2, 600 mm round
DISC = disc(100.0, holes=(Circle((0.0, 0.0), 10.0), Circle((30.0, 0.0), 5.0)))
DISC_MM2 = math.pi * (50**2 - 10**2 - 5**2)


def laid(sheet: Sheet, *blanks: Blank, repeat: int = 1) -> Layout:
    """Blanks on a plate; where they lie does not count here."""
    at = (Placement(blank, 100.0 + 10 * i, 100.0, 0.0) for i, blank in enumerate(blanks))
    return Layout(sheet, tuple(at), repeat)


PLATES = laid(PLATE, STRIP, STRIP, DISC, repeat=3)
CORNER = laid(OFFCUT, DISC)


def test_areas_of_plates_and_offcut() -> None:
    assert PLATE.area_mm2 == 500_000
    assert OFFCUT.area_mm2 == 600 * 400 - 300 * 200 - 50 * 40
    assert PLATES.parts_area_mm2 == pytest.approx(40_000 + DISC_MM2)


def test_totals_count_every_repeat() -> None:
    kept = [
        rectangle(PLATES, (400.0, 100.0, 1000.0, 500.0)),
        rectangle(CORNER, (0.0, 200.0, 300.0, 400.0)),
    ]
    total = scrap([PLATES, CORNER], kept)
    assert total.sheets_used == 3 + 1
    assert total.stock_area_mm2 == 3 * 500_000 + 178_000
    assert total.parts_area_mm2 == pytest.approx(3 * 40_000 + 4 * DISC_MM2)
    assert total.kept_area_mm2 == 3 * 600 * 400 + 300 * 200


def test_percentages_are_of_the_stock() -> None:
    """A quarter of the plate is parts, three fifths are kept: 75 % scrap, then 15 %."""
    quarter = laid(PLATE, strip(500.0, 250.0))
    total = scrap([quarter], [rectangle(quarter, (400.0, 0.0, 1000.0, 500.0))])
    assert total.scrap_percent == pytest.approx(75)
    assert total.scrap_percent_after_offcuts == pytest.approx(15)
    assert quarter.scrap_percent == pytest.approx(75)


def test_percentages_weigh_plates_by_their_area() -> None:
    """Half of 500 000 and none of two plates of 250 000 used: 75 % of it all is scrap."""
    small = Sheet("500 x 500", 6.0, 500.0, 500.0, None, 40.0)
    total = scrap([laid(PLATE, strip(1000.0, 250.0)), laid(small, repeat=2)], [])
    assert total.scrap_percent == pytest.approx(75)
    assert total.scrap_percent_after_offcuts == total.scrap_percent


def test_nothing_laid_is_no_scrap() -> None:
    total = scrap([], [])
    assert (total.sheets_used, total.stock_area_mm2, total.parts_area_mm2) == (0, 0, 0)
    assert total.scrap_percent == total.scrap_percent_after_offcuts == 0


@pytest.mark.parametrize(
    ("prices", "sum_of_all"),
    [((80.0, 35.5), 3 * 80 + 2 * 35.5), ((80.0, 0.0), None), ((0.0, 35.5), None)],
)
def test_price_is_of_all_plates_or_not_told(
    prices: tuple[float, float], sum_of_all: float | None
) -> None:
    """A price of 0 is one that is missing, and then there is no sum; an offcut costs nothing."""
    layouts = [
        Layout(Sheet("plate", 6.0, 1000.0, 500.0, None, price), (), repeat)
        for price, repeat in zip(prices, (3, 2), strict=True)
    ]
    assert scrap(layouts, []).price == sum_of_all
    assert scrap([*layouts, CORNER], []).price == sum_of_all


def test_offcuts_alone_cost_nothing() -> None:
    assert scrap([CORNER], []).price == 0


def test_sheets_and_cutting_together() -> None:
    work = CuttingWork(1000.0, 3, 200.0, 0.5, 30.0)
    assert price_with_cutting(Scrap(1, 100.0, 50.0, 0.0, 190.0), work) == 220.0
    assert price_with_cutting(Scrap(1, 100.0, 50.0, 0.0, None), work) is None
