"""The S-N curve in use against EN 1993-1-9 as tabulated by simis.io, and as the PyPI package
openrainflow 1.0.0 has it (read once by `python -m tests.bench.read_fatigue_curves`; the package is
not needed); IIW recommendations from memory."""

from __future__ import annotations

import math

import numpy as np
import pytest

from platewheel.parts.rating.fatigue import damage_a_cycle

CONSTANT_LIMIT_CYCLES = 5e6  # EN 1993-1-9: slope 3 up to here, then slope 5, nothing beyond 1e8


def cycles(range_n_mm2: float, fat_n_mm2: float, in_shear: bool = False) -> float:
    """Of a constant range by the curve in use."""
    return float(1 / damage_a_cycle(np.array([range_n_mm2]), fat_n_mm2, in_shear)[0])


OPENRAINFLOW = [  # category, stress range N/mm2, cycles to failure
    (36, 20, 2.05163e07),
    (36, 30, 3.456e06),
    (36, 45, 1.024e06),
    (36, 60, 432000),
    (36, 100, 93312),
    (36, 160, 22781.2),
    (63, 20, math.inf),
    (63, 30, 4.43438e07),
    (63, 45, 5.83952e06),
    (63, 60, 2.31525e06),
    (63, 100, 500094),
    (63, 160, 122093),
    (71, 20, math.inf),
    (71, 30, 8.06162e07),
    (71, 45, 1.06161e07),
    (71, 60, 3.31399e06),
    (71, 100, 715822),
    (71, 160, 174761),
    (90, 20, math.inf),
    (90, 30, math.inf),
    (90, 45, 3.47445e07),
    (90, 60, 8.24504e06),
    (90, 100, 1.458e06),
    (90, 160, 355957),
    (112, 20, math.inf),
    (112, 30, math.inf),
    (112, 45, math.inf),
    (112, 60, 2.46077e07),
    (112, 100, 2.80986e06),
    (112, 160, 686000),
]


@pytest.mark.parametrize(("category", "stress", "lives"), OPENRAINFLOW)
def test_lives_of_a_public_package(category: float, stress: float, lives: float) -> None:
    """EN 1993-1-9, figure 7.1; printed to six digits. For constant ranges it bends at 5e6 and ends
    at 1e8; the curve in use, for ranges of varying size, never gives a longer life."""
    found = cycles(stress, category)
    if lives <= CONSTANT_LIMIT_CYCLES:
        assert found == pytest.approx(lives, rel=1e-5)
    else:
        assert found < lives


@pytest.mark.parametrize(
    ("category", "stress", "lives"), [(36, 50, 7.465e5), (71, 60, 3.314e6), (100, 100, 2e6)]
)
def test_lives(category: float, stress: float, lives: float) -> None:
    """EN 1993-1-9, 7.1, slope 3 (printed with dD rounded to 0.737 dC: 0.15 %)."""
    assert cycles(stress, category) == pytest.approx(lives, rel=2e-3)


def test_the_constant_limit() -> None:
    """EN 1993-1-9, 7.1: dD = 0.737 dC at 5e6; beyond 1e8, at 0.549 dD, still some damage."""
    assert cycles(73.7, 100) == pytest.approx(5e6, rel=2e-3)
    assert cycles(40.4, 100) < 1e8


@pytest.mark.parametrize(("fat", "stress", "lives"), [(90, 90, 2e6), (90, 52.6, 1e7)])
def test_iiw(fat: float, stress: float, lives: float) -> None:
    """Hobbacher, table of FAT 90 (from memory): 52.6 N/mm2 at the knee of 1e7, printed to 0.1."""
    # half of the last digit is 0.1 % of the range, 0.5 % of the life at slope 5
    assert cycles(stress, fat) == pytest.approx(lives, rel=5e-3)


def test_iiw_slopes() -> None:
    """Halving the range gives 2^3 lives above the knee, 2^5 below."""
    assert cycles(100, 90) / cycles(200, 90) == pytest.approx(8)
    assert cycles(20, 90) / cycles(40, 90) == pytest.approx(32)


@pytest.mark.parametrize(
    ("share", "lives"), [(1.0, 2e6), (0.457, 1e8), (0.5, 6.4e7), (2.0, 62500.0)]
)
def test_shear(share: float, lives: float) -> None:
    """EN 1993-1-9:2005, 7.1: 80 at 2e6, slope 5, 0.457 of it at 1e8; from memory."""
    assert cycles(80 * share, 80, in_shear=True) == pytest.approx(lives, rel=5e-3)
