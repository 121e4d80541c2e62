"""What the checks of running advise, followed: the check then passes."""

from __future__ import annotations

import re

import pytest

from platewheel.parts.checks.running.climb import flange_climb
from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_span,
    flangeway_depth,
    flangeway_width,
)
from platewheel.parts.checks.running.curve import curve_room, middle_axle
from platewheel.parts.checks.running.flange_contact import flange_touch, flange_wear
from platewheel.parts.checks.running.flange_window import window_check
from platewheel.parts.checks.running.own_factors import own_lateral, own_shock, own_unevenness
from platewheel.parts.checks.running.play import least_play, most_play, tread_bearing
from platewheel.parts.checks.running.points import crossing_gap, heel_gap, switch_opening
from platewheel.parts.checks.running.rough_track import (
    flange_depth,
    joint_drop,
    joint_push,
    twist_lift,
)
from platewheel.parts.checks.running.speed import cant_deficiency, cant_standing, overturning
from platewheel.parts.checks.running.steering import curve_slide
from platewheel.parts.checks.running.wagon import brake_adhesion, pushers, roll_away
from platewheel.parts.checks.running.wear import hollow_tread, thin_flange
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.advice import (
    Advice,
    Keys,
    assert_heeded,
    assert_no_more_than_needed,
    keys_set,
    more,
    to,
)
from tests.parts.checks.running.settings import running_setting


def twist_less(setting: Setting, lift_mm: float) -> Keys:
    """Track packed so that the lift, twist x wheelbase, is this much less."""
    less = lift_mm / (setting.wagon.wheelbase_mm / 1000)
    return {"twist_mm_per_m": max(0.0, setting.track.twist_mm_per_m - less)}


