"""Climbing, the angle's window and play: by hand, and a hair on either side of each verdict."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.climb import expected_share, flange_climb, nadal_limit
from platewheel.parts.checks.running.curve import axle_yaw, room_needed_mm
from platewheel.parts.checks.running.flange_contact import flange_touch
from platewheel.parts.checks.running.flange_window import (
    FlangeWindow,
    clearance_margin,
    climb_margin,
    flange_window,
    window_check,
)
from platewheel.parts.checks.running.play import (
    bearing_width_mm,
    flange_wear_mm,
    free_play_mm,
    least_play,
    most_play,
    tread_bearing,
    wheel_gauge_mm,
)
from platewheel.parts.checks.trying import advice_tried
from tests.parts.checks.running.settings import PLAY_MM, running_setting

REACH = running_setting().flange_reach_mm
HAIR = 1e-4


def with_play(play_mm: float, **keys: object) -> float:
    """Back to back for this play in the nominal gauge."""
    setting = running_setting(**keys)
    return setting.track.gauge_mm - 2 * setting.flange_reach_mm - play_mm


def test_a_hard_push_in_a_tight_curve() -> None:
    """4 kN turned by asin(1000 / 6000), a sixth of it, on an empty wheel of 200 x 9.81 / 6; walk
    of 3.6 km/h is 1 m/s: 1 / (9.81 x 3), for both wheels; no cant."""
    setting = running_setting(
        push_force_n=4000.0, min_curve_radius_m=3.0, wheelbase_mm=1000.0, axles=3,
        max_speed_km_h=3.6, lateral_share=0.3,
    )  # fmt: skip
    by_hand = 0.3 + 2 / (9.81 * 3) + 4000 / 6 / (200 * 9.81 / 6)
    assert expected_share(setting) == pytest.approx(by_hand, rel=1e-12)


def test_a_wheelbase_of_the_curve_s_diameter_does_not_fit() -> None:
    """2 m in a curve of 1 m: told so; a millimetre less is judged."""
    result = flange_climb(running_setting(wheelbase_mm=2000.0, min_curve_radius_m=1.0))
    assert (result.verdict, result.value) == ("fail", None)
    assert "does not fit" in result.says
    assert result.limit == pytest.approx(nadal_limit(math.radians(70), 0.5) / 1.5)
    judged = flange_climb(running_setting(wheelbase_mm=1999.0, min_curve_radius_m=1.0))
    assert judged.value is not None


def share_for(least_deg: float, friction: float) -> float:
    """L/V that asks this angle with the reserve of 1.5: Nadal's formula turned round."""
    return math.tan(math.radians(least_deg) - math.atan(friction)) / 1.5


@pytest.mark.parametrize(("least_deg", "told"), [(89.4, True), (89.9, True), (90.1, False)])
def test_no_flange_is_steeper_than_upright(least_deg: float, told: bool) -> None:
    keys = {"friction_high": 0.9, "lateral_share": 0.0}
    rest = expected_share(running_setting(**keys))
    keys["lateral_share"] = share_for(least_deg, 0.9) - rest
    result = flange_climb(running_setting(**keys))
    assert result.verdict != "pass"
    # so steep a flange would touch with its tip, so that the angle is told and not advised
    angle = math.ceil(10 * least_deg - 1e-6) / 10
    assert (f"from {angle:g} deg it would hold" in result.says) == told
    assert "flange_angle_deg" not in result.says
    assert ("no flange holds that" in result.says) != told


@pytest.mark.parametrize(
    ("over_limit", "verdict", "near"),
    [(0.999, "pass", False), (1.001, "warn", True), (1.499, "warn", True), (1.501, "fail", False)],
)
def test_climbing_turns_at_two_thirds_of_nadal_and_at_nadal(
    over_limit: float, verdict: str, near: bool
) -> None:
    """70 degrees, friction 0.5: (tan 70 - 0.5) / (1 + 0.5 tan 70) = 0.9464."""
    nadal = (math.tan(math.radians(70)) - 0.5) / (1 + 0.5 * math.tan(math.radians(70)))
    rest = expected_share(running_setting(lateral_share=0.0))
    result = flange_climb(running_setting(lateral_share=over_limit * nadal / 1.5 - rest))
    assert result.verdict == verdict
    assert ("too near" in result.says) == near
    assert "0.95" in result.says
    if verdict == "pass":
        assert (
            "at friction 0.5 the flange climbs only from 0.95; it would climb where" in result.says
        )


