"""How far pierces keep off, and how far apart parts are laid for them."""

from __future__ import annotations

import pytest

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Wanted
from platewheel.nesting.stock.pierce_clear import (
    good_clear_mm,
    led_spacing_mm,
    pierce_clear_mm,
    spacing_words,
)
from platewheel.parts.base.faults import SpecError
from tests.nesting.leads import assert_leads_clear
from tests.nesting.plates import plate, strip


@pytest.mark.parametrize(
    ("process", "kerf", "thickness", "clear"),
    [("plasma", 1.7, 6.0, 1.7), ("plasma", 1.7, 8.0, 2.0), ("laser", 0.3, 10.0, 1.0),
     ("oxy-fuel", 2.0, 8.0, 4.0)],
)  # fmt: skip
def test_by_process_thickness_and_kerf(
    process: str, kerf: float, thickness: float, clear: float
) -> None:
    cut = Cutting(process=process, kerf_mm=kerf, lead_in_mm=5.0)
    assert pierce_clear_mm(cut, thickness) == pytest.approx(clear)
    assert good_clear_mm(cut, thickness) == max(5.0, 1.5 * thickness)
    told = cut.model_copy(update={"pierce_clear_mm": 3.0})
    assert pierce_clear_mm(told, thickness) == 3.0
    short = cut.model_copy(update={"lead_in_mm": 0.5})
    assert pierce_clear_mm(short, thickness) == 0.5


def test_parts_are_laid_as_far_apart_as_pierces_need() -> None:
    """Two pierces of 2 mm clear, hairs of 0.02 and a kerf of 1.7 mm: 5.74."""
    narrow = Cutting(part_spacing_mm=4.4, lead_in_mm=5.0)
    assert led_spacing_mm(narrow, 8.0) == pytest.approx(5.74)
    assert led_spacing_mm(Cutting(lead_in_mm=5.0), 8.0) == 6.0
    assert led_spacing_mm(Cutting(part_spacing_mm=4.4), 8.0) == 4.4
    (words,) = spacing_words(narrow, 8.0, ["disc", "tread"])
    assert "exceed part_spacing_mm 4.4" in words
    assert "(disc, tread)" in words
    assert "laid 5.74 mm apart" in words
    (still,) = spacing_words(Cutting(lead_in_mm=5.0), 8.0, ["disc"])
    assert "apart" not in still
    assert spacing_words(Cutting(lead_in_mm=4.0), 8.0, ["disc"]) == []


def test_a_clear_that_no_lead_reaches_is_refused() -> None:
    with pytest.raises(SpecError, match=r"at most lead_in_mm, 3 mm"):
        Cutting(lead_in_mm=3.0, pierce_clear_mm=4.0)


@pytest.mark.parametrize("spacing", [4.0, 6.0])
@pytest.mark.parametrize(("kerf_in_path", "tabs"), [(False, 0), (True, 0), (False, 3)])
def test_every_strip_of_a_full_plate_is_led(spacing: float, kerf_in_path: bool, tabs: int) -> None:
    """Plates of 152 x 76 mm in a tight grid, 6 mm and less apart, leads of 5 mm."""
    cut = Cutting(
        part_spacing_mm=spacing,
        kerf_mm=1.5,
        lead_in_mm=5.0,
        kerf_in_path=kerf_in_path,
        tab_count=tabs,
        sheet_margin_mm=6.0,
    )
    wanted = [Wanted(strip(152.0, 76.0, "plate"), 24)]
    stock = [plate(660.0, 510.0)]
    found = nest(wanted, stock, cut, effort="quick")
    led = 0
    for layout in found.layouts:
        done = sheet_cuts(layout, cut)
        assert_leads_clear(done, layout, cut)
        assert all(one.lead_in for part in done.parts for one in part.cuts)
        led += layout.repeat * len(done.parts)
    assert led == 24
