"""The greatest loads of a wheel: at rest, at a joint, across its flange.

A user's own `load_unevenness`, `shock_factor` or `lateral_share` stands in place of what is worked
out; `derived` gives the setting without them, for the check that tells both.
"""

from __future__ import annotations

from dataclasses import replace

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.loads.curving import Curving, curving
from platewheel.parts.loads.joint import joint_load_n, rolling_factor
from platewheel.parts.loads.travel import outward_share, travel_mm
from platewheel.parts.loads.twist import axle_places_mm, placing, twisted_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import WaySpec

FULL_SLIDING = 0.005  # yaw of the leading axle, rad


def tightest(setting: Setting) -> WaySpec:
    """The worst piece there may be: the tightest curve on the steepest gradient."""
    track = setting.track
    return WaySpec(
        share=1.0,
        radius_m=track.min_curve_radius_m,
        gradient_percent=track.steepest_gradient_percent,
    )


def derived(setting: Setting) -> Setting:
    """The setting without the user's own factors."""
    wagon = unchecked(setting.wagon, {"load_unevenness": None, "shock_factor": None})
    return replace(setting, wagon=wagon, use=unchecked(setting.use, {"lateral_share": None}))


def lean_share(setting: Setting, piece: WaySpec) -> float:
    """What speed or cant in a curve, and a gradient, add to a wheel over its mean load: 2 h / s of
    the sideways force, n h x / sum x2 of the slope (2 h / L of two axles); h as the job says, or
    else the rails' spacing. No more than what is left when it tips, which other checks judge.

    On three points one axle alone keeps the wagon upright. Source: plain statics.
    """
    height = setting.wagon.centre_of_gravity_mm or setting.contact_spacing_mm
    sideways = 0.0
    if piece.radius_m is not None:
        sideways = outward_share(setting, piece.radius_m)
        if piece.radius_m == setting.track.min_curve_radius_m:  # it may stand there, too
            sideways = max(sideways, setting.track.cant_mm / setting.contact_spacing_mm)
    over, axles = 2 * height / setting.contact_spacing_mm * sideways, setting.wagon.axles
    most = 1.0  # a whole axle on one wheel: then it tips
    if setting.wagon.suspension == "three-point":
        over, most = over * axles, float(2 * axles - 1)
    places = axle_places_mm(setting)
    squares = sum(place**2 for place in places)
    along = 0.0
    if axles > 1:
        along = axles * height * max(places) / squares * piece.gradient_percent / 100
    return min(over, most) + min(along, axles - 1.0)


def rest_loads_n(setting: Setting, piece: WaySpec, mean_n: float) -> tuple[float, float]:
    """Greatest and least load of the same wheel as the twist goes one way and the other, N, of a
    wagon of that mean wheel load; the least never below 0."""
    if setting.wagon.load_unevenness is not None:
        moved = (setting.wagon.load_unevenness - 1) * mean_n
        return mean_n + moved, max(mean_n - moved, 0.0)
    even = (placing(setting) + lean_share(setting, piece)) * mean_n
    moved = twisted_load_n(setting, mean_n)
    return even + moved, max(even - moved, 0.0)


def rolling_load_n(setting: Setting, rest_n: float) -> float:
    """Load between joints at full speed, N; no more than the user's own `shock_factor`."""
    factor = rolling_factor(setting.wagon.max_speed_km_h, 2 * setting.wheel.tread_radius_mm)
    return rest_n * min(factor, setting.wagon.shock_factor or factor)


def struck_load_n(setting: Setting, rest_n: float, mean_n: float) -> float:
    """Load at a joint at full speed, N; never less than between joints."""
    if setting.wagon.shock_factor is not None:
        return rest_n * setting.wagon.shock_factor
    return max(rest_n + joint_load_n(setting, mean_n), rolling_load_n(setting, rest_n))


def heavy_load_n(setting: Setting) -> float:
    """Greatest load of a wheel at rest or rolling slowly, N: the tightest curve, loaded."""
    return rest_loads_n(setting, tightest(setting), setting.static_wheel_load_n)[0]


def load_unevenness(setting: Setting) -> float:
    """Heaviest over mean wheel load."""
    return heavy_load_n(setting) / setting.static_wheel_load_n


def wheel_load_n(setting: Setting) -> float:
    """Design wheel load, N: the heaviest wheel of the loaded wagon at a joint in the tightest
    curve."""
    return struck_load_n(setting, heavy_load_n(setting), setting.static_wheel_load_n)


def shock_factor(setting: Setting) -> float:
    """Design over heaviest wheel load."""
    return wheel_load_n(setting) / heavy_load_n(setting)


def frame_in_curve(setting: Setting, radius_m: float) -> Curving:
    """How the wagon lies in a curve, and its forces; the gauge is widened in the tightest alone."""
    wagon, track = setting.wagon, setting.track
    widening = track.gauge_widening_mm if radius_m == track.min_curve_radius_m else 0.0
    return curving(
        wagon.wheelbase_mm,
        wagon.axles,
        setting.contact_spacing_mm,
        travel_mm(setting, widening),
        1000 * radius_m,
        loose=setting.axle.wheels_on_axle == "loose",
    )


def curving_shares(setting: Setting, radius_m: float) -> tuple[float, float]:
    """What steady curving alone puts on the leading outer flange, and hands to the axle, over the
    mean wheel load, at the high friction."""
    found, friction = frame_in_curve(setting, radius_m), sliding_friction(setting, radius_m)
    return friction * found.push, friction * found.net


def sliding_friction(setting: Setting, radius_m: float) -> float:
    """The high friction as far as the treads slide: in easy curves they creep, with a part of it
    that goes with the yaw, all of it from `FULL_SLIDING` on.

    Source: creep of wheels, Kalker, full from some 3 to 5 mrad under light loads; from memory. One
    axle alone may slide at any yaw.
    """
    yaw = frame_in_curve(setting, radius_m).attack
    share = min(yaw / FULL_SLIDING, 1.0) if setting.wagon.axles > 1 else 1.0
    return setting.use.friction_high * share


def push_shares(setting: Setting, radius_m: float) -> tuple[float, float]:
    """On the leading outer wheel over the mean wheel load, at the high friction and full speed:
    the push on its flange, and what of it the wheel hands to its axle.

    The sideways force of speed is the whole axle's, on this one flange.
    """
    outward = 2 * outward_share(setting, radius_m)
    if setting.use.lateral_share is not None:
        return setting.use.lateral_share + outward, setting.use.lateral_share + outward
    push, net = curving_shares(setting, radius_m)
    return push + outward, net + outward


def flange_push_n(setting: Setting) -> float:
    """Push on the leading outer flange in the tightest curve, loaded, N."""
    share, _ = push_shares(setting, setting.track.min_curve_radius_m)
    return share * setting.static_wheel_load_n


def side_force_n(setting: Setting) -> float:
    """What the leading outer wheel hands to its axle in the tightest curve, loaded, N: the push
    on its flange less the friction of its tread, which acts the other way."""
    _, share = push_shares(setting, setting.track.min_curve_radius_m)
    return share * setting.static_wheel_load_n
