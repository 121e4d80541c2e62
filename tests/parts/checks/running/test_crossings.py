"""Crossings: an axle laid out between rails, check rails and a nose, piece by piece."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_span,
    flangeway_depth,
    flangeway_width,
    span_yaw,
    tightest_crossing_m,
)
from platewheel.parts.checks.running.points import (
    check_flangeway_mm,
    crossing_flangeway_mm,
    crossing_gap,
    gap_length_mm,
    heel_gap,
    off_nose_mm,
    open_way_mm,
    points_yaw,
    switch_opening,
    yawed_back_mm,
)
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.wear import worn_flange_mm
from tests.parts.checks.running.settings import running_setting


@pytest.mark.parametrize("flangeway_mm", [15.0, 18.0, 20.0, 32.0])
@pytest.mark.parametrize("back_mm", [550.0, 565.0, 572.0])
def test_the_nose_is_safe_when_the_back_bears_first(flangeway_mm: float, back_mm: float) -> None:
    """Second way: push the axle over until one flange's back bears on the check rail, and see
    whether the other's face has got past the running edge of the nose, at the gauge."""
    setting = running_setting(check_rail_flangeway_mm=flangeway_mm, back_to_back_mm=back_mm)
    face = flangeway_mm + back_mm + setting.flange_reach_mm
    assert (check_gauge(setting).verdict == "pass") == (face <= 600)


def test_advice_on_the_check_rail_holds() -> None:
    assert check_gauge(running_setting()) is None  # no guarded crossing told of
    result = check_gauge(running_setting(check_rail_flangeway_mm=32.0))
    assert result.verdict == "fail"
    off_rail = float(result.says.split("flangeway_mm = ")[1].split(",")[0])
    assert check_gauge(running_setting(check_rail_flangeway_mm=off_rail)).verdict == "pass"
    assert check_gauge(running_setting(check_rail_flangeway_mm=off_rail + 0.2)).verdict == "fail"


def test_a_check_rail_that_guards_no_nose_fails() -> None:
    """Plain geometry: 600 less 565 back to back less the flange; 3 mm of gauge and 1 of the wheels
    less is where it guards always. In between it guards wheels that are true."""
    keys = {"gauge_tolerance_mm": (-3.0, 7.0), "back_to_back_tolerance_mm": (-1.0, 1.0)}
    guards = 600 - 565 - running_setting().flange_reach_mm
    for way, verdict, told in (
        (guards - 4 - 1e-4, "pass", "holds the flange off"),
        (guards - 4 + 1e-4, "warn", "where the gauge is tightest"),
        (guards - 1e-4, "warn", "where the gauge is tightest"),
        (guards + 1e-4, "fail", "it holds flanges 0.1 mm past its running edge"),
        (99.0, "fail", f"{math.ceil(10 * (99 - guards)) / 10:.1f} mm past its"),
    ):
        setting = running_setting(**keys, back_to_back_mm=565.0, check_rail_flangeway_mm=way)
        result = check_gauge(setting)
        assert result is not None
        assert result.verdict == verdict
        assert told in result.says


def test_backs_over_two_check_rails() -> None:
    assert check_span(running_setting()).verdict == "pass"
    narrow = check_span(running_setting(back_to_back_mm=530.0, flangeway_mm=32.0))
    assert (narrow.verdict, narrow.limit) == ("fail", 536)
    assert check_span(running_setting(back_to_back_mm=530.0, flangeway_mm=35.0)).verdict == "pass"


def test_yawed_backs_pass_a_span_by_turning_the_axle() -> None:
    """Second way: turn both backs, and measure between front of one and rear of the other."""
    back, chord, span = 550.0, 70.0, 541.0
    yaw = span_yaw(back, span, chord)
    left = -back / 2 * math.cos(yaw) + chord * math.sin(yaw)
    right = back / 2 * math.cos(yaw) - chord * math.sin(yaw)
    assert right - left == pytest.approx(span)
    assert yaw == pytest.approx(0.0578, abs=1e-4)
    assert span_yaw(back, back, chord) == pytest.approx(0, abs=1e-9)
    assert span_yaw(back, back + 1, chord) < 0
    assert span_yaw(back, 2 * back, chord) < 0


def test_the_curve_that_a_crossing_may_lie_in_is_told() -> None:
    """600 mm of wheelbase, 32 mm of flangeways: backs of 540 pass 536, 4 = 142 sin(y) + 270 y2 at
    0.0268 rad, a curve of 11.2 m; 545 at 0.056 rad, 5.4 m; 536 in none."""
    for back, told in (
        (540.0, "in curves from 11.2 m: lay crossings in no tighter one"),
        (545.0, "in every curve of the line"),
        (536.0, "on straight track alone: lay crossings in no curve"),
    ):
        setting = running_setting(back_to_back_mm=back, flangeway_mm=32.0)
        result = check_span(setting)
        assert result.verdict == "pass"
        assert result.says.endswith(f"opposite, {told}")
    yaw = math.asin(
        600 / 2000 / tightest_crossing_m(running_setting(back_to_back_mm=540.0, flangeway_mm=32.0))
    )
    chord = math.sqrt(165**2 - 149**2)
    assert 540 * math.cos(yaw) - 2 * chord * math.sin(yaw) == pytest.approx(536)


