"""Steel that stays between holes and edges of the hub disc."""

from __future__ import annotations

from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting
from parts.hub_disc import disc_diameter_mm


def vent_web(setting: Setting) -> CheckResult | None:
    """Least web beside a vent hole, to the rim or to the hub hole, against the thickness."""
    spec = setting.wheel
    if spec.vent_count == 0:
        return None
    outer = (disc_diameter_mm(spec, "field") - spec.vent_circle_mm - spec.vent_diameter_mm) / 2
    inner = (spec.vent_circle_mm - spec.vent_diameter_mm - spec.hub_hole_diameter_mm) / 2
    thickness = spec.disc_thickness_mm
    return judged(
        "vent-web",
        "Steel beside the vent holes",
        min(outer, inner),
        thickness,
        "mm",
        "common practice of cutting shops, no standard: web at least the thickness",
        at_most=False,
        good="the web beside the holes is at least as wide as the plate is thick",
        bad=f"the web burns or tears; move the vents {thickness - min(outer, inner):.1f} mm away",
        bad_verdict="warn",
    )
