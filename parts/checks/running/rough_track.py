"""Rough track: wheels lifted by twist, rail joints to climb, gaps to drop in, flange depth."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import tried
from platewheel.parts.loads.over_joint import climb_angle, gap_drop_mm
from platewheel.parts.setting.setting import Setting

DEPTH_LEFT_SHARE = 0.5
MOST_DROP_MM = 1.0
# gauge mm -> least flange depth of new wheels, mm
LEAST_DEPTH_MM = ((7.5 * 25.4, 0.187 * 25.4), (1435.0, 25.0))


def twist_lift_mm(twist_mm_per_m: float, wheelbase_mm: float) -> float:
    """Gap under the fourth wheel of a rigid wagon on twisted track: twist x wheelbase.

    Three wheels define a plane; on it the fourth misses its rail by the whole change of
    cross-level between the axles. Source: plain geometry.
    """
    return twist_mm_per_m * wheelbase_mm / 1000


def climbed_step_mm(load_n: float, radius_mm: float, force_n: float) -> float:
    """Step that a push climbs, the other way round: r (1 - cos(atan(F / W)))."""
    return radius_mm * (1 - math.cos(math.atan(force_n / load_n)))


def twist_lift(setting: Setting) -> CheckResult | None:
    """Flange depth left at the wheel that the track's twist lifts; none with one axle.

    Rigid: the whole lift. Three-point: each axle follows its rails, no lift. Sprung: no lift
    while the springs under the empty wagon sink by a quarter of the twist, w / 4 at each wheel,
    which the sentence says, as the springs are not known here.
    """
    wagon, wheel, track = setting.wagon, setting.wheel, setting.track
    if wagon.axles < 2:
        return None
    twist = twist_lift_mm(track.twist_mm_per_m, wagon.wheelbase_mm)
    lift = twist if wagon.suspension == "rigid" else 0.0
    left = wheel.flange_depth_mm - lift
    limit = max(DEPTH_LEFT_SHARE * wheel.flange_depth_mm, track.rail_corner_radius_mm)
    good = {
        "rigid": f"the fourth wheel lifts {lift:.1f} mm and its flange still guides",
        "three-point": "on three points each axle follows its rails and no wheel lifts",
        "sprung": f"no wheel lifts if each spring sinks {twist / 4:.1f} mm or more under the "
        "empty wagon",
    }
    lost = left <= track.rail_corner_radius_mm
    if wheel.flange_depth_mm >= limit:
        cure = (
            f"{at_least(limit - left)} mm less, by packing the track, a shorter wheelbase, "
            'wagon.suspension = "three-point", or a deeper flange'
        )
    else:  # nothing helps a flange that the corner takes whole
        cure = (
            "the rail's round corner is higher than the flange: wheel.flange_depth_mm = "
            f"{at_least(wheel.flange_depth_mm + limit - left)}"
        )
    return judged(
        "twist-lift",
        "Flange depth left under the wheel that twist lifts",
        left,
        limit,
        "mm",
        "plain geometry: rigid frame, three wheels define a plane; least of half the depth, and "
        "of the rail's rounded corner, by common practice, no source",
        at_most=False,
        good=good[wagon.suspension],
        bad=(f"a wheel lifts {lift:.1f} mm" if lift else "no wheel lifts")
        + (" and its flange no longer guides" if lost else "")
        + f": {cure}",
        bad_verdict="fail" if lost else "warn",
    )


def joint_push(setting: Setting) -> CheckResult:
    """Push to start one axle of the loaded wagon over a joint, both rails' joints abreast."""
    track, radius = setting.track, setting.wheel.tread_radius_mm
    axle_load, push = 2 * setting.static_wheel_load_n, setting.use.push_force_n
    id, title = "joint-push", "Push to start an axle over a rail joint"
    source = "plain statics, W tan(angle to the edge); joints abreast, wagon starting from rest"
    angle = climb_angle(radius, track.joint_step_mm, track.joint_gap_mm)
    if angle > math.radians(89):
        says = "the wheel falls into the joint; close the gap or file the step"
        return CheckResult(id, title, None, push, "N", "fail", says, source, at_most=True)
    force = axle_load * math.tan(angle)
    step = climbed_step_mm(axle_load, radius, push)
    least = math.floor(10 * step) / 10
    filed = tried(joint_push, setting, "track.joint_step_mm", least, -0.1, round(10 * least) + 1)
    file = f"file steps, track.joint_step_mm = {filed:g}, " if filed is not None else ""
    return judged(
        id,
        title,
        force,
        push,
        "N",
        source,
        at_most=True,
        good=f"from rest the push climbs a step of {step:.1f} mm",
        bad=f"the wagon stops at joints; {file}close gaps, or push harder, "
        f"use.push_force_n = {at_least(force, 0)}",
        bad_verdict="warn",
    )


def joint_drop(setting: Setting) -> CheckResult:
    """Sinking of the wheel in the gap between rail ends."""
    gap, radius = setting.track.joint_gap_mm, setting.wheel.tread_radius_mm
    most_gap = 2 * math.sqrt(MOST_DROP_MM * (2 * radius - MOST_DROP_MM))
    return judged(
        "joint-drop",
        "Drop into the gap at a rail joint",
        gap_drop_mm(radius, gap),
        MOST_DROP_MM,
        "mm",
        "plain geometry; most of 1 mm by common practice, no source",
        at_most=True,
        good="the gap is nothing to this wheel",
        bad=f"each joint hammers; close the gap, track.joint_gap_mm = {at_most(most_gap, 0)}",
        bad_verdict="warn",
    )


def least_depth_mm(gauge_mm: float) -> float:
    """Flange depth of published practice, in a straight line between two gauges, in proportion
    below the smaller and level above the larger."""
    (small, low), (large, high) = LEAST_DEPTH_MM
    if gauge_mm <= small:
        return low * gauge_mm / small
    return low + (high - low) * min((gauge_mm - small) / (large - small), 1.0)


def flange_depth(setting: Setting) -> CheckResult:
    """Depth of the new flange against published practice, scaled by gauge."""
    depth, limit = setting.wheel.flange_depth_mm, least_depth_mm(setting.track.gauge_mm)
    return judged(
        "flange-depth",
        "Flange depth",
        depth,
        limit,
        "mm",
        "between the 7.5 in wheel standard (0.187 in) and the Saxon rules of 1878 (25 mm, "
        "standard gauge), in a straight line by gauge; today's Austrian EisbBBV asks 27.5 to "
        "32 mm on standard gauge, the more the smaller the wheel",
        at_most=False,
        good="as deep as wheels of such a gauge have been",
        bad=f"shallow for this gauge: wheel.flange_depth_mm = {math.ceil(10 * limit) / 10:g}",
        bad_verdict="warn",
    )


CHECKS = (twist_lift, joint_push, joint_drop, flange_depth)
