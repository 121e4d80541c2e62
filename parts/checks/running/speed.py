"""Speed in the tightest curve: overturning, and the cant it asks for."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wagon.curving import equilibrium_cant_mm, half_base_mm, overturning_speed_m_s

SPEED_RESERVE = 1.5  # overturning speed over permitted speed: 2.25 on the sideways force
DEFICIENCY_SHARE = 1 / 15  # of the contact spacing; 100 mm on standard gauge
CANT_SHARE = 1 / 10  # of the contact spacing; 150 mm on standard gauge


def overturning(setting: Setting) -> CheckResult:
    """Overturning speed in the tightest curve against the speed allowed, with a reserve.

    Springs are taken as stiff.
    """
    wagon, track = setting.wagon, setting.track
    id, title = "overturning", "Overturning speed in the tightest curve"
    source = (
        "plain statics, sqrt(g R (s/2) / h) with cant; reserve of 1.5 in speed by common "
        "practice, no source; sway on springs and wind left out"
    )
    limit = SPEED_RESERVE * wagon.max_speed_km_h
    if wagon.centre_of_gravity_mm is None:
        says = "not known: give wagon.centre_of_gravity_mm, loaded, above the rail"
        return CheckResult(
            id, title, None, limit, "km/h", "not-assessed", says, source, at_most=False
        )
    cant = math.asin(min(track.cant_mm / setting.contact_spacing_mm, 1.0))
    height = wagon.centre_of_gravity_mm
    speed = 3.6 * overturning_speed_m_s(
        half_base_mm(setting), height, track.min_curve_radius_m, cant
    )
    if math.isinf(speed):
        says = "the cant alone holds the wagon on the outer side, at any speed"
        return CheckResult(id, title, None, limit, "km/h", "pass", says, source, at_most=False)
    return judged(
        id,
        title,
        speed,
        limit,
        "km/h",
        source,
        at_most=False,
        good=f"allowed {wagon.max_speed_km_h:g} km/h, it would tip at {speed:.0f} km/h",
        bad=("it tips at the speed allowed" if speed <= wagon.max_speed_km_h else "little reserve")
        + f"; wagon.max_speed_km_h = {math.floor(10 * speed / SPEED_RESERVE) / 10:g}, or load "
        "lower",
        bad_verdict="fail" if speed <= wagon.max_speed_km_h else "warn",
    )


def cant_deficiency(setting: Setting) -> CheckResult:
    """Equilibrium cant at full speed less the cant that is there."""
    track, spacing = setting.track, setting.contact_spacing_mm
    speed = setting.wagon.max_speed_km_h
    lacking = equilibrium_cant_mm(spacing, speed, track.min_curve_radius_m) - track.cant_mm
    limit = DEFICIENCY_SHARE * spacing
    allowed = math.sqrt((track.cant_mm + limit) * 127 * track.min_curve_radius_m / spacing)
    return judged(
        "cant-deficiency",
        "Cant lacking at full speed in the tightest curve",
        lacking,
        limit,
        "mm",
        "equilibrium cant G V2 / (127 R), railway textbooks; limit of 1/15 of the rail spacing "
        "from memory (100 mm on standard gauge)",
        at_most=True,
        good="the outward push at this speed is slight"
        if lacking > 0
        else "the curve has all the cant that this speed asks for",
        bad="raise the outer rail, track.cant_mm = "
        f"{at_least(track.cant_mm + lacking - limit, 0)}, or run slower there, "
        f"wagon.max_speed_km_h = {math.floor(10 * allowed) / 10:g}",
        bad_verdict="warn",
    )


def cant_standing(setting: Setting) -> CheckResult | None:
    """Cant under a wagon that stands or creeps: it leans, and may tip, on the inner rail."""
    track, spacing = setting.track, setting.contact_spacing_mm
    if track.cant_mm == 0:
        return None
    limit, tips_at = CANT_SHARE * spacing, math.inf
    height = setting.wagon.centre_of_gravity_mm
    if height is not None:
        tips_at = spacing * math.sin(math.atan(half_base_mm(setting) / height))
        limit = min(limit, tips_at / SPEED_RESERVE)
    tips = track.cant_mm >= tips_at
    return judged(
        "cant-standing",
        "Cant under a standing wagon",
        track.cant_mm,
        limit,
        "mm",
        "limit of 1/10 of the rail spacing from memory (150 mm on standard gauge); tipping by "
        "plain statics, reserve of 1.5 by common practice, no source",
        at_most=True,
        good="a wagon that stops in the curve stands safely",
        bad=("a wagon that stops in the curve tips inwards" if tips else "wagons lean inwards")
        + f"; lower the outer rail, track.cant_mm = {at_most(limit, 0)}",
        bad_verdict="fail" if tips else "warn",
    )


CHECKS = (overturning, cant_deficiency, cant_standing)