def test_flange_in_the_flangeway() -> None:
    """Reach 11.10 mm and 2 x 68.74 mm x tan(asin(600 / 20000)) = 4.13 mm: 15.22 mm."""
    result = flangeway_width(running_setting())
    assert result is not None
    assert result.value == pytest.approx(15.22, abs=0.01)
    narrow = flangeway_width(running_setting(flangeway_mm=14.0))
    assert narrow is not None
    assert narrow.verdict == "fail"
    assert flangeway_width(running_setting(min_curve_radius_m=1.0, wheelbase_mm=3000.0)) is None


def test_depth_of_the_flangeway() -> None:
    unknown = flangeway_depth(running_setting())
    assert (unknown.verdict, unknown.value) == ("not-assessed", None)
    assert "track.flangeway_depth_mm" in unknown.says
    assert flangeway_depth(running_setting(flangeway_depth_mm=16.0)).verdict == "pass"
    shallow = running_setting(flangeway_depth_mm=16.0, wear_allowance_mm=1.5)
    assert flangeway_depth(shallow).verdict == "fail"


LOOSE = {
    "gauge_tolerance_mm": (-3.0, 7.0),
    "back_to_back_tolerance_mm": (-1.5, 0.5),
    "gauge_widening_mm": 4.0,
    "rail_corner_radius_mm": 0.0,
    "flange_wear_mm": 2.0,
}


def test_tread_over_the_gap() -> None:
    """60 mm of tread less 10 of play, 1.06 of wear (1 mm at 70 degrees), 0.90 of the corner (3 (1
    - tan 35 deg)), 32 of flangeway and 5 of nose leave 11.04; 12.5 mm are asked."""
    result = crossing_gap(running_setting())
    assert result.value == pytest.approx(11.04, abs=0.01)
    assert result.verdict == "warn"
    assert crossing_gap(running_setting(flangeway_mm=30.0)).verdict == "pass"
    assert "the tread carries the wheel over the gap, 140 mm long" in (
        crossing_gap(running_setting(flangeway_mm=30.0, nose_mm=5.0, crossing_1_in=4.0)).says
    )
    assert gap_length_mm(running_setting()) is None


@pytest.mark.parametrize("check_mm", [None, 20.0, 60.0])
def test_the_nose_by_laying_out_the_axle(check_mm: float | None) -> None:
    """Second way: slide the axle away from the nose until the worn face of the other flange bears
    on its rail, in a gauge of 611; a check rail behind that flange only holds it off the nose."""
    setting = running_setting(**LOOSE, check_rail_flangeway_mm=check_mm)
    back, gauge = setting.back_to_back_mm - 1.5, 611.0
    assert worn_flange_mm(setting) == pytest.approx(setting.flange_reach_mm - 2)
    most = 0.0
    for step in range(6000):
        root = step / 100  # from the nose's running edge to the root of its flange, unworn
        if root + setting.flange_reach_mm + back + worn_flange_mm(setting) > gauge + 1e-9:
            break
        most = root
    assert off_nose_mm(setting) == pytest.approx(most, abs=0.011)


def test_an_open_tongue_lets_free_backs_pass() -> None:
    """EN 13232-9 has 58 on 1435: gauge less least back-to-back, 1357, and least flange, 20. Yaw:
    asin(600 / 20000) and 10 of play, 4 of widening, 8.5 of tolerance and twice 2 of wear on 600;
    half the chord of 165 about 149, or about 150 while new."""
    setting = running_setting(**LOOSE)
    check = setting.back_to_back_mm - 1.5 + setting.flange_reach_mm - 2
    yaw = math.asin(0.03) + math.atan(26.5 / 600)
    need = 611 - check * math.cos(yaw) + math.sqrt(165**2 - 149**2) * math.sin(yaw)
    assert open_way_mm(setting) == pytest.approx(need)
    yaw, check = math.asin(0.03) + math.atan(10 / 600), setting.back_to_back_mm
    check += setting.flange_reach_mm
    new = 600 - check * math.cos(yaw) + math.sqrt(165**2 - 150**2) * math.sin(yaw)
    assert open_way_mm(setting, worst=False) == pytest.approx(new)
    for one, key in ((switch_opening, "switch_opening_mm"), (heel_gap, "heel_gap_mm")):
        assert one(setting) is None
        for gap, verdict in (
            (need + 1e-4, "pass"),
            (need - 1e-4, "warn"),
            (new + 1e-4, "warn"),
            (new - 1e-4, "fail"),
        ):
            result = one(running_setting(**LOOSE, **{key: gap}))
            assert result is not None
            assert (result.verdict, result.limit) == (verdict, pytest.approx(need))


