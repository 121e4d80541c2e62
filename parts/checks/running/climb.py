"""Does the flange climb the rail: the Nadal limit against the sideways force to expect."""

from __future__ import annotations

import math

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.curve import radial_error
from platewheel.parts.loads.flange_contact import (
    LOW_SHARE,
    attack,
    contact_in_curve,
    lowest_contact,
)
from platewheel.parts.loads.wheel_load import curving_shares, push_shares
from platewheel.parts.setting.setting import Setting

RESERVE = 1.2 / 0.8  # climb limit over running limit of the same wheel, EN 14363 and UIC 518
SOURCE = (
    "Nadal's formula (US DOT JRC2011-56064; TCRP Report 71 vol. 5); reserve of 1.5 as between "
    "the limits 1.2 of EN 14363 (from memory) and 0.8 of UIC 518"
)


def nadal_limit(flange_angle: float, friction: float) -> float:
    """Lateral over vertical force at which a flange climbs: (tan d - mu) / (1 + mu tan d).

    d is the contact angle from horizontal, radians; the flange's angle to the axle axis is the
    same, 90 degrees being an upright face. Quasi-static, for a large angle of attack; safe for
    less. Source: Nadal, as quoted in JRC2011-56064 (US DOT) and TCRP Report 71 vol. 5.
    """
    sine, cosine = math.sin(flange_angle), math.cos(flange_angle)
    return (sine - friction * cosine) / (cosine + friction * sine)


def least_angle(lateral_over_vertical: float, friction: float) -> float:
    """Flange angle at which Nadal's limit is this ratio, radians: atan(L/V) + atan(mu)."""
    return math.atan(lateral_over_vertical) + math.atan(friction)


def expected_share(setting: Setting) -> float:
    """Lateral over vertical force on the leading outer wheel, full speed, tightest curve.

    Sum of: what the sliding treads of a wagon that its frame turns leave on this wheel, and the
    centrifugal force of the whole axle less the cant's part, both as the strength of the wheel
    has them (`parts/loads`); the push, turned off the track by half of the wheelbase's arc, on
    the empty wagon. Load that moves to the outer wheel would help and is left out. A wheel that
    twist relieves is the matter of the twist check and of the reserve. Source: plain statics.
    """
    wagon, radius = setting.wagon, setting.track.min_curve_radius_m
    off_track = radial_error(wagon.wheelbase_mm, 1000 * radius)
    push = setting.use.push_force_n * math.sin(off_track) / setting.empty_wheel_load_n
    return push_shares(setting, radius)[1] + push


def climbing_friction(setting: Setting) -> float:
    """Friction of treads and flange alike at which the expected ratio reaches Nadal's limit.

    The ratio is a mu + c, so (t - mu) / (1 + mu t) = a mu + c with t = tan(delta) is the quadratic
    a t mu2 + (1 + a + c t) mu + c - t = 0; divided by t, as t has no end.
    """
    friction = setting.use.friction_high
    slides = 0.0
    if setting.use.lateral_share is None:
        radius = setting.track.min_curve_radius_m
        slides = curving_shares(setting, radius)[1] / friction
    rest = expected_share(setting) - slides * friction
    flat = 1 / math.tan(setting.wheel.flange_angle)
    linear, constant = flat * (1 + slides) + rest, rest * flat - 1
    if constant >= 0:
        return 0.0
    return 2 * -constant / (linear + math.sqrt(linear**2 - 4 * slides * constant))


def _steeper(setting: Setting, least_deg: float) -> str:
    """The angle that holds; none where it would touch the rail low on its face, or on its tip."""
    less = "less speed, more cant, an easier curve or less push"
    if least_deg > 90:
        return f"no flange holds that: {less}"
    angle = math.ceil(10 * least_deg) / 10
    low = lowest_contact(setting, math.radians(angle), attack(setting)).down_mm
    if low > LOW_SHARE * setting.wheel.flange_depth_mm:
        return f"from {angle:g} deg it would hold, and touch the rail too low: {less}"
    return f"wheel.flange_angle_deg = {angle:g}"


def flange_climb(setting: Setting) -> CheckResult:
    """Expected L/V against Nadal's limit at the highest friction, which is the worst.

    The angle is that of the flange where it touches; what yaw makes it steeper there is told and
    not counted, as a wheel may run with less yaw. On its tip it
    holds nothing, which is a check of its own.
    """
    id, title, friction = "flange-climb", "Sideways over vertical force", setting.use.friction_high
    angle = setting.wheel.flange_angle
    nadal = nadal_limit(angle, friction)
    limit = nadal / RESERVE
    if setting.wagon.wheelbase_mm >= 2000 * setting.track.min_curve_radius_m:
        says = "the wheelbase does not fit the curve: shorten it or ease the curve"
        return CheckResult(id, title, None, limit, "", "fail", says, SOURCE, at_most=True)
    share, touch = expected_share(setting), contact_in_curve(setting)
    there = math.degrees(touch.angle) - setting.wheel.flange_angle_deg
    steep = f"; yaw makes it {there:.1f} deg steeper there, not counted" if there >= 0.05 else ""
    least = math.degrees(least_angle(RESERVE * share, friction))
    would = climbing_friction(setting)
    return judged(
        id,
        title,
        share,
        limit,
        "",
        SOURCE,
        at_most=True,
        good=f"at friction {friction:g} the flange climbs only from {nadal:.2f}; it would climb "
        + (f"where the friction is {would:.2f}" if would < 1 else "at no friction of steel")
        + steep,
        bad=f"the flange climbs from {nadal:.2f} when the rail is dry"
        + (", too near" if share <= nadal else "")
        + (f": {_steeper(setting, least)}" if share > limit else ""),
        bad_verdict="fail" if share > nadal else "warn",
    )


CHECKS = (flange_climb,)
