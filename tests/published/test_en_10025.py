"""Strength of structural and axle steel by thickness: EN 10025-2:2004, table 7, and EN 10083-2
(normalised), as steel dealers print them; from memory, each number typed here on its own."""

from __future__ import annotations

import pytest

from platewheel.parts.base.steel import AXLE_STEELS


@pytest.mark.parametrize(
    ("grade", "thick", "yields", "breaks"),
    [
        *(("S235", 16, 235, 360), ("S235", 40, 225, 360), ("S235", 100, 215, 360)),
        *(("S235", 150, 195, 350), ("S275", 16, 275, 410), ("S275", 80, 245, 410)),
        *(("S275", 101, 225, 400), ("S355", 16, 355, 470), ("S355", 63, 335, 470)),
        *(("S355", 63.1, 325, 470), ("S355", 90, 315, 470), ("S355", 120, 295, 450)),
        *(("C45", 40, 305, 580), ("C45", 120, 275, 560)),
    ],
)
def test_least_strengths(grade: str, thick: float, yields: float, breaks: float) -> None:
    steel = AXLE_STEELS[grade]
    assert steel.fy_n_mm2(thick) == yields
    assert steel.fu_at_n_mm2(thick) == breaks


@pytest.mark.parametrize("grade", sorted(AXLE_STEELS))
def test_beyond_the_table_nothing_is_said(grade: str) -> None:
    for strength in (AXLE_STEELS[grade].fy_n_mm2, AXLE_STEELS[grade].fu_at_n_mm2):
        with pytest.raises(ValueError, match="got 151"):
            strength(151)