def test_the_back_of_a_yawed_axle_by_turning_its_corners() -> None:
    """Second way: turn the corners of the free flange's back about the root opposite, and see
    which comes nearest to the tongue."""
    root, check, chord, yaw = (0.0, 0.0), 570.0, 68.7, 0.07
    across = [
        (check - root[0]) * math.cos(yaw) - along * math.sin(yaw) for along in (-chord, 0.0, chord)
    ]
    assert yawed_back_mm(check, chord, yaw) == pytest.approx(check - min(across))
    assert yawed_back_mm(check, chord, 0.0) == 0
    assert yawed_back_mm(check, chord, yaw) == pytest.approx(6.20, abs=0.01)


def test_the_yaw_in_points_is_of_curve_and_play() -> None:
    """600 mm of wheelbase: 12 mm of play on the straight are 0.02 rad; a curve of 10 m adds 0.03; a
    wheelbase that no curve takes, and play below nothing, add none."""
    straight = running_setting(min_curve_radius_m=10000.0)
    assert points_yaw(straight, 12.0) == pytest.approx(0.02, abs=4e-5)
    assert points_yaw(running_setting(), 12.0) == pytest.approx(0.05, abs=4e-5)
    assert points_yaw(running_setting(), -3.0) == pytest.approx(0.03, abs=1e-5)
    wrong = running_setting(min_curve_radius_m=1.0, wheelbase_mm=3000.0)
    assert points_yaw(wrong, 0.0) == 0


def test_least_and_most_flangeways_by_hand() -> None:
    """G 597 to 611, B 1.5 nearer or 0.5 further; T from root to back, yawed asin(600 / 20000)."""
    setting = running_setting(**LOOSE, check_rail_flangeway_mm=20.0)
    back, reach = setting.back_to_back_mm, setting.flange_reach_mm
    yawed = reach + 2 * math.sqrt(15 * 315) * math.tan(math.asin(0.03))
    assert setting.flange_in_way_mm(10.0) == pytest.approx(yawed)
    assert check_flangeway_mm(setting) == pytest.approx((yawed, 597 - (back + 0.5) - reach))
    carried = 60 - (10 + 4 + 8.5 + 2) - 5 - 12.5
    assert crossing_flangeway_mm(setting) == pytest.approx((611 - yawed - (back - 1.5), carried))
    alike = running_setting(**LOOSE)
    assert crossing_flangeway_mm(alike)[0] == pytest.approx((611 - (back - 1.5)) / 2)
    easy = {"back_to_back_mm": 588.0, "flange_angle_deg": 90.0}
    narrow = running_setting(**easy)
    assert crossing_flangeway_mm(narrow)[0] == pytest.approx(narrow.flange_in_way_mm(10.0))
    assert narrow.flange_in_way_mm(0.3) == narrow.flange_reach_mm  # the wheelbase does not fit


def test_a_flange_that_rides_on_its_corner_asks_for_more_at_the_tongue() -> None:
    keys = LOOSE | {"rail_corner_radius_mm": 4.0}
    ride = 4 * (1 - math.tan(math.radians(35)))
    both = [running_setting(**one) for one in (keys, LOOSE)]
    yaws = [
        points_yaw(one, travel) for one, travel in zip(both, (26.5 + 2 * ride, 26.5), strict=True)
    ]
    check, chord = both[0].back_to_back_mm + both[0].flange_reach_mm - 3.5, math.sqrt(5024)
    turned = [yawed_back_mm(check, chord, yaw) for yaw in yaws]
    more = open_way_mm(both[0]) - open_way_mm(both[1])
    assert more == pytest.approx(ride + turned[0] - turned[1])
    new = [open_way_mm(running_setting(**one), worst=False) for one in (keys, LOOSE)]
    assert new[0] == new[1]


def test_a_check_rail_that_cannot_fit_is_told_so() -> None:
    """The yawed flange needs 15.2 mm; 593 less K of 578.9 is 14.09, told rounded down."""
    keys = {"check_rail_flangeway_mm": 20.0, "gauge_tolerance_mm": (-7.0, 0.0)}
    result = check_gauge(running_setting(**keys))
    assert result is not None
    assert "none fits, as the yawed flange needs 15.3 mm and the nose leaves 14:" in result.says


def test_where_no_check_rail_fits_nearer_wheels_and_its_flangeway_do() -> None:
    setting = running_setting(check_rail_flangeway_mm=30.0, min_curve_radius_m=3.0)
    with advice_tried():
        result = check_gauge(setting)
    assert result is not None
    assert "none fits" in result.says
    told = {key: float(value) for key, value in re.findall(r"\.(\w+) = ([\d.]+\d)", result.says)}
    assert told.keys() == {"back_to_back_mm", "check_rail_flangeway_mm"}
    nearer = running_setting(min_curve_radius_m=3.0, **told)
    for check in (check_gauge, flangeway_width):
        after = check(nearer)
        assert after is not None
        assert after.verdict == "pass"
