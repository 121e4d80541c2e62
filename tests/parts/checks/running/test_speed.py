"""Speed: tipping against moments about the rail, and what cant changes."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.parts.checks.running.speed import (
    cant_deficiency,
    cant_standing,
    overturning,
)
from platewheel.parts.loads.travel import outward_share
from platewheel.parts.wagon.curving import overturning_speed_m_s
from tests.parts.checks.running.settings import running_setting


@pytest.mark.parametrize("cant", [0.0, 0.05, 0.15])
def test_tipping_is_balance_of_moments(cant: float) -> None:
    """Second way: weight and centrifugal force in the wagon's own axes, about the outer rail."""
    half, height, radius = 300.0, 700.0, 12.0
    outward = overturning_speed_m_s(half, height, radius, cant) ** 2 / radius
    across = outward * math.cos(cant) - 9.81 * math.sin(cant)
    down = 9.81 * math.cos(cant) + outward * math.sin(cant)
    assert across * height == pytest.approx(down * half)


def test_cant_steeper_than_the_wagon_is_tall_never_tips_outwards() -> None:
    assert overturning_speed_m_s(300, 10, 10, 0.5) == math.inf
    flat = running_setting(centre_of_gravity_mm=10.0, cant_mm=200.0)
    assert overturning(flat).verdict == "pass"


def test_overturning_of_the_wagon() -> None:
    unknown = overturning(running_setting())
    assert (unknown.verdict, unknown.value) == ("not-assessed", None)
    assert "wagon.centre_of_gravity_mm" in unknown.says
    tall = {"centre_of_gravity_mm": 1000.0}
    stiff = overturning(running_setting(**tall))
    # sqrt(9.81 x 10 x 0.3125 / 1) = 5.537 m/s
    assert stiff.value == pytest.approx(3.6 * 5.537, abs=0.002)
    three = overturning(running_setting(**tall, suspension="three-point"))
    assert three.value == pytest.approx(3.6 * 5.537 / math.sqrt(2), abs=0.002)
    assert overturning(running_setting(**tall, max_speed_km_h=15.0)).verdict == "warn"
    assert overturning(running_setting(**tall, max_speed_km_h=20.0)).verdict == "fail"


def test_cant_lacking_and_cant_in_excess() -> None:
    """625 mm x 15^2 / (127 x 10) = 110.7 mm at 15 km/h."""
    fast = cant_deficiency(running_setting(max_speed_km_h=15.0))
    assert fast.value == pytest.approx(110.7, abs=0.05)
    assert fast.verdict == "warn"
    allowed = float(fast.says.split("max_speed_km_h = ")[-1])
    assert cant_deficiency(running_setting(max_speed_km_h=allowed)).verdict == "pass"
    assert cant_standing(running_setting()) is None
    low = running_setting(cant_mm=150.0, centre_of_gravity_mm=300.0)
    high = running_setting(cant_mm=150.0, centre_of_gravity_mm=1500.0)
    # 3 m high it tips inwards at 625 sin(atan(312.5 / 3000)) = 64.8 mm, with reserve at 43.2
    near = running_setting(cant_mm=50.0, centre_of_gravity_mm=3000.0)
    safe = running_setting(cant_mm=43.0, centre_of_gravity_mm=3000.0)
    for setting, verdict in ((low, "warn"), (high, "fail"), (near, "warn"), (safe, "pass")):
        result = cant_standing(setting)
        assert result is not None
        assert result.verdict == verdict


def test_outward_share_vanishes_at_the_equilibrium_cant() -> None:
    speed = 9.0
    cant = 625 * (speed / 3.6) ** 2 / (9.81 * 10)
    assert outward_share(running_setting(max_speed_km_h=speed, cant_mm=cant)) == pytest.approx(
        0, abs=1e-12
    )
    assert outward_share(running_setting(max_speed_km_h=speed)) == pytest.approx(cant / 625)


def test_cant_advised_is_safe_for_a_wagon_that_stands() -> None:
    """At 20 km/h 197 - 41.7 mm are asked and 62.5 (a tenth of the spacing) may be: both keys."""
    says = cant_deficiency(running_setting(max_speed_km_h=20.0)).says
    found = re.search(r"track.cant_mm = (\d+) with wagon.max_speed_km_h = ([\d.]+)", says)
    assert found
    both = running_setting(cant_mm=float(found[1]), max_speed_km_h=float(found[2]))
    assert cant_deficiency(both).verdict == "pass"
    standing = cant_standing(both)
    assert standing is not None
    assert standing.verdict == "pass"
    there = cant_deficiency(running_setting(cant_mm=62.0, max_speed_km_h=20.0)).says
    assert "track.cant_mm = " not in there
    tight = running_setting(cant_mm=0.0, max_speed_km_h=14.4)
    assert re.search(r"outer rail, track.cant_mm = \d+, or run", cant_deficiency(tight).says)
