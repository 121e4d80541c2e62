"""Factor on the loads of an axle at which Miner's sum is 1, by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.wheelset.axle_fatigue import life_safety, slope


def test_slope_of_the_line_through_two_points() -> None:
    """0.9 Rm at 1e3, Se at 1e6: Rm 500, Se 225 are a factor of 2: 3 / log10 2 = 9.97."""
    assert slope(500.0, 225.0) == pytest.approx(3 / math.log10(2))


def test_loads_alike_may_reach_the_limit() -> None:
    assert life_safety([(0.5, 1e9)], 8.0) == pytest.approx(2.0, rel=1e-6)
    assert life_safety([], 8.0) == math.inf
    assert life_safety([(0.0, 1e9)], 8.0) == math.inf


def test_few_loads_above_the_limit() -> None:
    """1000 cycles alone at the limit's load: Miner's sum is 1 at 1000^(1/8) times it."""
    assert life_safety([(1.0, 1e3)], 8.0) == pytest.approx(1000 ** (1 / 8), rel=1e-4)


def test_small_loads_count_beside_large_ones() -> None:
    """At the factor found: (n u)^8 for what is above the limit, (n u)^15 for what is below."""
    factor = life_safety([(1.0, 1e4), (0.5, 1e7)], 8.0)
    total = 1e4 / 1e6 * factor**8 + 10 * (0.5 * factor) ** (15 if 0.5 * factor < 1 else 8)
    assert total == pytest.approx(1.0, rel=1e-3)
    assert factor < life_safety([(1.0, 1e4)], 8.0)
