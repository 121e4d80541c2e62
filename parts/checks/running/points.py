"""Points and crossings: is a wheel carried past the nose, and does its back clear the tongue?"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.crossings import (
    check_span,
    flangeway_width,
    least_back_mm,
    most_wheel_check_mm,
    wheel_check_mm,
)
from platewheel.parts.checks.running.play import (
    LEAST_BEARING_SHARE,
    may_be_apart,
    may_be_narrower,
    wider_tread,
)
from platewheel.parts.checks.trying import still_pass
from platewheel.parts.loads.travel import corner_ride_mm, travel_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import flange_wear_mm, worn_flange_mm

OPEN = (
    "EN 13232-9, open tongue: what lets a free back pass, most gauge less least back and flange; "
    "yawed by plain geometry, asin(L / 2R) + play / L over half the flange's chord"
)


def least_wheel_check_mm(setting: Setting) -> float:
    """Back of one flange to the face of the other, worn, of wheels that are nearest together."""
    return wheel_check_mm(least_back_mm(setting), worn_flange_mm(setting))


def off_nose_mm(setting: Setting) -> float:
    """How far the root of a flange may be from the running edge of the nose: the other, worn
    flange hard over on its rail in the widest gauge. A check rail there holds the axle the other
    way alone. Source: plain geometry."""
    track = setting.track
    free = setting.play_mm + track.gauge_widening_mm + setting.loose_mm + flange_wear_mm(setting)
    free += corner_ride_mm(track.rail_corner_radius_mm, setting.wheel.flange_angle)
    return max(free, 0.0)


def gap_length_mm(setting: Setting) -> float | None:
    """Length along the track on which nothing guides or carries a wheel at the nose: flangeway and
    blunt nose times the crossing's number; None where that is not known. Plain geometry."""
    track = setting.track
    if track.crossing_1_in is None:
        return None
    return (setting.flangeway_mm + track.nose_mm) * track.crossing_1_in


def check_flangeway_mm(setting: Setting) -> tuple[float, float]:
    """Least and most flangeway of a check rail: what the yawed flange needs, and what still guards
    the nose where the gauge is tightest and new wheels are widest apart, G - K."""
    most = setting.track.least_gauge_mm - most_wheel_check_mm(setting)
    return setting.flange_in_way_mm(setting.track.min_curve_radius_m), most


def crossing_flangeway_mm(setting: Setting) -> tuple[float, float]:
    """Least and most flangeway beside a nose: what the yawed flange needs, and check rail and wing
    rail within the backs of wheels nearest together in the widest gauge, G - Fc - B, the check rail
    as near as the flange lets it, so that the least of both go together; what still
    carries a tread on half a head past the nose."""
    track = setting.track
    flange = setting.flange_in_way_mm(track.min_curve_radius_m)
    # without a check rail's own, one key has both flangeways; else as near as the flange lets it
    backs = track.most_gauge_mm - least_back_mm(setting)
    backs = backs / 2 if track.check_rail_flangeway_mm is None else backs - flange
    half = LEAST_BEARING_SHARE * track.rail_head_width_mm
    most = setting.wheel.tread_width_mm - off_nose_mm(setting) - track.nose_mm - half
    return max(flange, backs), most


def crossing_gap(setting: Setting) -> CheckResult:
    """Tread that still lies on the wing rail when the wheel reaches the nose.

    There the wing rail's edge is a flangeway and the width of the nose away from the running edge;
    the tread starts short of that edge by what the flange's root is off the nose.
    """
    wheel, track = setting.wheel, setting.track
    off = off_nose_mm(setting)
    left = wheel.tread_width_mm - off - setting.flangeway_mm - track.nose_mm
    limit = LEAST_BEARING_SHARE * track.rail_head_width_mm
    lacks = at_least(limit - left)
    less = _less_of(setting, float(lacks)) if left < limit else []
    other = f", or {' or '.join(less)} as much less" if less else ", as nothing else can give it"
    length = gap_length_mm(setting)
    told = "" if length is None else f", {length:.0f} mm long"
    return judged(
        "crossing-gap",
        "Tread on the wing rail at the crossing nose",
        left,
        limit,
        "mm",
        "plain geometry: tread - distance from the nose - flangeway - nose, widened, worn and at "
        "the widest; least of half a rail head by common practice, no source",
        at_most=False,
        good=f"the tread carries the wheel over the gap{told}",
        bad=f"the wheel drops into the gap of the crossing{told}: "
        f"{wider_tread(setting, limit - left)}, at least {lacks} mm wider{other}",
        bad_verdict="warn",
    )


