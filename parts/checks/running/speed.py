"""Speed in the tightest curve: overturning, and the cant it asks for."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_most
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
    needed = math.ceil(track.cant_mm + lacking - limit - 1e-9)
    most, most_speed = math.floor(most_cant_mm(setting)), _most_km_h(setting, track.cant_mm)
    raised = f"track.cant_mm = {needed}"
    if needed > most:  # a wagon that stands would lean too far
        raised = f"no cant does alone, at most {most} mm is safe for a wagon that stands"
        if most > track.cant_mm:
            at_most_cant = _most_km_h(setting, most)
            raised += f": track.cant_mm = {most} with wagon.max_speed_km_h = {at_most_cant:g}"
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
        bad=f"raise the outer rail, {raised}, or run slower there, "
        f"wagon.max_speed_km_h = {most_speed:g}",
        bad_verdict="warn",
    )


def _most_km_h(setting: Setting, cant_mm: float) -> float:
    """Speed at which no more cant is lacking than may, rounded down to a tenth."""
    spacing, radius = setting.contact_spacing_mm, setting.track.min_curve_radius_m
    speed = math.sqrt((cant_mm + DEFICIENCY_SHARE * spacing) * 127 * radius / spacing)
    return math.floor(10 * speed) / 10


def tipping_cant_mm(setting: Setting) -> float:
    """Cant on which a standing wagon tips inwards; inf where its centre of gravity is not known."""
    height = setting.wagon.centre_of_gravity_mm
    if height is None:
        return math.inf
    return setting.contact_spacing_mm * math.sin(math.atan(half_base_mm(setting) / height))


def most_cant_mm(setting: Setting) -> float:
    """Most cant under a wagon that stands."""
    return min(CANT_SHARE * setting.contact_spacing_mm, tipping_cant_mm(setting) / SPEED_RESERVE)


def cant_standing(setting: Setting) -> CheckResult | None:
    """Cant under a wagon that stands or creeps: it leans, and may tip, on the inner rail."""
    track = setting.track
    if track.cant_mm == 0:
        return None
    limit, tips = most_cant_mm(setting), track.cant_mm >= tipping_cant_mm(setting)
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