ADVICE: dict[str, Advice] = {
    "play-least: set": Advice(least_play, "back_to_back_mm = #", to("back_to_back_mm")),
    "play-least: closer": Advice(least_play, "wheels # mm closer", more("back_to_back_mm", -1)),
    "play-most: widening": Advice(most_play, "widening_mm = #", to("gauge_widening_mm")),
    "play-most: apart": Advice(most_play, "back_to_back_mm = #", to("back_to_back_mm")),
    "tread-bearing: wider": Advice(tread_bearing, "width_mm = #,", to("tread_width_mm")),
    "play-most: wear": Advice(most_play, "flange_wear_mm = #", to("flange_wear_mm")),
    "tread-bearing: play": Advice(
        tread_bearing, ", at least # mm wider.* play", more("back_to_back_mm")
    ),
    "tread-bearing: widening": Advice(
        tread_bearing, ", at least # mm wider.* widening", more("gauge_widening_mm", -1)
    ),
    "curve-room: widen": Advice(curve_room, "widening_mm = #", to("gauge_widening_mm")),
    "curve-room: base": Advice(curve_room, "wheelbase_mm = #", to("wheelbase_mm"), 20.0),
    "curve-room: flare": Advice(curve_room, "angle_deg = # or less clears", to("flange_angle_deg")),
    "middle-axle: play": Advice(middle_axle, "widening_mm = #", to("gauge_widening_mm")),
    "curve-slide: push": Advice(curve_slide, "push_force_n = #", to("push_force_n"), 2.0),
    "curve-slide: loose": Advice(
        curve_slide, "push_force_n = #", keys_set(wheels_on_axle="loose"), None
    ),
    "flange-climb: angle": Advice(flange_climb, "angle_deg = #", to("flange_angle_deg")),
    "flange-window: take": Advice(
        window_check, "; wheel.flange_angle_deg = #", to("flange_angle_deg"), None
    ),
    "twist-lift: packing": Advice(twist_lift, ": # mm less", twist_less, 0.4),
    "twist-lift: on three points": Advice(
        twist_lift, ": # mm less", keys_set(suspension="three-point"), None
    ),
    "twist-lift: deeper": Advice(twist_lift, ": wheel.flange_depth_mm = #", to("flange_depth_mm")),
    "joint-push: file": Advice(joint_push, "joint_step_mm = #", to("joint_step_mm")),
    "joint-push: push": Advice(joint_push, "push_force_n = #", to("push_force_n"), 2.0),
    "joint-drop: close": Advice(joint_drop, "gap_mm = #$", to("joint_gap_mm"), 2.0),
    "flange-depth: depth": Advice(flange_depth, "depth_mm = #", to("flange_depth_mm")),
    "check-span: flangeway": Advice(check_span, "track.flangeway_mm = #", to("flangeway_mm")),
    "check-span: check rail": Advice(
        check_span, "check_rail_flangeway_mm = #", to("check_rail_flangeway_mm")
    ),
    "check-gauge: rail": Advice(
        check_gauge, "flangeway_mm = #, not", to("check_rail_flangeway_mm")
    ),
    "flangeway-width: width": Advice(
        flangeway_width, "jams: track.flangeway_mm = # or", to("flangeway_mm")
    ),
    "flangeway-width: check rail": Advice(
        flangeway_width, "jams: track.check_rail_flangeway_mm = # or", to("check_rail_flangeway_mm")
    ),
    "flangeway-depth: dig": Advice(flangeway_depth, "depth_mm = #", to("flangeway_depth_mm")),
    "crossing-gap: tread": Advice(crossing_gap, "width_mm = #,", to("tread_width_mm")),
    "crossing-gap: flangeway": Advice(
        crossing_gap, ", at least # mm.*r flangeway", more("flangeway_mm", -1)
    ),
    "crossing-gap: play": Advice(
        crossing_gap, ", at least # mm .*or play", more("back_to_back_mm")
    ),
    "crossing-gap: widening": Advice(
        crossing_gap, ", at least # mm .*or widening", more("gauge_widening_mm", -1)
    ),
    "crossing-gap: nose": Advice(
        crossing_gap, ", at least # mm .*of the nose", more("nose_mm", -1)
    ),
    "flange-contact: angle": Advice(flange_touch, "angle_deg = #", to("flange_angle_deg"), 0.6),
    "flange-contact: depth": Advice(flange_touch, "depth_mm = #", to("flange_depth_mm"), 1.0),
    "flange-wear: allowance": Advice(flange_wear, "flange_wear_mm = #", to("flange_wear_mm")),
    "switch-opening: toe": Advice(switch_opening, "ing_mm = #", to("switch_opening_mm")),
    "heel-gap: heel": Advice(heel_gap, "gap_mm = #", to("heel_gap_mm")),
    "flange-thin: wear": Advice(thin_flange, "allowance_mm = #", to("wear_allowance_mm")),
    "flange-thin: own": Advice(thin_flange, "flange_wear_mm = #", to("flange_wear_mm")),
    "tread-hollow: wear": Advice(hollow_tread, "allowance_mm = #", to("wear_allowance_mm")),
    "overturning: speed": Advice(overturning, "speed_km_h = #", to("max_speed_km_h")),
    "cant-deficiency: raise": Advice(
        cant_deficiency, "outer rail, track.cant_mm = #", to("cant_mm"), 2.0
    ),
    "cant-deficiency: speed": Advice(
        cant_deficiency, "slower there, wagon.max_speed_km_h = #", to("max_speed_km_h")
    ),
    "cant-standing: lower": Advice(cant_standing, "cant_mm = #", to("cant_mm"), 2.0),
    "pushers: load": Advice(pushers, "payload_kg = #", to("payload_kg"), 2.0),
    "pushers: push": Advice(pushers, "push_force_n = #", to("push_force_n"), 200.0),
    "brake-adhesion: speed": Advice(brake_adhesion, "speed_km_h = #", to("max_speed_km_h")),
    "roll-away: gradient": Advice(roll_away, "percent = #", to("steepest_gradient_percent"), 0.02),
    "brake-adhesion: gradient": Advice(
        brake_adhesion, "no more than # % is held", to("steepest_gradient_percent")
    ),
}
ADVICE |= {
    "load-unevenness: value": Advice(own_unevenness, "= # would do", to("load_unevenness"), None),
    "shock-factor: value": Advice(own_shock, "= # would do", to("shock_factor"), None),
    "lateral-share: value": Advice(own_lateral, "= # would do", to("lateral_share"), None),
}
SMALL = {"tread_diameter_mm": 200.0, "vent_circle_mm": 140.0}
NARROW = {"tread_width_mm": 35.0, "gauge_widening_mm": 20.0}