@pytest.mark.parametrize(
    ("window", "is_open", "says"),
    [
        (FlangeWindow(61.23, 77.77), True, "from 61.3 to 77.7 deg it neither climbs nor grinds"),
        (FlangeWindow(70.0, 70.0), True, "from 70 to 70 deg it neither climbs nor grinds"),
        (FlangeWindow(61.23, 90.0), True, "from 61.3 to 90 deg it neither climbs nor grinds"),
        (FlangeWindow(77.77, 61.23), False, "from 77.8 deg it does not climb, but only to 61.2"),
        (FlangeWindow(90.0, 90.0), True, "from 90 to 90 deg"),
        (FlangeWindow(90.1, 90.0), False, "every flange angle climbs"),
        (FlangeWindow(50.0, None), False, "no flange angle clears in the curve"),
    ],
)
def test_a_window_in_words(window: FlangeWindow, is_open: bool, says: str) -> None:
    assert window.is_open == is_open
    assert window.says.startswith(says)


def test_margins_without_a_limit_are_endless() -> None:
    """45 degrees at friction 1 climbs by itself; no play, no room. With half a millimetre of
    play a quarter lies on each side."""
    assert climb_margin(running_setting(friction_high=1.0), 45.0) == -math.inf
    limit = nadal_limit(math.radians(60), 0.5) / 1.5
    share = expected_share(running_setting())
    assert climb_margin(running_setting(), 60.0) == pytest.approx(1 - share / limit)
    for play in (0.0, -3.0):
        bound = running_setting(back_to_back_mm=with_play(play))
        assert clearance_margin(bound, 70.0) == -math.inf
    little = running_setting(back_to_back_mm=with_play(0.5))
    need = room_needed_mm(little, 90.0, axle_yaw(little))
    assert clearance_margin(little, 90.0) == pytest.approx(1 - need / 0.25)


def test_distance_from_the_nearer_edge_of_the_window() -> None:
    """A closed-in curve: the greatest angle counts; on open track 90 is no edge."""
    easy = {"min_curve_radius_m": 10_000.0, "wheelbase_mm": 3000.0, "rail_corner_radius_mm": 1.0}
    open_track = window_check(running_setting(**easy))
    window = flange_window(running_setting(**easy))
    assert (window.greatest_deg, open_track.limit, open_track.unit) == (90.0, 0.0, "deg")
    assert open_track.value == pytest.approx(70 - window.least_deg)
    upright = window_check(running_setting(**easy, flange_angle_deg=90.0))
    assert upright.value == pytest.approx(90 - window.least_deg)
    tight = {"min_curve_radius_m": 4.0, "back_to_back_mm": 572.0}
    for angle in (66.0, 71.0, 72.0):
        closed = running_setting(**tight, flange_angle_deg=angle)
        own = flange_window(closed)
        assert own.greatest_deg is not None
        assert own.greatest_deg < 90
        expected = min(angle - own.least_deg, own.greatest_deg - angle)
        assert window_check(closed).value == pytest.approx(expected)
    result = window_check(running_setting(flange_angle_deg=50.0))
    out = flange_window(running_setting(flange_angle_deg=50.0)).least_deg - 50
    assert result.says.startswith(f"50 deg is {out:.1f} deg outside: from ")


def test_no_window_and_no_curve_have_no_value() -> None:
    for keys, verdict in (
        ({"min_curve_radius_m": 1.0, "wheelbase_mm": 3000.0}, "fail"),
        ({"back_to_back_mm": 577.7, "min_curve_radius_m": 3.0}, "warn"),
    ):
        result = window_check(running_setting(**keys))
        assert (result.verdict, result.value, result.limit) == (verdict, None, 0.0)


