"""Does the rail's corner stand the flange that is pushed against it? Closed forms, screening.

A new corner is round: flange and corner touch in a spot, at more pressure than steel bears, and the
corner wears flat along the flange until the pressure is borne. How long that flat is, tells
whether it is a shine or the end of the rail's corner.
"""

from __future__ import annotations

import math

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.shakedown import line_shakedown
from platewheel.parts.checks.trying import payload_that_passes
from platewheel.parts.loads.wheel_load import flange_push_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_pressure_n_mm2,
    point_pressure_n_mm2,
)

SHARP_MM = 0.1  # a corner that is no rounding
FLAT_SHARE = 0.5  # of the corner's radius, along the flange; our choice, no source
JOHNSON = "Johnson, Contact Mechanics (1985), ch. 4 and 9, from memory"


def rolling_radius_mm(tread_radius_mm: float, flange_angle: float) -> float:
    """Radius of the flange's cone along the rail, square to its face: r / cos(delta), angle to
    the axle axis in radians; at the tread's radius, which is the least. Source: plain geometry
    (Meusnier's theorem)."""
    return tread_radius_mm / max(math.cos(flange_angle), 1e-6)


def flat_for_mm(force_n: float, radius_mm: float, pressure_n_mm2: float) -> float:
    """Length of a flat, across the rolling, that bears a force at a Hertz pressure:
    F E* / (pi R p2). Source: Johnson, Contact Mechanics (1985), line contact, from memory."""
    return force_n * contact_modulus_n_mm2() / (math.pi * radius_mm * pressure_n_mm2**2)


def corner_flat(setting: Setting) -> CheckResult | None:
    """Flat that the push of the curves wears on the rail's corner, against half its radius; none
    of a sharp corner, or where nothing pushes."""
    corner, spec = setting.track.rail_corner_radius_mm, setting.wheel
    force = flange_push_n(setting) / math.sin(spec.flange_angle)
    if corner < SHARP_MM or force <= 0:
        return None
    radius = rolling_radius_mm(spec.tread_radius_mm, spec.flange_angle)
    friction = setting.use.friction_high
    limit = line_shakedown(friction) * spec.grade.fy_n_mm2(spec.flange_thickness_mm) / math.sqrt(3)
    flat = flat_for_mm(force, radius, limit)
    new = point_pressure_n_mm2(force, radius, corner, contact_modulus_n_mm2())
    worn = line_pressure_n_mm2(force, flat, 2 * radius, contact_modulus_n_mm2())
    most = FLAT_SHARE * corner
    payload = payload_that_passes(corner_flat, setting)
    lighter = "" if payload is None else f", or wagon.payload_kg = {payload}"
    return judged(
        "corner-flat",
        "Flat that the flanges wear on the rail's corner",
        flat,
        most,
        "mm",
        f"Hertz, spot and line, and the shakedown map at friction {friction:g}: {JOHNSON}; "
        "half the corner's radius is our choice, no source",
        at_most=True,
        good=f"in the tightest curve the corner beds in from {new:.0f} to {worn:.0f} N/mm2 on a "
        "flat along the flange, and keeps it: grease slows it",
        bad=f"the curves eat the rail's corner: grease the outer rail, or an easier curve{lighter}",
        bad_verdict="warn",
    )


CHECKS = (corner_flat,)
