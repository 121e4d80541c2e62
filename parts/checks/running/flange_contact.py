"""Where the flange touches the rail in the tightest curve: on its face, or low down, or on its tip;
what slides there, and how long it lasts."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.climb import flange_climb
from platewheel.parts.checks.running.curve import fits_curve
from platewheel.parts.checks.trying import still_pass, tried
from platewheel.parts.loads.curving import Curving
from platewheel.parts.loads.flange_contact import (
    LOW_SHARE,
    attack,
    contact_in_curve,
    flange_contact,
    lowest_contact,
)
from platewheel.parts.loads.spectrum import shares
from platewheel.parts.loads.wheel_load import frame_in_curve, push_shares
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import flange_wear_mm, least_flange_mm

LEADS = 0.5  # of the turns in curves a wheel leads on the outer rail, as in the spectrum
MOST_DEPTH_MM = 25.0  # that is advised: usual field railways end there, common practice, no source


def flange_touch(setting: Setting) -> CheckResult | None:
    """How far down its face the flange touches; None where the wagon does not fit the curve."""
    if not fits_curve(setting):
        return None  # told by the curve's own check
    wheel, lowest = setting.wheel, lowest_contact(setting)
    own, yaw = contact_in_curve(setting), attack(setting)
    share = lowest.down_mm / wheel.flange_depth_mm
    flatter = tried(
        flange_touch,
        setting,
        "wheel.flange_angle_deg",
        math.ceil(2 * wheel.flange_angle_deg) / 2 - 0.5,
        -0.5,
    )
    deeper = tried(
        flange_touch, setting, "wheel.flange_depth_mm", math.ceil(wheel.flange_depth_mm) + 1, 1.0
    )
    cures = []
    if flatter and flatter >= 45:
        key = {"wheel.flange_angle_deg": flatter}
        cures = [f"wheel.flange_angle_deg = {flatter:g}"] * still_pass(setting, key, flange_climb)
    cures += [f"wheel.flange_depth_mm = {deeper:g}"] if deeper and deeper <= MOST_DEPTH_MM else []
    slides = 100 * own.sliding(wheel.tread_radius_mm, yaw)
    return judged(
        "flange-contact",
        "Where the yawed flange touches, share of its depth",
        share,
        LOW_SHARE,
        "",
        "plain geometry of a cone yawed as it curves, on a sharp, this and a worn corner of the "
        "rail; most of 0.6 by common practice, no source",
        at_most=True,
        good=f"it touches {own.below_mm:.1f} mm below the rail's top, {own.ahead_mm:.0f} mm ahead "
        f"of the axle, at {math.degrees(own.angle):.1f} deg, and slides {slides:.0f} % of the way",
        bad=("it rides on its tip" if lowest.tip else "it touches low on its face")
        + f" at {math.degrees(yaw):.1f} deg of yaw, {lowest.ahead_mm:.0f} mm ahead of the axle: "
        + " or ".join([*cures, "a shorter wheelbase or an easier curve"]),
        bad_verdict="fail" if lowest.tip else "warn",
    )


def wear_mm2_per_km(tangential_n: float, slides: float, diameter_mm: float) -> float:
    """Metal lost off a wheel's section for each km rolled, mm2, from the work of sliding T gamma.

    Source: British Rail wear law, Pearce and Sherratt (1991), from memory: 0.25 T gamma / D below
    100 N, 25 / D to 200, (1.19 T gamma - 154) / D above; D in mm. Its steps meet.
    """
    work = tangential_n * slides
    if work < 100:
        return 0.25 * work / diameter_mm
    return max(25.0, 1.19 * work - 154) / diameter_mm


def flange_lost_mm2(setting: Setting, radius_m: float, frame: Curving, mean_n: float) -> float:
    """Section lost off a leading outer flange for each km in a curve, dry, mm2."""
    wheel = setting.wheel
    touch = flange_contact(
        wheel.tread_radius_mm,
        wheel.flange_depth_mm,
        wheel.flange_angle,
        frame.attack,
        setting.track.rail_corner_radius_mm,
    )
    push = push_shares(setting, radius_m)[0] * mean_n / math.sin(touch.angle)
    slides = touch.sliding(wheel.tread_radius_mm, frame.attack)
    return wear_mm2_per_km(setting.use.friction_high * push, slides, wheel.tread_diameter_mm)


def flange_life_km(setting: Setting) -> float:
    """Way after which the flange's allowance is worn off, its whole face taken to wear, km; inf
    where there is no curve. Loaded and empty, on the outer rail half of the turns in curves."""
    loaded = setting.use.loaded_share
    mean = loaded * setting.static_wheel_load_n + (1 - loaded) * setting.empty_wheel_load_n
    lost = sum(
        share * LEADS * flange_lost_mm2(setting, piece.radius_m, frame, mean)
        for share, piece in shares(setting)
        if piece.radius_m is not None
        for frame in (frame_in_curve(setting, piece.radius_m),)
    )
    there = flange_wear_mm(setting) * setting.wheel.flange_depth_mm
    return there / lost if lost else math.inf


def flange_wear(setting: Setting) -> CheckResult | None:
    """Years until the flange is worn by its allowance, dry and ungreased."""
    if not fits_curve(setting):
        return None
    km, use = flange_life_km(setting), setting.use
    years = min(km / use.km_per_year, 1000.0)
    tight = setting.track.min_curve_radius_m
    frame = frame_in_curve(setting, tight)
    lost = flange_lost_mm2(setting, tight, frame, setting.static_wheel_load_n)
    depth = setting.wheel.flange_depth_mm
    per_km = f"a leading flange loses {lost:.2g} mm2 a km in the tightest curve, loaded"
    asked = flange_wear_mm(setting) * use.years / years if years else math.inf
    there = setting.flange_reach_mm - least_flange_mm(setting)
    allow = f"use.flange_wear_mm = {math.ceil(10 * asked) / 10:g}, " if asked < there - 0.1 else ""
    return judged(
        "flange-wear",
        "Years the flange's allowance lasts, dry",
        years,
        use.years,
        "years",
        "British Rail wear law (Pearce and Sherratt), from memory, of rolled wheels: the order of "
        "magnitude; grease on the outer rail's side makes it several times as long",
        at_most=False,
        good=f"{per_km}, {1000 * lost / depth:.2g} mm of its face in 1000 km",
        bad=f"{per_km}: {at_least(1000 * lost / depth)} mm of its face in 1000 km; {allow}grease "
        "on the rail in curves, an easier curve, or reckon with new wheels",
        bad_verdict="warn",
    )


CHECKS = (flange_touch, flange_wear)