def _less_of(setting: Setting, mm: float) -> list[str]:
    """What may be so much less for a tread to lie on the wing rail, and lets the flange through."""
    track, found = setting.track, []
    narrow = {"track.flangeway_mm": setting.flangeway_mm - mm}
    if still_pass(setting, narrow, check_span, flangeway_width):
        found.append("flangeway")
    if setting.play_mm >= mm and may_be_apart(setting, mm):
        found.append("play")
    if may_be_narrower(setting, mm):
        found.append("widening")
    if track.nose_mm >= mm:
        found.append("width of the nose")
    return found


def points_yaw(setting: Setting, travel_mm: float) -> float:
    """Yaw of an axle in points, radians: asin(L / 2R) of the wheelbase in the tightest curve, none
    where it does not fit, and the skew travel / L until leading and trailing flange bear on either
    rail, as `axle_yaw`. A flangeway turns the skew back; a tongue must not be touched at all."""
    length = setting.wagon.wheelbase_mm
    chord = length / (2000 * setting.track.min_curve_radius_m)
    square = math.asin(chord) if chord < 1 else 0.0
    return square + math.atan(max(travel_mm, 0.0) / length)


def yawed_back_mm(wheel_check_mm: float, reach_mm: float, yaw: float) -> float:
    """How much further towards the tongue the back of the free flange reaches than unyawed, the
    other flange on its rail: c sin(yaw), half the chord c below the rail top, and K (1 - cos(yaw)),
    as the axle is shorter across the track. Safe: the other flange rides off by its own chord.
    Source: plain geometry, a corner turned about the root opposite."""
    return reach_mm * math.sin(yaw) + wheel_check_mm * (1 - math.cos(yaw))


def open_way_mm(setting: Setting, *, worst: bool = True) -> float:
    """Gap that the back of a free flange needs between a tongue and its stock rail: gauge less
    back-to-back and flange, and the yaw of the axle; widest, widened and worn, the other flange
    riding on its rail's corner, or nominal and new."""
    track, wheel = setting.track, setting.wheel
    outer, inner = wheel.tread_radius_mm + wheel.flange_depth_mm, wheel.tread_radius_mm
    if worst:
        gauge, check = track.most_gauge_mm, least_wheel_check_mm(setting)
        ride = corner_ride_mm(track.rail_corner_radius_mm, wheel.flange_angle)
        travel = travel_mm(setting) + setting.loose_mm + 2 * flange_wear_mm(setting)
        inner -= setting.use.wear_allowance_mm
    else:
        gauge, ride, travel = track.gauge_mm, 0.0, setting.play_mm
        check = wheel_check_mm(setting.back_to_back_mm, setting.flange_reach_mm)
    half_chord = math.sqrt(outer**2 - inner**2)
    back = yawed_back_mm(check, half_chord, points_yaw(setting, travel))
    return gauge - check + ride + back


def _open_way(setting: Setting, id: str, title: str, key: str, gap_mm: float) -> CheckResult:
    need, new = open_way_mm(setting), open_way_mm(setting, worst=False)
    return judged(
        id,
        title,
        gap_mm,
        need,
        "mm",
        OPEN,
        at_most=False,
        good=f"the back of the free, yawed flange passes; new wheels in the nominal gauge need "
        f"{new:.1f}",
        bad="backs of flanges push the tongue, which may part the points under a wagon: "
        f"track.{key} = {math.ceil(10 * need) / 10:g} or more; new wheels in the nominal gauge "
        f"need {new:.1f}",
        bad_verdict="fail" if gap_mm < new else "warn",
    )


def switch_opening(setting: Setting) -> CheckResult | None:
    """Open tongue at the toe; None where no points are told of."""
    gap = setting.track.switch_opening_mm
    if gap is None:
        return None
    title = "Open tongue to its stock rail, at the toe"
    return _open_way(setting, "switch-opening", title, "switch_opening_mm", gap)


def heel_gap(setting: Setting) -> CheckResult | None:
    """Tongue at its heel; None where no points are told of."""
    gap = setting.track.heel_gap_mm
    if gap is None:
        return None
    return _open_way(
        setting, "heel-gap", "Tongue to its stock rail, at the heel", "heel_gap_mm", gap
    )


CHECKS = (crossing_gap, switch_opening, heel_gap)
