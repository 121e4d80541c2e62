"""The greatest loads of a wheel, part by part, and a user's own factors in their place."""

from __future__ import annotations

from typing import Any

import pytest

from platewheel.parts.loads.curving import curving
from platewheel.parts.loads.joint import joint_load_n, rolling_factor
from platewheel.parts.loads.travel import outward_share, travel_mm
from platewheel.parts.loads.twist import twisted_load_n
from platewheel.parts.loads.wheel_load import (
    curving_shares,
    derived,
    flange_push_n,
    frame_in_curve,
    heavy_load_n,
    lean_share,
    load_unevenness,
    push_shares,
    rest_loads_n,
    rolling_load_n,
    shock_factor,
    side_force_n,
    sliding_friction,
    struck_load_n,
    tightest,
    wheel_load_n,
)
from platewheel.parts.setting.way import WaySpec
from tests.parts.loads.test_twist import rough

STRAIGHT = WaySpec(share=1.0)


def test_heaviest_wheel_is_the_sum_of_its_parts() -> None:
    setting = rough(twist_mm_per_m=4.0, centre_of_gravity_mm=500.0, steepest_gradient_percent=3.0)
    mean = setting.static_wheel_load_n
    lean = lean_share(setting, tightest(setting))
    assert heavy_load_n(setting) == pytest.approx(
        (1.1 + lean) * mean + twisted_load_n(setting, mean)
    )
    assert load_unevenness(setting) == pytest.approx(heavy_load_n(setting) / mean)
    assert wheel_load_n(setting) == pytest.approx(
        heavy_load_n(setting) + joint_load_n(setting, mean)
    )
    assert shock_factor(setting) * heavy_load_n(setting) == pytest.approx(wheel_load_n(setting))


def test_lean_in_a_curve_and_on_a_slope() -> None:
    """6 km/h in 10 m is 0.0283 of the weight sideways, at 500 mm over rails 625 mm apart: 1.6
    times that; 3 % on a wheelbase of 600 mm: 2 x 500 / 600 x 0.03."""
    keys: dict[str, Any] = {"centre_of_gravity_mm": 500.0, "max_speed_km_h": 6.0}
    setting = rough(**keys)
    curve = WaySpec(share=1.0, radius_m=10.0)
    sideways = (6 / 3.6) ** 2 / (9.81 * 10)
    assert lean_share(setting, curve) == pytest.approx(1000 / 625 * sideways)
    assert lean_share(rough(**keys, suspension="three-point"), curve) == pytest.approx(
        2000 / 625 * sideways
    )
    assert lean_share(setting, WaySpec(share=1.0, gradient_percent=3.0)) == pytest.approx(0.05)
    assert lean_share(rough(**keys, axles=1), WaySpec(share=1.0, gradient_percent=3.0)) == 0.0
    assert lean_share(setting, STRAIGHT) == 0.0
    # standing on more cant than the speed asks for; no height given: as high as rails are apart
    canted = rough(max_speed_km_h=0.5, cant_mm=62.5)
    assert lean_share(canted, curve) == pytest.approx(2 * 0.1)


def test_slopes_under_more_axles_and_tipping() -> None:
    """3 axles: n h x / sum x2 = 3 h / (2 x), x 300 mm; no more than is left when it tips."""
    slope = WaySpec(share=1.0, gradient_percent=3.0)
    three = rough(axles=3, centre_of_gravity_mm=500.0)
    assert lean_share(three, slope) == pytest.approx(3 * 500 * 300 / (2 * 300**2) * 0.03)
    curve = WaySpec(share=1.0, radius_m=10.0)
    assert lean_share(rough(max_speed_km_h=60.0), curve) == 1.0
    steep = WaySpec(share=1.0, gradient_percent=25.0)
    assert lean_share(rough(wheelbase_mm=100.0, centre_of_gravity_mm=3000.0), steep) == 1.0
    fast = rough(max_speed_km_h=60.0, suspension="three-point", axles=3)
    assert lean_share(fast, curve) == 5.0


def test_treads_creep_in_easy_curves() -> None:
    """Full friction from 5 mrad of yaw on; a tenth of it at a tenth of that."""
    setting = rough()
    assert sliding_friction(setting, 10.0) == 0.36
    yaw = frame_in_curve(setting, 5000.0).attack
    assert yaw < 0.001
    assert sliding_friction(setting, 5000.0) == pytest.approx(0.36 * yaw / 0.005)
    assert curving_shares(setting, 5000.0)[0] < 0.1 < 0.9 < curving_shares(setting, 10.0)[0]
    assert sliding_friction(rough(axles=1), 5000.0) == 0.36


