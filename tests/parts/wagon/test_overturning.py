"""Tipping as figures, against moments worked by hand and against the check."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.speed import overturning
from platewheel.parts.wagon.curving import overturning_speed_m_s
from platewheel.parts.wagon.overturning import (
    balanced_speed_km_h,
    inner_rail_share,
    tipping_safety,
    tipping_speed_km_h,
)
from tests.parts.checks.running.settings import running_setting


def test_worked_by_hand() -> None:
    """sqrt(9.81 x 10 x 0.325 / 0.70) = 6.75 m/s: contact spacing 650 mm, 700 mm high, R 10 m."""
    assert overturning_speed_m_s(325, 700, 10) == pytest.approx(6.75, abs=0.005)
    wagon = running_setting(gauge_mm=625.0, centre_of_gravity_mm=700.0, max_speed_km_h=8.1)
    assert tipping_speed_km_h(wagon) == pytest.approx(24.3, abs=0.05)
    assert tipping_safety(wagon) == pytest.approx(3.0, abs=0.005)


@pytest.mark.parametrize("cant_mm", [0.0, 20.0, 60.0])
@pytest.mark.parametrize("suspension", ["rigid", "three-point"])
def test_inner_rail_is_free_at_the_tipping_speed_that_the_check_tells(
    cant_mm: float, suspension: str
) -> None:
    keys = {"cant_mm": cant_mm, "suspension": suspension, "centre_of_gravity_mm": 800.0}
    told = overturning(running_setting(**keys)).value
    assert told is not None
    assert tipping_speed_km_h(running_setting(**keys)) == pytest.approx(told)
    tipping = running_setting(**keys, max_speed_km_h=told)
    assert inner_rail_share(tipping) == pytest.approx(0, abs=1e-9)
    assert tipping_safety(tipping) == pytest.approx(1)


def test_balanced_speed_loads_both_rails_alike() -> None:
    """Within the small angle; and a wagon at rest presses more on the inner rail."""
    keys = {"cant_mm": 30.0, "centre_of_gravity_mm": 800.0}
    speed = balanced_speed_km_h(running_setting(**keys))
    assert speed == pytest.approx(3.6 * math.sqrt(9.81 * 10 * 30 / 625))
    assert inner_rail_share(running_setting(**keys, max_speed_km_h=speed)) == pytest.approx(
        1, abs=0.001
    )
    crawling = inner_rail_share(running_setting(**keys, max_speed_km_h=0.1))
    assert crawling is not None
    assert crawling > 1.1


def test_unknown_height_is_told_as_unknown() -> None:
    unknown = running_setting()
    assert tipping_speed_km_h(unknown) is tipping_safety(unknown) is inner_rail_share(unknown)
    assert tipping_safety(running_setting(centre_of_gravity_mm=5.0, cant_mm=200.0)) == math.inf
