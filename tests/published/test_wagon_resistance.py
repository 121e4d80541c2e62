"""Resistance of wagons against published figures.

- nordengineeringdatabase.com, wheel-on-rail resistance of cranes: its factors, worked for a 300 mm
  wheel on 35 mm journals.
- US Army TR0603 (tpub.com), railway operating: 20 lb per short ton for each per cent of grade;
  average rolling resistance of 7 lb per short ton.
- tables of rolling resistance in railway handbooks, and handbooks on bushes: from memory, no one
  title vouched for.
"""

from __future__ import annotations

import pytest

from platewheel.parts.wagon.resistance import (
    LEAST_LEVER_MM,
    PLAIN,
    ROLLING,
    force_n,
    least_factor,
    running_factor,
    wheel_factor,
)

LB_N, SHORT_TON_KG = 4.44822, 907.185  # definitions


@pytest.mark.parametrize(
    ("friction", "extra", "factor"), [(0.1, 0.005, 0.0200), (0.005, 0.003, 0.00692)]
)
def test_crane_formula(friction: float, extra: float, factor: float) -> None:
    """nordengineeringdatabase.com's factors: plain, then rolling bearings; worked apart."""
    assert wheel_factor(300, 35, friction, extra) == pytest.approx(factor, abs=5e-6)
    bearing = PLAIN if friction == 0.1 else ROLLING
    assert running_factor(300, 35, bearing) == pytest.approx(factor, abs=5e-6)


@pytest.mark.parametrize("percent", [0.5, 1.0, 2.0, 4.0])
def test_grade_resistance_of_the_army_manual(percent: float) -> None:
    """US Army TR0603: 20 lb a short ton a per cent; g there is that of the pound, 9.80665."""
    ours_lb = force_n(SHORT_TON_KG, 0.0, percent) / LB_N
    assert ours_lb == pytest.approx(20 * percent, rel=0.002)


@pytest.mark.parametrize("journal", [65, 130])
def test_least_resistance_is_below_that_of_every_train(journal: float) -> None:
    """Tables: railway wagons 0.10 to 0.24 %, pure rolling 0.03 to 0.04, mine cars with cast wheels
    0.19 to 0.65. What must be reckoned with when a wagon must not roll lies above pure rolling and
    below the least of wagons, on railway wheels and on small ones. The average of 0.35 % (US Army
    TR0603: 7 lb a short ton) is far above."""
    least = least_factor(840, journal, ROLLING)
    assert 0.0003 < least < 0.0010
    assert least_factor(300, 35, ROLLING) < 0.0019 < 0.0035


def test_least_resistance_of_greased_bushes() -> None:
    """Greased bronze, moving: friction 0.02 to 0.08 by handbooks, from memory; the lower third."""
    only_bush = least_factor(300, 35, PLAIN) - 2 / 300 * LEAST_LEVER_MM
    assert 0.02 <= only_bush * 300 / 35 <= 0.04