def test_twist_makes_heavy_and_light() -> None:
    setting = rough(twist_mm_per_m=4.0)
    mean = setting.static_wheel_load_n
    heavy, light = rest_loads_n(setting, STRAIGHT, mean)
    assert (heavy + light) / 2 == pytest.approx(1.1 * mean)
    assert heavy - light == pytest.approx(2 * twisted_load_n(setting, mean))
    empty = setting.empty_wheel_load_n
    assert rest_loads_n(setting, STRAIGHT, empty)[1] >= 0.0
    uneven = rough(load_unevenness=3.0)
    assert rest_loads_n(uneven, STRAIGHT, 1000.0) == pytest.approx((3000.0, 0.0))


def test_own_factors_stand_in_place() -> None:
    setting = rough(load_unevenness=1.4, shock_factor=1.8, lateral_share=0.5)
    mean = setting.static_wheel_load_n
    outward = 2 * (8 / 3.6) ** 2 / (9.81 * 10)
    assert wheel_load_n(setting) == pytest.approx(1.4 * 1.8 * mean)
    assert rest_loads_n(setting, STRAIGHT, mean) == pytest.approx((1.4 * mean, 0.6 * mean))
    assert flange_push_n(setting) == side_force_n(setting)
    assert flange_push_n(setting) == pytest.approx((0.5 + outward) * mean)
    other = derived(setting)
    assert load_unevenness(other) == load_unevenness(rough())
    assert flange_push_n(other) == flange_push_n(rough())
    assert shock_factor(other) == shock_factor(rough())


def test_rolling_is_no_harder_than_the_own_shock() -> None:
    factor = rolling_factor(8.0, 300.0)
    assert rolling_load_n(rough(), 1000.0) == pytest.approx(1000 * factor)
    assert rolling_load_n(rough(shock_factor=1.05), 1000.0) == pytest.approx(1050)
    assert rolling_load_n(rough(shock_factor=3.0), 1000.0) == pytest.approx(1000 * factor)
    smooth = rough(joint_step_mm=0.0, joint_gap_mm=0.0)
    assert struck_load_n(smooth, 1000.0, 1000.0) == rolling_load_n(smooth, 1000.0)


def test_push_goes_with_friction_and_speed() -> None:
    setting = rough(friction_high=0.3, friction_low=0.2)
    found = frame_in_curve(setting, 10.0)
    outward = 2 * (8 / 3.6) ** 2 / (9.81 * 10)
    assert push_shares(setting, 10.0) == pytest.approx(
        (0.3 * found.push + outward, 0.3 * found.net + outward)
    )
    assert found.push > found.net > 0
    loose = push_shares(rough(wheels_on_axle="loose", bearing="bush"), 10.0)
    assert loose[0] == pytest.approx(0.36 * 2 + outward)
    assert loose[1] == pytest.approx(0.36 + outward)


def test_the_frame_is_the_job_s_own() -> None:
    """Wheelbase 600, rails 625 apart, all travel of the axle, radius in mm."""
    setting = rough(gauge_widening_mm=4.0)
    found = frame_in_curve(setting, 10.0)
    travel = travel_mm(setting)
    assert found == curving(600.0, 2, 625.0, travel, 10_000.0, loose=False)
    assert frame_in_curve(setting, 25.0) == curving(
        600.0, 2, 625.0, travel - 4.0, 25_000.0, loose=False
    )


def test_cant_counts_in_the_tightest_curve_alone() -> None:
    """10 km/h: v2 / (g R) is 0.0787 in 10 m, 0.0315 in 25 m; 25 mm of cant on 625 are 0.04."""
    setting = rough(max_speed_km_h=10.0, cant_mm=25.0)
    v2 = (10 / 3.6) ** 2 / 9.81
    assert outward_share(setting) == pytest.approx(v2 / 10 - 0.04)
    assert outward_share(setting, 25.0) == pytest.approx(v2 / 25)
    assert outward_share(setting, 5.0) == pytest.approx(v2 / 5)
    assert outward_share(rough(max_speed_km_h=1.0, cant_mm=25.0)) == 0.0


def test_gauge_is_widened_in_the_tightest_curve_alone() -> None:
    wide = rough(gauge_widening_mm=10.0)
    assert frame_in_curve(wide, 10.0).attack > frame_in_curve(rough(), 10.0).attack
    assert frame_in_curve(wide, 30.0) == frame_in_curve(rough(), 30.0)


def test_a_stiff_wagon_on_a_twisted_track_has_twice_its_mean_load() -> None:
    """12 mm/m under a stiff frame of 0.6 m: 7.2 mm lift the fourth wheel, by statics the mean
    load doubles on one diagonal."""
    stiff = rough(twist_mm_per_m=12.0, frame_torsion_kn_m2=1e4, max_speed_km_h=0.1)
    assert load_unevenness(stiff) == pytest.approx(2.0, abs=0.01)


def test_speed_over_steps_is_felt() -> None:
    """30 km/h over steps of 3 mm: several times the load at rest."""
    slow = rough(max_speed_km_h=3.0, min_curve_radius_m=100.0)
    fast = rough(max_speed_km_h=30.0, min_curve_radius_m=100.0, joint_step_mm=3.0)
    assert shock_factor(slow) < 1.7 < 3.2 < shock_factor(fast)
