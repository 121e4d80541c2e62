"""Joints, twist and crossings: by hand, and a hair on either side of each verdict."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_gauge_mm,
    check_span,
    check_span_mm,
    flangeway_depth,
    flangeway_width,
    wheel_check_mm,
)
from platewheel.parts.checks.running.curve import (
    rail_top_reach_mm,
)
from platewheel.parts.checks.running.points import crossing_gap
from platewheel.parts.checks.running.rough_track import (
    flange_depth,
    joint_drop,
    joint_push,
    least_depth_mm,
    twist_lift,
)
from platewheel.parts.loads.over_joint import climb_angle, gap_drop_mm
from tests.parts.checks.running.settings import running_setting

HAIR = 1e-4


@pytest.mark.parametrize(("step", "gap"), [(1.0, 17.0), (1.0, 17.6), (1.0, 19.0), (4.0, 34.0)])
def test_a_gap_just_wider_than_the_step_s_chord(step: float, gap: float) -> None:
    """Beyond sqrt(2 r s - s2), 17.29 mm at 1 mm and 34.4 at 4, the wheel is over both edges."""
    chord = math.sqrt(2 * 150 * step - step**2)
    if gap <= chord:
        expected = math.acos((150 - step) / 150)
    else:
        expected = math.asin(math.hypot(gap, step) / 300) + math.atan(step / gap)
    assert climb_angle(150, step, gap) == pytest.approx(expected, rel=1e-12)


def test_a_wheel_falls_in_between_edges_a_diameter_apart() -> None:
    """r 30: 40 mm apart it still turns over, asin(40 / 60); 60 mm apart it does not."""
    assert climb_angle(30, 0.0, 40) == pytest.approx(math.asin(40 / 60))
    assert climb_angle(30, 0.0, 59.9) == pytest.approx(math.asin(59.9 / 60))
    assert climb_angle(30, 0.0, 60) == math.pi / 2
    assert climb_angle(30, 30, 0.0) == math.pi / 2
    assert gap_drop_mm(13, 10) == pytest.approx(1)  # 5, 12, 13


def test_push_over_a_joint_turns_at_the_push() -> None:
    """800 kg on two axles: 3924 N each; tan of the angle to a step of 0.7 mm, no gap."""
    force = 3924 * math.sqrt(150**2 - 149.3**2) / 149.3
    for push, verdict in ((force + HAIR, "pass"), (force - HAIR, "warn")):
        keys = {"joint_step_mm": 0.7, "joint_gap_mm": 0.0, "push_force_n": push}
        result = joint_push(running_setting(**keys))
        assert (result.value, result.verdict) == (pytest.approx(force), verdict)
    climbs = 150 * (1 - math.cos(math.atan(600 / 3924)))
    good = joint_push(running_setting(joint_step_mm=0.7, push_force_n=600.0))
    assert good.says == f"from rest the push climbs a step of {climbs:.1f} mm"


def test_a_joint_that_swallows_the_wheel_has_no_push() -> None:
    """Wheel of 60 mm over a gap of 60: the quarter turn; one of 59 mm is judged."""
    small = {"tread_diameter_mm": 60.0, "tread_thickness_mm": 3.0, "hub_bore_mm": 10.0,
             "hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0, "vent_count": 0,
             "vent_diameter_mm": 4.0, "vent_circle_mm": 30.0, "joint_step_mm": 0.0}  # fmt: skip
    gone = joint_push(running_setting(**small, joint_gap_mm=60.0))
    assert (gone.verdict, gone.value, gone.limit) == ("fail", None, 400.0)
    assert "falls into the joint" in gone.says
    assert joint_push(running_setting(**small, joint_gap_mm=59.0)).value == pytest.approx(
        3924 * math.tan(math.asin(59 / 60))
    )


def test_drop_turns_at_a_millimetre() -> None:
    """r 150: 1 mm at 2 sqrt(2 x 150 - 1)."""
    limit = 2 * math.sqrt(299)
    for gap, verdict in ((limit - HAIR, "pass"), (limit + HAIR, "warn")):
        result = joint_drop(running_setting(joint_gap_mm=gap))
        assert (result.verdict, result.limit) == (verdict, 1.0)


@pytest.mark.parametrize("gauge", [300.0, 600.0, 1000.0])
def test_flange_depth_turns_at_published_practice(gauge: float) -> None:
    """A straight line from 0.187 in at 7.5 in to 25 mm at 1435 mm."""
    limit = 4.7498 + (25 - 4.7498) * (gauge - 190.5) / (1435 - 190.5)
    assert least_depth_mm(gauge) == pytest.approx(limit)
    for depth, verdict in ((limit + HAIR, "pass"), (limit - HAIR, "warn")):
        keys = {"gauge_mm": gauge, "flange_depth_mm": depth}
        assert flange_depth(running_setting(**keys)).verdict == verdict


@pytest.mark.parametrize(
    ("depth", "lift", "verdict"),
    [(15.0, 7.5, "pass"), (15.0, 7.51, "warn"), (15.0, 11.99, "warn"), (15.0, 12.0, "fail"),
     (5.0, 2.01, "fail"), (5.0, 1.9, "pass")],
)  # fmt: skip
def test_twist_turns_at_half_the_depth_and_at_the_corner(
    depth: float, lift: float, verdict: str
) -> None:
    """Rail's corner 3 mm: the limit is the larger of that and half the flange."""
    keys = {"flange_depth_mm": depth, "twist_mm_per_m": lift / 0.6}
    result = twist_lift(running_setting(**keys))
    assert result is not None
    assert (result.verdict, result.limit) == (verdict, max(depth / 2, 3.0))
    assert result.value == pytest.approx(depth - lift)
    assert ("no longer guides" in result.says) == (verdict == "fail")
    sprung = twist_lift(running_setting(**keys, suspension="sprung"))
    assert sprung is not None
    assert f"if each spring sinks {lift / 4:.1f} mm or more" in sprung.says


