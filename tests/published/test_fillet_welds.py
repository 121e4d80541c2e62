"""Fillet welds: EN 1993-1-8 design guides, and line welds after Blodgett."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.base.steel import STEELS
from platewheel.parts.checks.strength.weld_strength import (
    circle_bending_mm2,
    circle_length_mm,
    circle_polar_mm3,
    fillet_strength_n_mm2,
)


@pytest.mark.parametrize(("grade", "strength"), [("S235", 207.8), ("S275", 222.8), ("S355", 241.2)])
def test_design_strength(grade: str, strength: float) -> None:
    """Design guide to EN 1993-1-8, 4.5.3.3 (steelcalculator.app): 208, 223, 241 N/mm2."""
    assert fillet_strength_n_mm2(STEELS[grade]) == pytest.approx(strength, abs=0.05)


def test_worked_example_of_two_runs() -> None:
    """The same guide: S275, throat 4.2, two runs of 150, less a throat at each end: 265.0 kN."""
    throat, length = 4.2, 2 * (150 - 2 * 4.2)
    each_mm = throat * fillet_strength_n_mm2(STEELS["S275"])
    assert each_mm == pytest.approx(935.8, rel=2e-4)
    assert each_mm * length == pytest.approx(265.0e3, rel=2e-3)
    assert 150e3 / (each_mm * length) == pytest.approx(0.566, abs=5e-4)


def test_circle_as_a_line() -> None:
    """Blodgett, Design of Welded Structures (from memory): d 100 gives 7854 mm2, 785 398 mm3."""
    assert circle_bending_mm2(100) == pytest.approx(7854, abs=0.5)
    assert circle_polar_mm3(100) == pytest.approx(785_398, abs=0.5)


@pytest.mark.parametrize("diameter", [51.0, 287.0])
def test_circle_by_integration(diameter: float) -> None:
    """Sums over 3600 short pieces of the weld: length, y^2 over y max, r^2."""
    n, r = 3600, diameter / 2
    piece = 2 * r * math.sin(math.pi / n)
    heights = [r * math.sin(2 * math.pi * i / n) for i in range(n)]
    assert circle_length_mm(diameter) == pytest.approx(n * piece, rel=1e-5)
    assert circle_bending_mm2(diameter) == pytest.approx(
        sum(y * y for y in heights) * piece / r, rel=1e-5
    )
    assert circle_polar_mm3(diameter) == pytest.approx(n * piece * r * r, rel=1e-5)
