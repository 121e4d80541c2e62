"""Play between flanges and rails: enough to run freely, not so much that a tread drops in."""

from __future__ import annotations

import math

from platewheel.parts.base.plates import bar_width_from
from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.curve import curve_room
from platewheel.parts.checks.running.flange_contact import flange_wear
from platewheel.parts.checks.trying import still_pass
from platewheel.parts.loads.travel import corner_ride_mm, travel_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.usual_clearance import LEAST_PLAY_MM, least_play_mm
from platewheel.parts.setting.wear import flange_wear_mm

MOST_SHARE, MOST_MM = 41 / 600, 41.0  # of the gauge, mm; KBO 1912, paragraphs 9 and 31
LEAST_BEARING_SHARE = 0.5  # of the rail head


def wheel_gauge_mm(back_to_back_mm: float, flange_mm: float) -> float:
    """Over the rail-side faces of both flanges. Source: 7.5 in wheel standard, its own sum."""
    return back_to_back_mm + 2 * flange_mm


def free_play_mm(gauge_mm: float, back_to_back_mm: float, flange_mm: float) -> float:
    """Total play of an axle between the rails. Source: plain geometry."""
    return gauge_mm - wheel_gauge_mm(back_to_back_mm, flange_mm)


def bearing_width_mm(setting: Setting) -> float:
    """Rail head still under the tread when the other wheel's worn flange is hard over on its
    rail, where the widened gauge is widest and the wheels are nearest together; below 0 the wheel
    has dropped between the rails.

    From the tread's gauge edge to the rail is: play + widening + both tolerances + ride of the
    other flange on its corner + its wear. What is left of the tread lies on the head, at most all
    of the head. Source: plain geometry.
    """
    one_ride = corner_ride_mm(setting.track.rail_corner_radius_mm, setting.wheel.flange_angle)
    off_rail = setting.play_mm + setting.track.gauge_widening_mm + setting.loose_mm + one_ride
    off_rail += flange_wear_mm(setting)
    return min(setting.wheel.tread_width_mm - off_rail, setting.track.rail_head_width_mm)


def least_play(setting: Setting) -> CheckResult:
    """Play of new wheels where the gauge is tightest; a worn wheel has more, never less."""
    play, limit = setting.play_mm - setting.tight_mm, least_play_mm(setting.track.gauge_mm)
    binds = play <= 1e-6  # nothing but rounding
    return judged(
        "play-least",
        "Play in the tightest gauge, new wheels",
        play,
        limit,
        "mm",
        f"common practice, no source: {LEAST_PLAY_MM:g} mm left in the tightest place; small "
        "gauges in proportion to the IBLS wheel standard, 7 1/4 in (184.15 less 182.63 over the "
        "flanges)",
        at_most=False,
        good=f"set {setting.back_to_back_mm:.1f} mm back to back, the axle runs freely where the "
        f"gauge is {setting.track.least_gauge_mm:g}, too; nominal play is {setting.play_mm:.1f}",
        bad=(
            "the axle binds where the gauge is tightest"
            if binds
            else "a little more tight gauge binds the axle"
        )
        + f"; set the wheels {at_least(limit - play)} mm closer: axle.back_to_back_mm = "
        f"{math.floor(10 * (setting.back_to_back_mm - limit + play)) / 10:g}",
        bad_verdict="fail" if binds else "warn",
    )


def may_be_apart(setting: Setting, further_mm: float) -> bool:
    """Whether the wheels, set so much further apart, still run freely on straight and curve."""
    back = setting.back_to_back_mm + further_mm
    return still_pass(setting, {"axle.back_to_back_mm": back}, least_play, curve_room)


def may_be_narrower(setting: Setting, less_mm: float) -> bool:
    """Whether so much gauge widening can be taken away."""
    left = setting.track.gauge_widening_mm - less_mm
    return left >= 0 and still_pass(setting, {"track.gauge_widening_mm": left}, curve_room)


def most_play(setting: Setting) -> CheckResult:
    """Play in the widened gauge at its widest with worn flanges."""
    most = travel_mm(setting) + setting.loose_mm + 2 * flange_wear_mm(setting)
    limit = min(MOST_SHARE * setting.track.gauge_mm, MOST_MM)
    over = most - limit
    much = at_least(over)
    scrapped = math.floor(10 * (flange_wear_mm(setting) - over / 2)) / 10
    narrower = setting.track.gauge_widening_mm - over
    cures = []
    if over > 0 and may_be_narrower(setting, float(much)):
        cures.append(f"track.gauge_widening_mm = {at_most(narrower)}")
    if over > 0 and may_be_apart(setting, float(much)):
        cures.append(f"axle.back_to_back_mm = {at_least(setting.back_to_back_mm + over)}")
    if scrapped > 0 and still_pass(setting, {"use.flange_wear_mm": scrapped}, flange_wear):
        cures.append(f"scrap flanges sooner, use.flange_wear_mm = {scrapped:g}")
    together = f"less of widening, play and wear together, {much} mm in all, or a truer gauge"
    return judged(
        "play-most",
        "Play in the widest gauge, worn flanges",
        most,
        limit,
        "mm",
        "KBO 1912, paragraphs 9 and 31: 618 mm of widened gauge less 537 back to back and two "
        "flanges worn to 20 are 41 mm on 600 mm gauge; in proportion below, no more above by "
        "judgement (1000 mm gauge had 53)",
        at_most=True,
        good="the wagon does not hunt far from side to side",
        bad=f"the wagon slews and hammers its flanges; {', or '.join(cures) or together}",
        bad_verdict="warn",
    )


def wider_tread(setting: Setting, by_mm: float) -> str:
    """Keys that make the tread so much wider; the hub tube grows with it where it would otherwise
    be refused as too short."""
    wheel = setting.wheel
    width = at_least(wheel.tread_width_mm + by_mm)
    if wheel.tread_from == "bar":  # one is not planed to 60.3
        width = f"{bar_width_from(float(width), wheel.tread_width_mm):g}"
    told = f"wheel.tread_width_mm = {width}"
    wide = {"wheel.tread_width_mm": float(width)}
    if still_pass(setting, wide) or not wheel.has_tube:
        return told
    longer = wheel.hub_tube_length_mm + float(width) - wheel.tread_width_mm
    return f"{told} and wheel.hub_tube_length_mm = {at_least(longer)}"


def tread_bearing(setting: Setting) -> CheckResult:
    """Rail head under the tread of the wheel that is furthest off its rail."""
    track, bearing = setting.track, bearing_width_mm(setting)
    limit = LEAST_BEARING_SHARE * track.rail_head_width_mm
    hangs_on_edge = bearing <= track.rail_corner_radius_mm
    lacks = at_least(limit - bearing)
    ways = {"play": may_be_apart, "widening": may_be_narrower}
    less = [name for name, may in ways.items() if bearing < limit and may(setting, float(lacks))]
    other = f", or take away as much {' or '.join(less)}" if less else ""
    return judged(
        "tread-bearing",
        "Rail head under the tread, other flange hard over",
        bearing,
        limit,
        "mm",
        "geometry of this wheel and track at its widest, flanges worn as deep as the treads; "
        "least of half the head by common practice, no source: the crown of a rounded head is "
        "then still covered",
        at_most=False,
        good="the far wheel stays well on its rail",
        bad=("the wheel drops between the rails" if hangs_on_edge else "the wheel runs on its edge")
        + f": {wider_tread(setting, limit - bearing)}, at least {lacks} mm wider{other}",
        bad_verdict="fail" if hangs_on_edge else "warn",
    )


CHECKS = (least_play, most_play, tread_bearing)