# Sound advice, by name of its line above; the plain wheel with these keys.
SOUND: list[tuple[str, Keys]] = [
    ("play-least: set", {"back_to_back_mm": 600.0}),
    ("play-least: set", {"back_to_back_mm": 577.0, "flange_angle_deg": 60.0}),
    ("play-least: closer", {"back_to_back_mm": 600.0}),
    ("play-most: widening", {"gauge_widening_mm": 36.0, "wear_allowance_mm": 3.0}),
    ("play-most: apart", {"flange_angle_deg": 90.0, "back_to_back_mm": 540.0}),
    ("play-most: wear", {"flange_wear_mm": 5.0, "gauge_widening_mm": 25.0, "km_per_year": 1.0}),
    ("tread-bearing: wider", NARROW),
    ("tread-bearing: play", {"tread_width_mm": 40.0, "back_to_back_mm": 547.0}),
    ("tread-bearing: widening", NARROW),
    ("curve-room: flare", {"wheelbase_mm": 2310.0, "flange_angle_deg": 78.0}),
    (
        "curve-room: widen",
        {"wheelbase_mm": 1040.0, "flange_angle_deg": 67.0, "back_to_back_mm": 576.0},
    ),
    ("curve-room: base", {"min_curve_radius_m": 2.0}),
    ("middle-axle: play", {"flange_depth_mm": 19.9, "axles": 4, "back_to_back_mm": 600.0}),
    ("curve-slide: push", {"min_curve_radius_m": 6.0}),
    ("curve-slide: loose", {"payload_kg": 7600.0}),
    ("flange-climb: angle", {"friction_high": 0.7}),
    ("flange-climb: angle", {"flange_angle_deg": 46.0}),
    ("flange-window: take", {"friction_high": 0.7}),
    ("flange-window: take", {"flange_angle_deg": 50.0}),
    ("twist-lift: packing", {"flange_depth_mm": 3.0}),
    ("twist-lift: packing", {"twist_mm_per_m": 15.0}),
    ("twist-lift: on three points", {"twist_mm_per_m": 20.0}),
    ("twist-lift: deeper", {"flange_depth_mm": 3.5, "rail_corner_radius_mm": 4.0}),
    ("joint-push: file", {"joint_step_mm": 2.5}),
    ("joint-push: push", {"joint_step_mm": 2.5}),
    ("joint-drop: close", SMALL | {"joint_gap_mm": 40.0}),
    ("flange-depth: depth", {"flange_depth_mm": 3.0}),
    ("check-span: flangeway", {"flangeway_mm": 15.0}),
    ("check-span: check rail", {"check_rail_flangeway_mm": 10.0, "flangeway_mm": 20.0}),
    ("check-gauge: rail", {"check_rail_flangeway_mm": 30.0}),
    ("flangeway-width: width", {"flangeway_mm": 15.0}),
    ("flangeway-width: check rail", {"check_rail_flangeway_mm": 15.0}),
    ("flangeway-depth: dig", {"flangeway_depth_mm": 10.0}),
    ("crossing-gap: tread", {"tread_width_mm": 40.0}),
    ("crossing-gap: flangeway", {"tread_width_mm": 50.0}),
    ("crossing-gap: play", {"tread_width_mm": 55.0}),
    ("crossing-gap: widening", {"tread_width_mm": 63.0, "gauge_widening_mm": 8.0}),
    ("crossing-gap: nose", {"tread_width_mm": 60.0}),
    ("flange-contact: angle", {"flange_angle_deg": 84.0}),
    ("flange-contact: angle", {"flange_angle_deg": 90.0}),
    ("flange-contact: depth", {"rail_corner_radius_mm": 12.0}),
    ("flange-wear: allowance", {"flange_wear_mm": 1.0, "km_per_year": 200.0}),
    ("switch-opening: toe", {"switch_opening_mm": 20.0}),
    ("heel-gap: heel", {"heel_gap_mm": 20.0, "gauge_widening_mm": 8.0}),
    ("flange-thin: wear", {"wear_allowance_mm": 3.0}),
    ("flange-thin: own", {"flange_wear_mm": 5.0}),
    ("tread-hollow: wear", {"wear_allowance_mm": 2.3}),
    ("overturning: speed", {"centre_of_gravity_mm": 1000.0, "max_speed_km_h": 20.0}),
    ("overturning: speed", {"centre_of_gravity_mm": 1000.0, "max_speed_km_h": 15.0}),
    ("cant-deficiency: raise", {"min_curve_radius_m": 6.0}),
    ("cant-deficiency: speed", {"min_curve_radius_m": 6.0, "cant_mm": 10.0}),
    ("cant-standing: lower", {"cant_mm": 100.0}),
    ("cant-standing: lower", {"cant_mm": 60.0, "centre_of_gravity_mm": 3000.0}),
    ("pushers: load", {}),
    ("pushers: push", {}),
    ("roll-away: gradient", {"steepest_gradient_percent": 5.0}),
    ("brake-adhesion: speed", {"steepest_gradient_percent": 15.0}),
    ("load-unevenness: value", {"load_unevenness": 1.05}),
    ("shock-factor: value", {"shock_factor": 1.1}),
    ("lateral-share: value", {"lateral_share": 0.1}),
]
WRONG = [
    ("play-least: closer", {"back_to_back_mm": 600.0, "flange_angle_deg": 60.0}),
    ("play-most: widening", {"gauge_widening_mm": 40.0}),
    ("tread-bearing: wider", NARROW | {"wear_allowance_mm": 2.1}),
    ("tread-bearing: widening", NARROW | {"wear_allowance_mm": 2.1}),
    ("curve-room: widen", {"min_curve_radius_m": 2.0}),
    ("curve-room: flare", {"min_curve_radius_m": 2.0}),
    ("flange-window: take", {"flange_angle_deg": 90.0, "back_to_back_mm": 565.0}),
    ("middle-axle: play", {"axles": 3, "wheelbase_mm": 1896.0}),
    ("curve-slide: push", {"payload_kg": 7600.0}),
    ("twist-lift: packing", {"wheelbase_mm": 2381.0}),
    ("twist-lift: deeper", {"flange_depth_mm": 3.0, "rail_corner_radius_mm": 4.0}),
    ("joint-push: push", {}),
    ("joint-drop: close", {"joint_gap_mm": 40.0}),
    ("flangeway-depth: dig", {"flangeway_depth_mm": 14.96}),
    ("crossing-gap: tread", {"back_to_back_mm": 560.0}),
    ("crossing-gap: flangeway", {"back_to_back_mm": 560.0}),
    ("crossing-gap: play", {"back_to_back_mm": 560.0}),
    ("cant-deficiency: raise", {"max_speed_km_h": 14.4}),
    ("cant-standing: lower", {"cant_mm": 131.0}),
]


