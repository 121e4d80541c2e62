"""Fixed wheels in a curve: what the tread's taper steers, what must slide, and its drag."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.loads.travel import travel_mm
from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.wagon.curving import slide_share

DRAG_SHARE = 0.5  # of the push; the rest is for bearings, joints and grades


def rolling_offset_mm(
    tread_radius_mm: float, contact_spacing_mm: float, taper: float, curve_radius_mm: float
) -> float:
    """Offset of an axle at which its tapered treads roll without sliding: r (s/2) / (lambda R).

    `taper` is the slope, 1/20 for 1 in 20. Source: Redtenbacher's formula, from memory; follows
    from equal angles turned by two circles of radius r + lambda y and r - lambda y.
    """
    return tread_radius_mm * contact_spacing_mm / 2 / (taper * curve_radius_mm)


def tightest_steered_mm(
    tread_radius_mm: float, contact_spacing_mm: float, taper: float, travel_mm: float
) -> float:
    """Curve radius down to which taper and half the travel suffice: r s / (lambda travel)."""
    if taper <= 0 or travel_mm <= 0:
        return math.inf
    return tread_radius_mm * contact_spacing_mm / (taper * travel_mm)


def curve_slide(setting: Setting) -> CheckResult:
    """Drag of fixed wheels that slide in the tightest curve; loose wheels have none."""
    wheel, use, wagon = setting.wheel, setting.use, setting.wagon
    loose = setting.axle.wheels_on_axle == "loose"
    slide = 0.0 if loose else slide_share(setting)
    drag = use.friction_high * (wagon.tare_kg + wagon.payload_kg) * GRAVITY * slide
    taper = 1 / wheel.tread_taper_1_in if wheel.tread_taper_1_in else 0.0
    radius = tightest_steered_mm(
        wheel.tread_radius_mm, setting.contact_spacing_mm, taper, travel_mm(setting)
    )
    steered = "no taper steers them"
    if math.isfinite(radius):
        steered = f"the taper steers down to a radius of {radius / 1000:.1f} m"
    slides = f"fixed wheels slide {100 * slide:.1f} % of the way, {steered}"
    limit = DRAG_SHARE * use.push_force_n
    if loose:
        good = "loose wheels turn each at their own speed and do not slide along the rail"
    else:
        good = f"{slides}; loose wheels would avoid it"
    return judged(
        "curve-slide",
        "Drag of wheels fixed on the axle in the tightest curve",
        drag,
        limit,
        "N",
        "plain kinematics, friction x load x share slid (Redtenbacher's rolling condition, from "
        "memory); half of the push allowed for it by common practice, no source",
        at_most=True,
        good=good,
        bad=f'{slides}; take axle.wheels_on_axle = "loose", or '
        f"use.push_force_n = {at_least(drag / DRAG_SHARE, 0)}",
        bad_verdict="warn",
    )


CHECKS = (curve_slide,)
