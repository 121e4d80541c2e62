"""Check rails and crossings: does the flange fit, and do the backs and the nose clear?

Symbols of track standards: G gauge, B back to back, T flange from root to back, K = B + T,
F flangeway (c check rail, x crossing), C = G - Fc check gauge, S = C - Fx span.
"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.curve import fits_curve
from platewheel.parts.checks.trying import keys_told, still_pass
from platewheel.parts.setting.setting import Setting

GENERAL = "relations of NMRA S-1 and S-3.2 and NEM 110, as in the 7.5 in wheel standard"


def wheel_check_mm(back_to_back_mm: float, flange_mm: float) -> float:
    """Back of one flange to the rail-side face of the other: back-to-back + flange.

    Source: 7.5 in wheel standard, its own sum.
    """
    return back_to_back_mm + flange_mm


def check_span_mm(gauge_mm: float, check_rail_mm: float, crossing_mm: float) -> float:
    """Face of a check rail to the face of the wing rail beside the nose opposite, which both
    flanges pass outside of: gauge less both flangeways. Source: NMRA S-3.2 (2010), S = C - Fx.
    """
    return gauge_mm - check_rail_mm - crossing_mm


def check_gauge_mm(gauge_mm: float, flangeway_mm: float) -> float:
    """Face of a check rail to the running edge opposite: gauge - flangeway. Plain geometry."""
    return gauge_mm - flangeway_mm


def check_rail_mm(setting: Setting) -> float:
    """Flangeway at check rails; that of crossings where they have none of their own."""
    return setting.track.check_rail_flangeway_mm or setting.flangeway_mm


def least_back_mm(setting: Setting) -> float:
    """Back to back of the wheels that are nearest together."""
    return setting.back_to_back_mm + setting.back_to_back_off_mm[0]


def most_wheel_check_mm(setting: Setting) -> float:
    """`wheel_check_mm` of new wheels that are furthest apart."""
    most = setting.back_to_back_mm + setting.back_to_back_off_mm[1]
    return wheel_check_mm(most, setting.flange_reach_mm)


def span_yaw(back_mm: float, span_mm: float, half_chord_mm: float) -> float:
    """Most yaw, radians, with which both backs still pass outside a span: B cos(y) - 2 c sin(y) =
    S, as one back comes in at its front and the other at its rear, half the chord c below the rail
    top before and behind the axle. Below 0 where they do not pass unyawed. Source: plain geometry.
    """
    both = 2 * half_chord_mm
    share = min(span_mm / math.hypot(back_mm, both), 1.0)
    return math.acos(share) - math.atan2(both, back_mm)


def tightest_crossing_m(setting: Setting) -> float:
    """Least radius of a curve in which a crossing may lie: backs nearest together, the widest
    gauge, the yaw asin(L / 2R) of the wheelbase; inf where they do not pass unyawed."""
    wheel = setting.wheel
    span = check_span_mm(setting.track.most_gauge_mm, check_rail_mm(setting), setting.flangeway_mm)
    worn = wheel.tread_radius_mm - setting.use.wear_allowance_mm
    tip = wheel.tread_radius_mm + wheel.flange_depth_mm
    yaw = span_yaw(least_back_mm(setting), span, math.sqrt(tip**2 - worn**2))
    if yaw <= 1e-9:
        return math.inf
    return setting.wagon.wheelbase_mm / 2000 / math.sin(min(yaw, math.pi / 2))


def check_span(setting: Setting) -> CheckResult:
    """A check rail and the wing rail opposite must pass between the backs of the flanges, in the
    widest gauge."""
    track, back, way = setting.track, least_back_mm(setting), check_rail_mm(setting)
    span = check_span_mm(track.most_gauge_mm, way, setting.flangeway_mm)
    lacks = span - back
    radius = tightest_crossing_m(setting)
    yawed = "in every curve of the line"
    if math.isinf(radius):
        yawed = "on straight track alone: lay crossings in no curve"
    elif radius > track.min_curve_radius_m:
        yawed = f"in curves from {at_least(radius)} m: lay crossings in no tighter one"
    guarded = track.check_rail_flangeway_mm is not None
    share = lacks if guarded else lacks / 2  # without a check rail's own, one key has both
    cures = f"track.flangeway_mm = {math.ceil(10 * (setting.flangeway_mm + share)) / 10:g} or more"
    if guarded:
        wider = math.ceil(10 * (way + lacks)) / 10
        cures = f"track.check_rail_flangeway_mm = {wider:g} or more, or {cures}"
    return judged(
        "check-span",
        "Back to back, over check rail and wing rail",
        back,
        span,
        "mm",
        f"{GENERAL}: B least at least S = G - Fc - Fx where the gauge is widest",
        at_most=False,
        good=f"both wheels pass outside the check rail and the wing rail opposite, {yawed}",
        bad=f"the wheels climb check rail and wing rail: {cures}, or wheels wider apart",
    )


def _nearer(setting: Setting, leaves_mm: float, needs_mm: float) -> str:
    """Wheels so near together that a check rail's flangeway takes the flange, where that does."""
    way = math.ceil(10 * needs_mm) / 10
    back = math.floor(10 * (setting.back_to_back_mm - (way - leaves_mm))) / 10
    keys = {"axle.back_to_back_mm": back, "track.check_rail_flangeway_mm": way}
    does = back > 0 and still_pass(setting, keys, check_gauge)
    return f"{keys_told(keys)}, or " if does else "no axle.back_to_back_mm does; "


