"""Climbing: the limit turned round, the parts of the force, and the window of the angle."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from typing import Any

import pytest

from platewheel.cli.papers.charts.flange_window import window_picture
from platewheel.parts.checks.running.climb import (
    RESERVE,
    climbing_friction,
    expected_share,
    flange_climb,
    least_angle,
    nadal_limit,
)
from platewheel.parts.checks.running.flange_window import (
    clearance_margin,
    climb_margin,
    flange_window,
    touch_margin,
    window_check,
)
from tests.parts.checks.running.settings import running_setting
from tests.parts.loads.test_twist import rough

# a window closed on both sides
NARROW = {"min_curve_radius_m": 4.0, "back_to_back_mm": 572.0, "friction_high": 0.4}


@pytest.mark.parametrize("angle_deg", [46.0, 60.0, 75.0, 90.0])
@pytest.mark.parametrize("friction", [0.1, 0.5, 0.9])
def test_nadal_from_the_balance_of_forces(angle_deg: float, friction: float) -> None:
    """Second way: normal force 1 on the flange's face and the friction that holds it up."""
    angle = math.radians(angle_deg)
    lateral = math.sin(angle) - friction * math.cos(angle)
    vertical = math.cos(angle) + friction * math.sin(angle)
    ratio = nadal_limit(angle, friction)
    assert ratio == pytest.approx(lateral / vertical)
    assert math.degrees(least_angle(ratio, friction)) == pytest.approx(angle_deg)


def test_expected_share_is_the_sum_of_its_parts() -> None:
    """By hand: 0.4; 9 km/h = 2.5 m/s in 10 m: 6.25 / 98.1 x 2 = 0.1274; 400 N turned by
    asin(600 / 20000) on an empty wheel of 490.5 N: 0.02446."""
    setting = running_setting(max_speed_km_h=9.0)
    assert expected_share(setting) == pytest.approx(0.4 + 0.12742 + 0.02446, abs=2e-5)
    level = running_setting(max_speed_km_h=9.0, cant_mm=60.0)
    assert expected_share(level) == pytest.approx(0.4 + 0.02446, abs=2e-5)


def test_a_flat_flange_warns_then_fails_and_the_advice_holds() -> None:
    assert flange_climb(running_setting()).verdict == "pass"
    flat = flange_climb(running_setting(flange_angle_deg=57.0))
    assert flat.verdict == "warn"
    assert flange_climb(running_setting(flange_angle_deg=50.0)).verdict == "fail"
    advised = float(flat.says.rsplit("= ", 1)[1])
    assert flange_climb(running_setting(flange_angle_deg=advised)).verdict == "pass"
    assert flange_climb(running_setting(flange_angle_deg=advised - 0.2)).verdict == "warn"


def test_the_window_ends_where_either_margin_is_nothing() -> None:
    setting = running_setting(**NARROW)
    window = flange_window(setting)
    assert window.is_open
    assert window.greatest_deg is not None
    assert climb_margin(setting, window.least_deg) == pytest.approx(0, abs=1e-9)
    greatest = window.greatest_deg
    margins = clearance_margin(setting, greatest), touch_margin(setting, greatest)
    assert min(margins) == pytest.approx(0, abs=1e-5)
    inside = window_check(setting).value
    assert inside == pytest.approx(min(70 - window.least_deg, window.greatest_deg - 70))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"friction_high": 0.9, "lateral_share": 1.4}, "every flange angle climbs"),
        ({"back_to_back_mm": 577.7, "min_curve_radius_m": 3.0}, "no flange angle clears"),
        ({**NARROW, "lateral_share": 0.7}, "but only to"),
    ],
)
def test_no_window_is_told(changes: dict[str, float], words: str) -> None:
    result = window_check(running_setting(**changes))
    assert result.verdict == "warn"
    assert words in result.says


def test_the_picture_marks_what_the_numbers_say() -> None:
    setting = running_setting(**NARROW)
    window, text = flange_window(setting), window_picture(setting)
    ET.fromstring(text)
    shade = re.search(r'class="window" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', text)
    mark = re.search(r'class="present" d="M([\d.]+)', text)
    ticks = dict(re.findall(r'<text x="([\d.]+)" y="338.0" text-anchor="middle">(\d+)<', text))
    assert shade
    assert mark
    places = sorted((float(deg), float(x)) for x, deg in ticks.items())
    (deg0, x0), (deg1, x1) = places[0], places[-1]
    assert (deg0, deg1) == (45, 90)

    def angle(x: float) -> float:
        return deg0 + (x - x0) / (x1 - x0) * (deg1 - deg0)

    low = float(shade[1])
    assert angle(low) == pytest.approx(window.least_deg, abs=0.02)
    assert angle(low + float(shade[2])) == pytest.approx(window.greatest_deg, abs=0.02)
    assert angle(float(mark[1])) == pytest.approx(70, abs=0.02)
    assert window.says in text


def test_the_picture_without_a_window_shades_nothing() -> None:
    for changes in ({"min_curve_radius_m": 1.0, "wheelbase_mm": 3000.0}, {"lateral_share": 1.5}):
        text = window_picture(running_setting(**changes, friction_high=0.9))
        ET.fromstring(text)
        assert 'class="window"' not in text
        assert 'class="present"' in text


def test_reserve_is_the_ratio_of_the_two_limits() -> None:
    assert pytest.approx(1.5) == RESERVE


@pytest.mark.parametrize(
    "keys", [{}, {"wheels_on_axle": "loose", "bearing": "bush"}, {"lateral_share": 0.5},
             {"flange_angle_deg": 90.0}, {"max_speed_km_h": 15.0}],
)  # fmt: skip
def test_friction_at_which_it_climbs(keys: dict[str, Any]) -> None:
    """There the ratio is Nadal's limit itself."""
    setting = rough(**keys)
    friction = climbing_friction(setting)
    there = rough(**(keys | {"friction_high": min(friction, 1.0)}))
    limit = nadal_limit(setting.wheel.flange_angle, friction)
    if friction <= 1:
        assert expected_share(there) == pytest.approx(limit, rel=1e-6)
    assert friction > 0.2


def test_a_push_that_any_friction_lets_climb() -> None:
    assert climbing_friction(rough(flange_angle_deg=45.0, lateral_share=1.0)) == 0.0
