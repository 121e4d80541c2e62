"""Check rails and crossings: does the flange fit, and do the backs and the nose clear?"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.curve import fits_curve, radial_error, rail_top_reach_mm
from platewheel.parts.checks.running.play import LEAST_BEARING_SHARE
from platewheel.parts.setting.setting import Setting

GENERAL = "general relations of wheel and track standards, as in the 7.5 in wheel standard"


def wheel_check_mm(back_to_back_mm: float, flange_mm: float) -> float:
    """Back of one flange to the rail-side face of the other: back-to-back + flange.

    Source: 7.5 in wheel standard, its own sum.
    """
    return back_to_back_mm + flange_mm


def check_span_mm(gauge_mm: float, flangeway_mm: float) -> float:
    """Over the faces of two check rails that both flanges pass outside of: gauge - 2 flangeways.

    Source: plain geometry.
    """
    return gauge_mm - 2 * flangeway_mm


def check_gauge_mm(gauge_mm: float, flangeway_mm: float) -> float:
    """Face of a check rail to the running edge opposite: gauge - flangeway. Plain geometry."""
    return gauge_mm - flangeway_mm


def check_span(setting: Setting) -> CheckResult:
    """Two check rails (or wing rails) must pass between the backs of the flanges."""
    track = setting.track
    way = track.check_rail_flangeway_mm or track.flangeway_mm
    key = "check_rail_flangeway_mm" if track.check_rail_flangeway_mm else "flangeway_mm"
    back = setting.back_to_back_mm
    return judged(
        "check-span",
        "Back to back, over two check rails",
        back,
        check_span_mm(track.gauge_mm, way),
        "mm",
        f"{GENERAL}: span over check rails below back-to-back",
        at_most=False,
        good="the wheels pass outside two check rails, or two wing rails",
        bad=f"the wheels climb the check rails: {key} = "
        f"{math.ceil(5 * (track.gauge_mm - back)) / 10:g} or more, or wheels wider apart",
    )


def check_gauge(setting: Setting) -> CheckResult | None:
    """A check rail must hold the flange opposite off the crossing nose; new flanges are worst.

    None on a track without guarded crossings (`check_rail_flangeway_mm` absent).
    """
    track = setting.track
    if track.check_rail_flangeway_mm is None:
        return None
    wheel = wheel_check_mm(setting.back_to_back_mm, setting.flange_reach_mm)
    most = track.gauge_mm - wheel
    return judged(
        "check-gauge",
        "Back of one flange to face of the other, at a check rail",
        wheel,
        check_gauge_mm(track.gauge_mm, track.check_rail_flangeway_mm),
        "mm",
        f"{GENERAL}: back-to-back + flange at most gauge - flangeway",
        at_most=True,
        good="a check rail holds the flange off the nose of a crossing",
        bad="a check rail this far off guards no crossing nose: put it "
        f"{math.floor(10 * most) / 10:g} mm off the rail, not {track.check_rail_flangeway_mm:g}",
        bad_verdict="warn",
    )


def flangeway_width(setting: Setting) -> CheckResult | None:
    """Width that the flange takes in a flangeway in the tightest curve, at rail-top level.

    From root to inmost point, and the yaw over the reach before and behind the axle (safe: the
    flare takes some of it back).
    """
    if not fits_curve(setting):
        return None  # told by the curve's own check
    wheel, track = setting.wheel, setting.track
    yaw = radial_error(setting.wagon.wheelbase_mm, 1000 * track.min_curve_radius_m)
    reach = rail_top_reach_mm(wheel.tread_radius_mm, wheel.flange_depth_mm)
    width = setting.flange_reach_mm + 2 * reach * math.tan(yaw)
    return judged(
        "flangeway-width",
        "Width of the flange in a flangeway, yawed",
        width,
        track.flangeway_mm,
        "mm",
        "plain geometry: root to inmost point, and yaw of the wheelbase over the flange's reach",
        at_most=True,
        good="the flange passes between rail and check rail",
        bad=f"the flange jams: flangeway_mm = {math.ceil(10 * width) / 10:g} or more",
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
        bad=f"the tip runs on the bottom: dig it {at_least(worn - depth)} mm deeper, or scrap "
        "wheels sooner",
    )


def crossing_gap(setting: Setting) -> CheckResult:
    """Tread that still lies on the wing rail when the wheel reaches the point of the nose.

    There the wing rail is a flangeway away from the running edge; the tread starts up to the
    play short of that edge.
    """
    wheel, track = setting.wheel, setting.track
    play = max(setting.play_mm, 0.0)
    left = wheel.tread_width_mm - play - track.flangeway_mm
    limit = LEAST_BEARING_SHARE * track.rail_head_width_mm
    less = [
        name
        for name, there in (("flangeway", track.flangeway_mm), ("play", play))
        if there > limit - left
    ]
    other = f", or {' or '.join(less)} as much less" if less else ""
    return judged(
        "crossing-gap",
        "Tread on the wing rail at the crossing nose",
        left,
        limit,
        "mm",
        "plain geometry: tread - play - flangeway; least of half a rail head by common practice, "
        "no source",
        at_most=False,
        good="the tread carries the wheel over the gap",
        bad=f"the wheel drops into the crossing: tread {at_least(limit - left)} mm wider{other}",
        bad_verdict="warn",
    )


CHECKS = (check_span, check_gauge, flangeway_width, flangeway_depth, crossing_gap)
