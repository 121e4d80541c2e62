"""S-N curves: EN 1993-1-9 as tabulated by simis.io, and as the PyPI package openrainflow 1.0.0 has
them (read once by `python -m tests.bench.read_fatigue_curves`; the package is not needed); IIW
recommendations from memory."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.rating.fatigue import (
    cycles_to_failure,
    cycles_to_failure_iiw,
    range_for_cycles,
)

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


@pytest.mark.parametrize(("category", "stress", "cycles"), OPENRAINFLOW)
def test_lives_of_a_public_package(category: float, stress: float, cycles: float) -> None:
    """EN 1993-1-9, figure 7.1; printed to six digits."""
    assert cycles_to_failure(stress, category) == pytest.approx(cycles, rel=1e-5)


@pytest.mark.parametrize(
    ("category", "stress", "cycles"),
    [(36, 50, 7.465e5), (71, 60, 3.314e6), (71, 40, 1.916e7), (100, 100, 2e6)],
)
def test_lives(category: float, stress: float, cycles: float) -> None:
    """EN 1993-1-9, 7.1: slope 3, then slope 5 (printed with dD rounded to 0.737 dC: 0.15 %)."""
    assert cycles_to_failure(stress, category) == pytest.approx(cycles, rel=2e-3)


def test_the_two_limits() -> None:
    """EN 1993-1-9, 7.1: dD = 0.737 dC at 5e6 and dL = 0.549 dD at 1e8; category 100: 73.7, 40.5."""
    knee, cut_off = (2 / 5) ** (1 / 3), (5 / 100) ** (1 / 5)
    assert knee == pytest.approx(0.7368, abs=5e-5)
    assert cut_off == pytest.approx(0.5493, abs=5e-5)
    assert cycles_to_failure(73.7, 100) == pytest.approx(5e6, rel=2e-3)
    assert cycles_to_failure(40.5, 100) == pytest.approx(1e8, rel=5e-3)
    assert cycles_to_failure(40.4, 100) == math.inf


@pytest.mark.parametrize("cycles", [1e4, 2e6, 5e6, 4e7])
def test_range_for_cycles_and_back(cycles: float) -> None:
    """The category itself at 2e6; knee 73.7 and cut-off 40.5 as printed; the rest by the curve."""
    assert cycles_to_failure(range_for_cycles(71, cycles), 71) == pytest.approx(cycles)
    assert range_for_cycles(100, 2e6) == 100
    assert range_for_cycles(100, 5e6) == pytest.approx(73.7, abs=0.05)
    assert range_for_cycles(100, 1e8) == pytest.approx(40.5, abs=0.05)
    assert range_for_cycles(100, 1e9) == range_for_cycles(100, 1e8)


@pytest.mark.parametrize(("fat", "stress", "cycles"), [(90, 90, 2e6), (90, 52.6, 1e7)])
def test_iiw(fat: float, stress: float, cycles: float) -> None:
    """Hobbacher, table of FAT 90 (from memory): 52.6 N/mm2 at the knee of 1e7, printed to 0.1."""
    # half of the last digit is 0.1 % of the range, 0.5 % of the life at slope 5
    assert cycles_to_failure_iiw(stress, fat) == pytest.approx(cycles, rel=5e-3)


def test_iiw_slopes() -> None:
    """Halving the range gives 2^3 lives above the knee, 2^5 below."""
    assert cycles_to_failure_iiw(100, 90) / cycles_to_failure_iiw(200, 90) == pytest.approx(8)
    assert cycles_to_failure_iiw(20, 90) / cycles_to_failure_iiw(40, 90) == pytest.approx(32)
