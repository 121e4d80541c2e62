"""S-N curves to the last digit: their points in closed form, and what they refuse."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.rating.fatigue import (
    cycles_to_failure,
    cycles_to_failure_iiw,
    range_for_cycles,
)

KNEE, CUT_OFF = 0.4 ** (1 / 3), 0.4 ** (1 / 3) * 0.05 ** (1 / 5)  # of the category, EN 1993-1-9
IIW_KNEE = 0.2 ** (1 / 3)  # of the class, at 1e7 cycles; IIW (Hobbacher), from memory


# EN 1993-1-9:2005, figure 7.1: slope 3 through the category at 2e6, slope 5 from 5e6 to 1e8.
@pytest.mark.parametrize(
    ("share", "cycles"),
    [(2.0, 2e6 / 8), (1.0, 2e6), (KNEE * 1.0001, 5e6 / 1.0001**3), (KNEE / 2**0.2, 1e7)],
)
def test_en_curve_and_back(share: float, cycles: float) -> None:
    assert cycles_to_failure(71 * share, 71.0) == pytest.approx(cycles, rel=1e-9)
    assert range_for_cycles(71.0, cycles) == pytest.approx(71 * share, rel=1e-9)


def test_en_cut_off() -> None:
    """Just above it 1e8 cycles, at it and below for ever; a longer life gets no less range."""
    assert cycles_to_failure(100 * CUT_OFF * 1.0001, 100.0) == pytest.approx(1e8, rel=1e-3)
    assert cycles_to_failure(100 * CUT_OFF * 0.9999, 100.0) == math.inf
    assert cycles_to_failure(0.0, 100.0) == math.inf
    for cycles in (1e8, 5e9):
        assert range_for_cycles(100.0, cycles) == pytest.approx(100 * CUT_OFF, rel=1e-9)
    assert range_for_cycles(100.0, 0.25) == pytest.approx(100 * 200)  # 8e6^(1/3)


@pytest.mark.parametrize(
    ("share", "cycles"),
    [(2.0, 2e6 / 8), (1.0, 2e6), (IIW_KNEE * 1.0001, 1e7 / 1.0001**3), (IIW_KNEE / 2, 3.2e8)],
)
def test_iiw_curve(share: float, cycles: float) -> None:
    """IIW, loads of varying size, from memory: slope 3 to 1e7, slope 5 without end."""
    assert cycles_to_failure_iiw(36 * share, 36.0) == pytest.approx(cycles, rel=1e-9)


def test_next_to_nothing_lasts_for_ever() -> None:
    knee = 36 * IIW_KNEE
    assert cycles_to_failure_iiw(0.0, 36.0) == math.inf
    assert cycles_to_failure_iiw(0.9e-12 * knee, 36.0) == math.inf
    assert cycles_to_failure_iiw(1.1e-12 * knee, 36.0) == pytest.approx(1e7 * (1 / 1.1e-12) ** 5)


@pytest.mark.parametrize("curve", [cycles_to_failure, cycles_to_failure_iiw])
@pytest.mark.parametrize(
    ("stress", "category", "told"),
    [
        (-0.1, 36.0, "range_n_mm2: found -0.1"),
        (math.inf, 36.0, "range_n_mm2: found inf"),
        (math.nan, 36.0, "range_n_mm2: found nan"),
        (10.0, 0.0, "detail class: found 0;"),
        (10.0, -36.0, "detail class: found -36"),
        (10.0, math.inf, "detail class: found inf"),
    ],
)
def test_what_is_no_range_or_class(curve: Any, stress: float, category: float, told: str) -> None:
    with pytest.raises(ValueError, match=told):
        curve(stress, category)


def test_what_is_no_life() -> None:
    for cycles in (0.0, -1.0, math.nan):
        with pytest.raises(ValueError, match="cycles: found"):
            range_for_cycles(36.0, cycles)
    with pytest.raises(ValueError, match="detail class"):
        range_for_cycles(0.0, 2e6)
    with pytest.raises(ValueError, match="detail class"):
        range_for_cycles(-1.0, 2e6)
    assert range_for_cycles(0.5, 2e6) == pytest.approx(0.5)
    assert cycles_to_failure(0.5, 0.5) == pytest.approx(2e6)
