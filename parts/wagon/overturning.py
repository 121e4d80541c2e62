"""Tipping in the tightest curve as figures; the check and the formulas are in checks/speed.py."""

from __future__ import annotations

import math

from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.wagon.curving import half_base_mm, overturning_speed_m_s


def tipping_speed_km_h(setting: Setting) -> float | None:
    """Speed at which the wagon tips outwards in the tightest curve, with its cant.

    None where the centre of gravity is not known; infinite where the cant alone holds it.
    """
    height = setting.wagon.centre_of_gravity_mm
    if height is None:
        return None
    cant = math.asin(min(setting.track.cant_mm / setting.contact_spacing_mm, 1.0))
    radius = setting.track.min_curve_radius_m
    return 3.6 * overturning_speed_m_s(half_base_mm(setting), height, radius, cant)


def tipping_safety(setting: Setting) -> float | None:
    """Tipping speed over the speed allowed; None and infinite as for the speed."""
    speed = tipping_speed_km_h(setting)
    return None if speed is None else speed / setting.wagon.max_speed_km_h


def balanced_speed_km_h(setting: Setting) -> float:
    """Speed at which the cant that is there presses both rails alike: the equilibrium cant
    solved for V. Source: statics, V = 3.6 sqrt(g R e / s); small angle."""
    track = setting.track
    share = track.cant_mm / setting.contact_spacing_mm
    return 3.6 * math.sqrt(GRAVITY * track.min_curve_radius_m * share)


def inner_rail_share(setting: Setting) -> float | None:
    """Load left on the inner rail at full speed in the tightest curve, over the load at rest.

    1 where cant and speed agree, 0 where it tips outwards, above 1 where the cant leads; None
    where the centre of gravity is not known. Source: moments about the middle of the track, in
    the wagon's own axes: 1 - (h / b) tan(atan(v2 / (g R)) - cant).
    """
    height = setting.wagon.centre_of_gravity_mm
    if height is None:
        return None
    cant = math.asin(min(setting.track.cant_mm / setting.contact_spacing_mm, 1.0))
    speed = setting.wagon.max_speed_km_h / 3.6
    lean = math.atan(speed**2 / (GRAVITY * setting.track.min_curve_radius_m)) - cant
    return 1 - height / half_base_mm(setting) * math.tan(lean)