def test_sums_of_the_wheel_standard() -> None:
    """550 mm back to back and two flanges of 11.5: 573, in a gauge of 600 27 mm of play."""
    assert wheel_gauge_mm(550, 11.5) == 573
    assert free_play_mm(600, 550, 11.5) == 27
    setting = running_setting()
    assert free_play_mm(600, setting.back_to_back_mm, REACH) == pytest.approx(PLAY_MM)
    worn = running_setting(wear_allowance_mm=1.5, flange_angle_deg=60.0)
    assert flange_wear_mm(worn) == pytest.approx(1.5 / math.sin(math.radians(60)))


@pytest.mark.parametrize(("gauge", "least"), [(600.0, 2.0), (184.15, 184.15 - 182.63)])
def test_least_play_turns_at_its_limit(gauge: float, least: float) -> None:
    """2 mm by common practice; small gauges as IBLS, 7 1/4 in: 182.63 over the flanges."""
    for play, verdict in (
        (least + HAIR, "pass"),
        (least - HAIR, "warn"),
        (0.5, "warn"),
        (1e-5, "warn"),
        (1e-7, "fail"),
        (-2.0, "fail"),
    ):
        keys = {"gauge_mm": gauge, "back_to_back_mm": with_play(play, gauge_mm=gauge)}
        result = least_play(running_setting(**keys))
        assert result.limit == pytest.approx(least)
        assert result.value == pytest.approx(play, abs=1e-9)
        assert result.verdict == verdict
        assert ("the axle binds where" in result.says) == (verdict == "fail")
        assert ("a little more tight gauge" in result.says) == (verdict == "warn")


@pytest.mark.parametrize(("gauge", "most"), [(600.0, 41.0), (300.0, 20.5), (1000.0, 41.0)])
def test_most_play_turns_at_that_of_600_mm_gauge(gauge: float, most: float) -> None:
    """KBO 1912: 618 - 537 - 2 x 20. Play, widening, and at 90 degrees both flanges worn by 1.5."""
    assert 618 - 537 - 2 * 20 == 41
    for over, verdict in ((0.0, "pass"), (HAIR, "warn")):
        keys = {"flange_angle_deg": 90.0, "wear_allowance_mm": 1.5, "gauge_mm": gauge}
        play = running_setting(**keys).play_mm
        keys |= {"gauge_widening_mm": most - play - 3 + over}
        result = most_play(running_setting(**keys))
        assert result.value == pytest.approx(most + over)
        assert (result.limit, result.verdict) == (pytest.approx(most), verdict)


def test_a_tread_turns_at_half_the_head_and_at_its_corner() -> None:
    """90 degrees, no wear: tread - play - widening, head 25 with a corner of 3 mm."""
    for bearing, verdict in (
        (12.5 + HAIR, "pass"),
        (12.5 - HAIR, "warn"),
        (3.0 + HAIR, "warn"),
        (3.0 - HAIR, "fail"),
    ):
        keys = {"flange_angle_deg": 90.0, "wear_allowance_mm": 0.0, "tread_width_mm": 40.0}
        widening = 40 - PLAY_MM - bearing
        setting = running_setting(**keys, gauge_widening_mm=widening)
        assert bearing_width_mm(setting) == pytest.approx(bearing)
        result = tread_bearing(setting)
        assert (result.verdict, result.limit) == (verdict, 12.5)
        assert ("drops between the rails" in result.says) == (verdict == "fail")
        assert ("runs on its edge" in result.says) == (verdict == "warn")


@pytest.mark.parametrize(("share", "told"), [(0.5, True), (0.9, False)])
def test_a_flatter_flange_is_advised_where_it_does_not_climb(share: float, told: bool) -> None:
    """At 84 degrees it rides on its tip, at 79 it would climb under the greater push; and nobody
    makes a flange 39 mm deep."""
    with advice_tried():
        touch = flange_touch(running_setting(flange_angle_deg=84.0, lateral_share=share))
    assert touch is not None
    assert ("wheel.flange_angle_deg = 79" in touch.says) == told
    assert "flange_depth_mm" not in touch.says
