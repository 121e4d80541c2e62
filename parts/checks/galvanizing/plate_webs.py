"""Steel that stays between holes, edges and welds of the hub disc."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.spec import WheelSpec

# process -> web over thickness to an edge, and between two holes
WEBS = {"plasma": (1.0, 1.5), "laser": (1.5, 1.0), "oxy-fuel": (1.5, 1.5), "hand": (1.0, 1.0)}
WEB_SOURCE = (
    "shop guides: web at least the thickness; laser hole to edge 1.5 t; plasma holes 1.5 t "
    "apart; oxy-fuel 1.5 t from memory"
)


def _webs_mm(spec: WheelSpec) -> tuple[float, float]:
    """Beside a vent: to the disc's rim, to the hub hole."""
    outer = (disc_diameter_mm(spec, "field") - spec.vent_circle_mm - spec.vent_diameter_mm) / 2
    inner = (spec.vent_circle_mm - spec.vent_diameter_mm - spec.hub_hole_diameter_mm) / 2
    return outer, inner


def rim_web_mm(setting: Setting) -> float:
    """Least steel between a vent and the disc's rim for the cutting process."""
    return WEBS[setting.process][0] * setting.wheel.disc_thickness_mm


def vent_web(setting: Setting) -> CheckResult | None:
    """Least web beside a vent hole, to the rim or to the hub hole, for the cutting process."""
    spec = setting.wheel
    if spec.vent_count == 0:
        return None
    outer, inner = _webs_mm(spec)
    web, limit = min(outer, inner), rim_web_mm(setting)
    circle = _circle_further(spec, limit - web, outer <= inner)
    tears = "tears" if setting.process == "hand" else "burns or tears"
    return judged(
        "vent-web",
        "Steel beside the vent holes",
        web,
        limit,
        "mm",
        WEB_SOURCE,
        at_most=False,
        good="the web beside the holes is wide enough to cut",
        bad=f"the web {tears}: wheel.vent_circle_mm = {circle}",
        bad_verdict="warn",
    )


def _circle_further(spec: WheelSpec, mm: float, off_rim: bool) -> str:
    """Circle of vents that stand so much further off the disc's rim, or off the hub hole."""
    if off_rim:
        return at_most(spec.vent_circle_mm - 2 * mm)
    return at_least(spec.vent_circle_mm + 2 * mm)


def vent_spacing(setting: Setting) -> CheckResult | None:
    """Web between neighbouring vents, for the cutting process."""
    spec = setting.wheel
    if spec.vent_count < 2:
        return None
    web = spec.vent_circle_mm * math.sin(math.pi / spec.vent_count) - spec.vent_diameter_mm
    limit = WEBS[setting.process][1] * spec.disc_thickness_mm
    return judged(
        "vent-spacing",
        "Steel between the vent holes",
        web,
        limit,
        "mm",
        WEB_SOURCE,
        at_most=False,
        good="the holes are far enough apart to cut",
        bad="the web between the holes burns: wheel.vent_diameter_mm = "
        f"{at_most(spec.vent_diameter_mm + web - limit)}, or fewer vents",
        bad_verdict="warn",
    )


def vent_beside_weld(setting: Setting) -> CheckResult | None:
    """Vent edge clear of the fillets' legs: a bead that runs into a hole burns out."""
    spec = setting.wheel
    if spec.vent_count == 0:
        return None
    outer, inner = _webs_mm(spec)
    leg = spec.weld_leg_mm  # on the disc it counts from the disc's own rim or hole
    web = min(outer, inner) if spec.has_tube else outer
    return judged(
        "vent-beside-weld",
        "Vent edge to disc edge, against the weld's leg",
        web,
        leg,
        "mm",
        "plain geometry: legs are throat x 1.414 on the disc",
        at_most=False,
        good="the beads run clear of the holes",
        bad="the bead burns into the vents: wheel.vent_circle_mm = "
        f"{_circle_further(spec, leg - web, web == outer)}, or a smaller throat",
        bad_verdict="warn",
    )


CHECKS = (vent_web, vent_spacing, vent_beside_weld)