def test_one_axle_does_not_lift() -> None:
    for axles, judged in ((1, False), (2, True), (3, True)):
        assert (twist_lift(running_setting(axles=axles)) is not None) == judged


def test_sums_of_a_crossing() -> None:
    """Plain geometry: 550 + 11.5; 600 - 20 - 30; 600 - 20."""
    assert wheel_check_mm(550, 11.5) == 561.5
    assert check_span_mm(600, 20, 30) == 550
    assert check_gauge_mm(600, 20) == 580


@pytest.mark.parametrize("key", ["flangeway_mm", "check_rail_flangeway_mm"])
def test_backs_turn_at_the_span(key: str) -> None:
    """560 mm back to back pass flangeways of 20 mm, a hair less does not; a check rail's own
    flangeway goes before the crossing's: 30 and 10."""
    other = {"flangeway_mm": 30.0, "check_rail_flangeway_mm": 10.0}
    other = other if key == "check_rail_flangeway_mm" else {key: 20.0}
    for back, verdict in ((560.0, "pass"), (560.0 - HAIR, "fail")):
        result = check_span(running_setting(**other, back_to_back_mm=back))
        assert (result.verdict, result.limit) == (verdict, 560)
        told = f": track.{key} = {other[key] + 0.1:g} or more"
        assert (told in result.says) == (verdict == "fail")


def test_a_check_rail_turns_where_back_and_face_fill_it() -> None:
    """Back to back and one flange at most gauge less flangeway."""
    reach = running_setting().flange_reach_mm
    for way, verdict in ((40 - reach - HAIR, "pass"), (40 - reach + HAIR, "fail")):
        keys = {"check_rail_flangeway_mm": way, "back_to_back_mm": 560.0}
        result = check_gauge(running_setting(**keys))
        assert result is not None
        assert (result.verdict, result.value) == (verdict, pytest.approx(560 + reach))


def test_a_yawed_flange_fills_its_flangeway() -> None:
    """2 x reach over the rail top x tan(asin(800 / 4000)), and the flange itself."""
    keys = {"wheelbase_mm": 800.0, "min_curve_radius_m": 2.0}
    over = math.sqrt(15 * (300 + 15))
    assert rail_top_reach_mm(150, 15) == pytest.approx(over)
    width = running_setting().flange_reach_mm + 2 * over * math.tan(math.asin(0.2))
    for way, verdict in ((width + HAIR, "pass"), (width - HAIR, "fail")):
        result = flangeway_width(running_setting(**keys, flangeway_mm=way))
        assert result is not None
        assert (result.verdict, result.value) == (verdict, pytest.approx(width, rel=1e-12))


def test_the_tip_turns_at_the_bottom() -> None:
    for depth, verdict in ((17.5 + HAIR, "pass"), (17.5 - HAIR, "fail")):
        result = flangeway_depth(running_setting(flangeway_depth_mm=depth, wear_allowance_mm=2.5))
        assert (result.verdict, result.value) == (verdict, 17.5)


@pytest.mark.parametrize(("play", "counts"), [(6.0, 6.0), (0.5, 0.5), (-3.0, 0.0)])
def test_the_tread_turns_at_half_a_head_on_the_wing_rail(play: float, counts: float) -> None:
    """60 mm less play less flangeway, nose sharp, nothing worn and an upright flange; half of 25
    mm; axles without play are not on the rail's other side."""
    keys = {"flange_angle_deg": 90.0, "wear_allowance_mm": 0.0, "nose_mm": 0.0}
    back = 600 - 2 * running_setting(**keys).flange_reach_mm - play
    most = 60 - counts - 12.5
    for way, verdict in ((most - HAIR, "pass"), (most + HAIR, "warn")):
        result = crossing_gap(running_setting(**keys, flangeway_mm=way, back_to_back_mm=back))
        assert (result.verdict, result.limit) == (verdict, 12.5)


def test_what_is_told_of_a_joint() -> None:
    """400 N on 3924 N climb 150 (1 - cos(atan(400 / 3924))) = 0.77 mm; a wheel of 232.8 mm drops
    1 mm into 2 sqrt(232.8 - 1) = 30.45 mm."""
    says = joint_push(running_setting(joint_step_mm=2.5)).says
    assert "track.joint_step_mm = 0.7" in says
    wide = running_setting(joint_gap_mm=40.0, tread_diameter_mm=232.8, vent_circle_mm=170.0)
    assert joint_drop(wide).says == "each joint hammers; close the gap, track.joint_gap_mm = 30"
