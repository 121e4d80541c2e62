"""Can air get out and zinc get in: vent holes of both discs, their number and their place."""

from __future__ import annotations

import math

from platewheel.parts.base.so_many import so_many
from platewheel.parts.checks.galvanizing.plate_webs import rim_web_mm
from platewheel.parts.checks.result import CheckResult, Verdict, judged
from platewheel.parts.checks.trying import tried
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm

DESIGN_MANUAL = "Galvanizers Association of Australia, design manual, structural hollow sections"
NEAR_WALL_MM = 10.0
LEAST_HOLE_MM = 10.0
MARK_MM = 0.5  # that a circle is struck off by: a web is as wide as it needs and this; no source


def vent_number(setting: Setting) -> CheckResult | None:
    """At least two holes in each disc, opposite each other; a sealed box must never be dipped."""
    spec, finish = setting.wheel, setting.finish
    dipped = finish.coating == "galvanized"
    if not dipped and (spec.vent_count or not spec.has_tube):
        return None
    if spec.vent_count == 0 and spec.has_tube and dipped:
        return None  # told by `hollows.sealed_hollow`
    opposite = spec.vent_count >= 2 and spec.vent_count % 2 == 0
    if spec.vent_count == 0 and not spec.has_tube:
        says = "only the hub holes are open: air and zinc stay in the rim; set wheel.vent_count = 2"
    elif spec.vent_count == 0:
        says = "the box between the discs is sealed: never dip or heat it; set wheel.vent_count = 2"
    elif opposite:
        says = "air leaves and zinc drains through opposite holes in each disc"
    else:
        holes = so_many(spec.vent_count, "hole has", "holes have")
        says = f"{holes} none opposite; set wheel.vent_count = 2 or 4"
    source = (
        f"{DESIGN_MANUAL}: at least two, opposite; sealed hollows reach tens of N/mm2 in the bath"
    )
    verdict: Verdict = "pass" if opposite else "warn"
    if dipped and spec.vent_count < 2:
        verdict = "fail"
    count = spec.vent_count
    margin = (count - 2) / 2 if count < 2 or opposite else -0.5  # an odd one faces no other
    title = "Vent holes in each disc, opposite"
    return CheckResult(
        "vent-number", title, float(count), 2.0, "holes", verdict, says, source, margin, False
    )


def vent_size(setting: Setting) -> CheckResult | None:
    """Each hole at least 10 mm and at least the plate's thickness."""
    spec = setting.wheel
    if spec.vent_count == 0 or setting.finish.coating != "galvanized":
        return None
    limit = max(LEAST_HOLE_MM, spec.disc_thickness_mm)
    return judged(
        "vent-size",
        "Vent hole diameter",
        spec.vent_diameter_mm,
        limit,
        "mm",
        f"{DESIGN_MANUAL}: 10 mm or the steel thickness, the larger",
        at_most=False,
        good="zinc does not bridge the holes",
        bad=f"zinc may bridge the holes: wheel.vent_diameter_mm = {limit:g} or more",
    )


def vent_place(setting: Setting) -> CheckResult | None:
    """Edge of the holes near the ring wall, where air and zinc collect."""
    spec = setting.wheel
    if spec.vent_count == 0 or setting.finish.coating != "galvanized":
        return None
    gauge_side, field_side = (disc_diameter_mm(spec, side) / 2 for side in ("gauge", "field"))
    wall = gauge_side + spec.fit_clearance_mm
    gap = wall - spec.vent_circle_mm / 2 - spec.vent_diameter_mm / 2
    # thick plate and wide beads keep the hole off the wall, on the smaller disc of a tapered bore
    least = max(rim_web_mm(setting), spec.weld_leg_mm) + wall - min(field_side, gauge_side)
    limit = max(NEAR_WALL_MM, least + MARK_MM)
    circle = math.ceil(10 * (2 * (wall - limit) - spec.vent_diameter_mm)) / 10
    larger = tried(vent_place, setting, "wheel.vent_circle_mm", circle, 0.1, 3)
    cure = f"wheel.vent_circle_mm = {larger:g} or more" if larger else "smaller vents, nearer to it"
    return judged(
        "vent-place",
        "Vent edge to ring wall",
        gap,
        limit,
        "mm",
        "hot-dip galvanizing data sheet on venting: no more than 10 mm from the weld, or what "
        "web and bead need",
        at_most=True,
        good="the holes reach into the corner where air and zinc collect",
        bad=f"zinc stays in the corner; {cure}",
        bad_verdict="warn",
    )


CHECKS = (vent_number, vent_size, vent_place)