@pytest.mark.parametrize(("name", "keys"), [*SOUND, *WRONG])
def test_advice_followed_passes(name: str, keys: Keys) -> None:
    assert_heeded(ADVICE[name], keys)


def test_a_gradient_that_is_held_is_left_with_the_warning_of_the_speed() -> None:
    """16 % is held by friction of 0.2 with its reserve; stopping in time is another matter."""
    keys = {"steepest_gradient_percent": 20.0}
    assert_heeded(ADVICE["brake-adhesion: gradient"], keys, leaves="warn")
    assert_no_more_than_needed(ADVICE["brake-adhesion: gradient"], keys, leaves="warn")


@pytest.mark.parametrize(
    ("name", "keys"), [case for case in SOUND if ADVICE[case[0]].slack is not None]
)
def test_advice_asks_for_no_more_than_needed(name: str, keys: Keys) -> None:
    assert_no_more_than_needed(ADVICE[name], keys)


def test_each_line_of_the_table_is_followed() -> None:
    assert {name for name, _ in SOUND} | {"brake-adhesion: gradient"} == set(ADVICE)


def test_a_wider_tread_takes_its_hub_tube_with_it() -> None:
    """A tube that no longer reaches through both discs would be refused."""
    keys: Keys = {"tread_width_mm": 40.0, "hub_tube_length_mm": 40.0}
    with advice_tried():
        says = crossing_gap(running_setting(**keys)).says
    found = dict(re.findall(r"wheel\.(\w+) = ([\d.]+)", says))
    assert set(found) == set(keys)
    then = {key: float(value) for key, value in found.items()}
    assert crossing_gap(running_setting(**then)).verdict == "pass"
