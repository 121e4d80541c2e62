"""An axle and its wagon in the tightest curve: how far it travels, what slides, when it tips."""

from __future__ import annotations

import math

from platewheel.parts.loads.travel import travel_mm
from platewheel.parts.setting.setting import GRAVITY, Setting


def slide_share(setting: Setting) -> float:
    """How far each of two fixed wheels slides for each metre run in the tightest curve:
    half of s / R, less what the taper gives, lambda x travel / r; never below 0."""
    wheel = setting.wheel
    taper = 1 / wheel.tread_taper_1_in if wheel.tread_taper_1_in else 0.0
    asked = setting.contact_spacing_mm / (1000 * setting.track.min_curve_radius_m)
    given = taper * max(travel_mm(setting), 0.0) / wheel.tread_radius_mm
    return max(asked - given, 0.0) / 2


def equilibrium_cant_mm(spacing_mm: float, speed_km_h: float, curve_radius_m: float) -> float:
    """Cant at which weight and centrifugal force press square on the track: G V2 / (127 R).

    Source: common railway formula, in the textbooks; 127 = 3.6^2 x 9.8.
    """
    return spacing_mm * speed_km_h**2 / (127 * curve_radius_m)


def overturning_speed_m_s(
    half_base_mm: float, height_mm: float, curve_radius_m: float, cant_angle: float = 0.0
) -> float:
    """Speed at which weight and centrifugal force point at the outer rail; angle in radians.

    v = sqrt(g R tan(atan(b / h) + cant)), without cant sqrt(g R b / h); infinite where the cant
    alone holds. Source: plain statics of a rigid body.
    """
    lean = math.atan(half_base_mm / height_mm) + cant_angle
    if lean >= math.pi / 2:
        return math.inf
    return math.sqrt(GRAVITY * curve_radius_m * math.tan(lean))


def half_base_mm(setting: Setting) -> float:
    """From the wagon's middle to the line it tips about: half of the rail spacing.

    On three points that line goes from a wheel to the pivot in the middle of the other axle:
    midway, half of it is left. Source: plain geometry, pivot taken at rail height (safe).
    """
    return setting.contact_spacing_mm / (4 if setting.wagon.suspension == "three-point" else 2)