def check_gauge(setting: Setting) -> CheckResult | None:
    """A check rail must hold the flange opposite off the crossing nose; new flanges, wheels
    furthest apart and the tightest gauge are worst. One that does not hold new wheels as they are
    set off it in the nominal gauge is no check rail: every wheelset can strike the nose.

    None on a track without guarded crossings (`check_rail_flangeway_mm` absent).
    """
    track = setting.track
    if track.check_rail_flangeway_mm is None:
        return None
    wheel = most_wheel_check_mm(setting)
    most = track.least_gauge_mm - wheel
    new = wheel_check_mm(setting.back_to_back_mm, setting.flange_reach_mm)
    strikes = new - check_gauge_mm(track.gauge_mm, track.check_rail_flangeway_mm)
    never = strikes > 1e-6  # nothing but rounding
    needs = setting.flange_in_way_mm(track.min_curve_radius_m)
    cure = f"track.check_rail_flangeway_mm = {math.floor(10 * most) / 10:g}, not "
    cure += f"{track.check_rail_flangeway_mm:g}"
    if most < needs:
        cure = (
            f"none fits, as the yawed flange needs {math.ceil(10 * needs) / 10:g} mm and the nose "
            f"leaves {max(math.floor(10 * most) / 10, 0):g}: {_nearer(setting, most, needs)}"
            "a truer gauge, points in an easier curve"
        )
    return judged(
        "check-gauge",
        "Back of one flange to face of the other, at a check rail",
        wheel,
        check_gauge_mm(track.least_gauge_mm, track.check_rail_flangeway_mm),
        "mm",
        f"{GENERAL}: K most at most C = G - Fc where the gauge is tightest",
        at_most=True,
        good="a check rail holds the flange off the nose of a crossing",
        bad=(
            "a check rail this far off guards no crossing nose, it holds flanges "
            f"{at_least(strikes)} mm past its running edge: {cure}"
            if never
            else "where the gauge is tightest and wheels are widest apart the nose is not guarded: "
            + cure
        ),
        bad_verdict="fail" if never else "warn",
    )


def flangeway_width(setting: Setting) -> CheckResult | None:
    """Width that the flange takes in the narrowest flangeway, in the tightest curve."""
    if not fits_curve(setting):
        return None  # told by the curve's own check
    track = setting.track
    width = setting.flange_in_way_mm(track.min_curve_radius_m)
    ways = {"flangeway_mm": setting.flangeway_mm}
    if track.check_rail_flangeway_mm is not None:
        ways["check_rail_flangeway_mm"] = track.check_rail_flangeway_mm
    narrow = min(ways.values())
    wide = f"{math.ceil(10 * width) / 10:g}"
    cures = " and ".join(f"track.{key} = {wide}" for key, way in ways.items() if way < width)
    return judged(
        "flangeway-width",
        "Width of the flange in a flangeway, yawed",
        width,
        narrow,
        "mm",
        "plain geometry: root to inmost point, and yaw of the wheelbase over the flange's reach",
        at_most=True,
        good="the flange passes between rail and check rail, and beside the nose",
        bad=f"the flange jams: {cures} or more",
    )


def flangeway_depth(setting: Setting) -> CheckResult:
    """Flange tip over the bottom of the flangeway, tread worn by its allowance."""
    worn = setting.wheel.flange_depth_mm + setting.use.wear_allowance_mm
    depth = setting.track.flangeway_depth_mm
    id, title = "flangeway-depth", "Depth of the flange, tread worn"
    source = "plain geometry: flange depth + wear allowance"
    if depth is None:
        says = "not known: give track.flangeway_depth_mm, rail top to whatever lies below"
        return CheckResult(id, title, None, None, "mm", "not-assessed", says, source)
    return judged(
        id,
        title,
        worn,
        depth,
        "mm",
        source,
        at_most=True,
        good="the tip clears the bottom of the flangeway, also when worn",
        bad=f"the tip runs on the bottom: dig it out, track.flangeway_depth_mm = "
        f"{at_least(worn)}, or scrap wheels sooner",
    )


CHECKS = (check_span, check_gauge, flangeway_width, flangeway_depth)
