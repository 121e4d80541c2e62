"""Curve: the room of the yawed flange against the cone itself, turned and measured in space."""

from __future__ import annotations

import math

import numpy as np
import pytest

from platewheel.parts.checks.running.curve import (
    curve_room,
    lateral_room_mm,
    middle_axle,
    rail_top_reach_mm,
    room_given_mm,
    room_needed_mm,
    steepest_clear_deg,
)
from platewheel.parts.checks.running.steering import (
    curve_slide,
    rolling_offset_mm,
    tightest_steered_mm,
)
from platewheel.parts.wagon.curving import slide_share, travel_mm
from tests.parts.checks.running.settings import running_setting

STRAIGHT_MM = 1e12


def room_of_turned_cone(r: float, h: float, angle: float, yaw: float, curve_mm: float) -> float:
    """Furthest that any point of the flange's face below the rail top gets past its root."""
    y, turn = np.meshgrid(np.linspace(0, h, 401), np.linspace(-0.5, 0.5, 2001))
    ahead, below = (r + y) * np.sin(turn), (r + y) * np.cos(turn) - r
    to_rail = -y / math.tan(angle)
    along = ahead * math.cos(yaw) - to_rail * math.sin(yaw)
    across = ahead * math.sin(yaw) + to_rail * math.cos(yaw)
    across += curve_mm - np.sqrt(curve_mm**2 - along**2)
    return float(across[below >= 0].max())


@pytest.mark.parametrize("angle_deg", [55.0, 70.0, 80.0, 90.0])
@pytest.mark.parametrize("yaw", [0.0, 0.01, 0.03, 0.08])
@pytest.mark.parametrize(("r", "h"), [(150.0, 15.0), (100.0, 12.0), (225.0, 25.0)])
def test_room_is_that_of_the_cone(r: float, h: float, angle_deg: float, yaw: float) -> None:
    angle = math.radians(angle_deg)
    need = lateral_room_mm(r, h, angle, yaw, 10000)
    # ours takes tan(yaw) for sin(yaw), and leaves the flare's own turn: more by 1 / cos(yaw)
    assert need * math.cos(yaw) == pytest.approx(
        room_of_turned_cone(r, h, angle, yaw, 10000), abs=0.01, rel=0.005
    )


@pytest.mark.parametrize("yaw", [0.01, 0.05, 0.1])
@pytest.mark.parametrize("angle_deg", [50.0, 70.0, 78.0])
def test_room_on_straight_track_in_closed_form(angle_deg: float, yaw: float) -> None:
    """Top of x tan(yaw) - y cot(delta) on the circle r + y: r (c - sqrt(c2 - t2)), if c > t and
    the flange is deep enough; found by setting its slope to nothing."""
    flare, slope = 1 / math.tan(math.radians(angle_deg)), math.tan(yaw)
    expected = 150 * (flare - math.sqrt(flare**2 - slope**2))
    deep = lateral_room_mm(150, 60, math.radians(angle_deg), yaw, STRAIGHT_MM)
    assert deep == pytest.approx(expected, abs=1e-6)


def test_the_steepest_angle_just_clears() -> None:
    tight = running_setting(min_curve_radius_m=4.0, back_to_back_mm=572.0)
    steepest = steepest_clear_deg(tight)
    assert steepest is not None
    assert 45 < steepest < 90
    yaw = math.asin(600 / 8000) + travel_mm(tight) / 600
    given = room_given_mm(tight)
    assert room_needed_mm(tight, steepest, yaw) == pytest.approx(given, abs=1e-5)
    assert room_needed_mm(tight, steepest + 0.5, yaw) > given


def test_a_washer_jams_where_a_flare_passes() -> None:
    tight = {"min_curve_radius_m": 3.0, "wheelbase_mm": 700.0}
    assert curve_room(running_setting(**tight, flange_angle_deg=60.0)).verdict == "pass"
    washer = curve_room(running_setting(**tight, flange_angle_deg=90.0))
    assert washer.verdict == "fail"
    assert washer.value is not None
    assert washer.limit is not None
    assert washer.value > rail_top_reach_mm(150, 15) * 700 / 6000  # the radial error's part


def test_a_wheelbase_longer_than_the_curve_fails_without_a_number() -> None:
    result = curve_room(running_setting(min_curve_radius_m=1.0, wheelbase_mm=3000.0))
    assert (result.verdict, result.value) == ("fail", None)


def test_middle_axles() -> None:
    """Three axles, 1.2 m, 10 m curve: versine 1200^2 / 80000 = 18 mm, above 8 mm of play; with
    four, the two inner ones lie a sixth off the middle: 18 (1 - 1/9) = 16 mm."""
    assert middle_axle(running_setting(wheelbase_mm=1200.0)) is None
    for axles, offset, verdict in ((3, 18.0, "fail"), (4, 16.0, "warn")):
        result = middle_axle(running_setting(wheelbase_mm=1200.0, axles=axles))
        assert result is not None
        assert result.value == pytest.approx(offset, rel=0.002)
        assert result.verdict == verdict


def test_rolling_without_sliding() -> None:
    """Second way: radii of the two treads in the ratio of the two rails' curve radii."""
    r, s, taper, curve_mm = 150.0, 650.0, 1 / 20, 90000.0
    y = rolling_offset_mm(r, s, taper, curve_mm)
    ratio = (r + taper * y) / (r - taper * y)
    assert ratio == pytest.approx((curve_mm + s / 2) / (curve_mm - s / 2), rel=1e-9)
    assert tightest_steered_mm(r, s, taper, 2 * y) == pytest.approx(curve_mm)


def test_sliding_of_fixed_and_loose_wheels() -> None:
    assert slide_share(running_setting()) == pytest.approx(625 / 10000 / 2)
    # travel 10 + 2 x 3 (1 - tan 35 deg) = 11.799 mm, radii 11.799 / 20 apart: (6.25 - 0.3933) / 2 %
    assert slide_share(running_setting(tread_taper_1_in=20.0)) == pytest.approx(0.029283, abs=1e-6)
    assert slide_share(running_setting(tread_taper_1_in=20.0, min_curve_radius_m=1000.0)) == 0
    fixed = curve_slide(running_setting(push_force_n=100.0))
    assert fixed.verdict == "warn"
    # 0.5 x 800 kg x 9.81 x 3.125 %
    assert fixed.value == pytest.approx(122.6, abs=0.05)
    loose = curve_slide(running_setting(push_force_n=100.0, wheels_on_axle="loose"))
    assert (loose.verdict, loose.value) == ("pass", 0)
