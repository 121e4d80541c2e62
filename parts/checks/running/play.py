"""Play between flanges and rails: enough to run freely, not so much that a tread drops in."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.loads.travel import corner_ride_mm, travel_mm
from platewheel.parts.setting.setting import Setting

USUAL_LEAST_MM = 4.0
SMALL_GAUGE_SHARE = 0.063 / 7.5  # play over gauge of new wheels in the 7.5 in wheel standard
MOST_MM = 25.0
LEAST_BEARING_SHARE = 0.5  # of the rail head


def wheel_gauge_mm(back_to_back_mm: float, flange_mm: float) -> float:
    """Over the rail-side faces of both flanges. Source: 7.5 in wheel standard, its own sum."""
    return back_to_back_mm + 2 * flange_mm


def free_play_mm(gauge_mm: float, back_to_back_mm: float, flange_mm: float) -> float:
    """Total play of an axle between the rails. Source: plain geometry."""
    return gauge_mm - wheel_gauge_mm(back_to_back_mm, flange_mm)


def flange_wear_mm(setting: Setting) -> float:
    """Lateral wear of one flange, its face taken to wear as deep as the tread is allowed to."""
    return setting.use.wear_allowance_mm / math.sin(setting.wheel.flange_angle)


def bearing_width_mm(setting: Setting) -> float:
    """Rail head still under the tread when the other wheel's worn flange is hard over on its
    rail, in the widened gauge; below 0 the wheel has dropped between the rails.

    From the tread's gauge edge to the rail is: play + widening + ride of the other flange on
    its corner + its wear. What is left of the tread lies on the head, at most all of the head.
    Source: plain geometry.
    """
    one_ride = corner_ride_mm(setting.track.rail_corner_radius_mm, setting.wheel.flange_angle)
    off_rail = setting.play_mm + setting.track.gauge_widening_mm + one_ride
    off_rail += flange_wear_mm(setting)
    return min(setting.wheel.tread_width_mm - off_rail, setting.track.rail_head_width_mm)


def least_play(setting: Setting) -> CheckResult:
    """Play of new wheels in the nominal gauge; a worn wheel has more, never less."""
    play, gauge = setting.play_mm, setting.track.gauge_mm
    limit = min(USUAL_LEAST_MM, SMALL_GAUGE_SHARE * gauge)
    binds = play <= 1e-6  # nothing but rounding
    return judged(
        "play-least",
        "Play in the nominal gauge, new wheels",
        play,
        limit,
        "mm",
        "common practice, no source: about 4 mm; small gauges in proportion to the 7.5 in wheel "
        "standard (0.063 in)",
        at_most=False,
        good=f"set {setting.back_to_back_mm:.1f} mm back to back, the axle runs freely",
        bad=("the axle binds" if binds else "a little tight gauge binds the axle")
        + f"; set the wheels {at_least(limit - play)} mm closer, back_to_back_mm = "
        f"{math.floor(10 * (setting.back_to_back_mm - limit + play)) / 10:g}",
        bad_verdict="fail" if binds else "warn",
    )


def most_play(setting: Setting) -> CheckResult:
    """Play in the widened gauge with worn flanges."""
    most = travel_mm(setting) + 2 * flange_wear_mm(setting)
    much = at_least(most - MOST_MM)
    widened = most - MOST_MM < setting.track.gauge_widening_mm - 0.1
    narrower = f"take away {much} mm of gauge widening, or " if widened else ""
    return judged(
        "play-most",
        "Play in the widened gauge, worn flanges",
        most,
        MOST_MM,
        "mm",
        "Saxon state railway rules of 1878: 10 to 25 mm in all, on standard gauge; used as the "
        "most on any gauge by judgement",
        at_most=True,
        good="the wagon does not hunt far from side to side",
        bad=f"the wagon slews and hammers its flanges; {narrower}set the wheels {much} mm further "
        "apart",
        bad_verdict="warn",
    )


def tread_bearing(setting: Setting) -> CheckResult:
    """Rail head under the tread of the wheel that is furthest off its rail."""
    track, bearing = setting.track, bearing_width_mm(setting)
    limit = LEAST_BEARING_SHARE * track.rail_head_width_mm
    hangs_on_edge = bearing <= track.rail_corner_radius_mm
    return judged(
        "tread-bearing",
        "Rail head under the tread, other flange hard over",
        bearing,
        limit,
        "mm",
        "geometry of this wheel and track, flanges worn as deep as the treads; least of half the "
        "head by common practice, no source: the crown of a rounded head is then still covered",
        at_most=False,
        good="the far wheel stays well on its rail",
        bad=("the wheel drops between the rails" if hangs_on_edge else "the wheel runs on its edge")
        + f"; make the tread {at_least(limit - bearing)} mm wider, or take away as much play",
        bad_verdict="fail" if hangs_on_edge else "warn",
    )


CHECKS = (least_play, most_play, tread_bearing)
