"""Cycles to failure of a welded detail at a stress range: the S-N curves of wheel and axle."""

from __future__ import annotations

import math

CATEGORY_CYCLES = 2e6  # a detail's category is its range at this life
CONSTANT_LIMIT_CYCLES = 5e6  # EN 1993-1-9: slope 3 up to here
CUT_OFF_CYCLES = 1e8  # EN 1993-1-9: slope 5 up to here, then no damage
IIW_KNEE_CYCLES = 1e7


def cycles_to_failure(range_n_mm2: float, category_n_mm2: float) -> float:
    """Cycles at a constant stress range, N/mm2: slope 3 to 5e6, slope 5 to 1e8, then infinite.

    Raises: ValueError for a range below 0 or a category not above 0.
    Source: EN 1993-1-9:2005, 7.1, figure 7.1.
    """
    _allowed(range_n_mm2, category_n_mm2)
    knee = category_n_mm2 * (CATEGORY_CYCLES / CONSTANT_LIMIT_CYCLES) ** (1 / 3)
    cut_off = knee * (CONSTANT_LIMIT_CYCLES / CUT_OFF_CYCLES) ** (1 / 5)
    if range_n_mm2 <= cut_off:
        return math.inf
    if range_n_mm2 <= knee:
        return float(CONSTANT_LIMIT_CYCLES * (knee / range_n_mm2) ** 5)
    return float(CATEGORY_CYCLES * (category_n_mm2 / range_n_mm2) ** 3)


def range_for_cycles(category_n_mm2: float, cycles: float) -> float:
    """Constant stress range, N/mm2, that a category bears for so many cycles: the inverse of
    `cycles_to_failure`, the cut-off beyond 1e8.

    Raises: ValueError for a category or cycles not above 0.
    Source: EN 1993-1-9:2005, 7.1, figure 7.1.
    """
    _allowed(0.0, category_n_mm2)
    if not cycles > 0:
        raise ValueError(f"cycles: found {cycles:g}; allowed: above 0")
    if cycles <= CONSTANT_LIMIT_CYCLES:
        return float(category_n_mm2 * (CATEGORY_CYCLES / cycles) ** (1 / 3))
    knee = category_n_mm2 * (CATEGORY_CYCLES / CONSTANT_LIMIT_CYCLES) ** (1 / 3)
    return float(knee * (CONSTANT_LIMIT_CYCLES / min(cycles, CUT_OFF_CYCLES)) ** (1 / 5))


def cycles_to_failure_iiw(range_n_mm2: float, fat_n_mm2: float) -> float:
    """Cycles at a stress range, N/mm2, loads of varying size: slope 3 to 1e7, then slope 5.

    There is no cut-off: with varying loads small ranges count too. Infinite only where the range
    is nothing, below 1e-12 of the knee.
    Raises: ValueError for a range below 0 or a class not above 0.
    Source: IIW recommendations for fatigue design of welded joints (Hobbacher), normal stress,
    variable amplitude; from memory.
    """
    _allowed(range_n_mm2, fat_n_mm2)
    knee = fat_n_mm2 * (CATEGORY_CYCLES / IIW_KNEE_CYCLES) ** (1 / 3)
    if range_n_mm2 < 1e-12 * knee:
        return math.inf
    if range_n_mm2 <= knee:
        return float(IIW_KNEE_CYCLES * (knee / range_n_mm2) ** 5)
    return float(CATEGORY_CYCLES * (fat_n_mm2 / range_n_mm2) ** 3)


def cycles_to_failure_shear(range_n_mm2: float, class_n_mm2: float) -> float:
    """Cycles at a shear range, N/mm2, loads of varying size: slope 5 all the way, no cut-off.
    Infinite only where the range is nothing, below 1e-12 of the class.

    Raises: ValueError for a range below 0 or a class not above 0.
    Source: EN 1993-1-9:2005, 7.1, figure 7.2; without its cut-off at 1e8, which is for constant
    ranges; from memory.
    """
    _allowed(range_n_mm2, class_n_mm2)
    if range_n_mm2 < 1e-12 * class_n_mm2:
        return math.inf
    return float(CATEGORY_CYCLES * (class_n_mm2 / range_n_mm2) ** 5)


def _allowed(range_n_mm2: float, class_n_mm2: float) -> None:
    if not 0 <= range_n_mm2 < math.inf:
        raise ValueError(f"range_n_mm2: found {range_n_mm2:g}; allowed: from 0 N/mm2, finite")
    if not 0 < class_n_mm2 < math.inf:
        raise ValueError(f"detail class: found {class_n_mm2:g}; allowed: above 0 N/mm2, finite")
