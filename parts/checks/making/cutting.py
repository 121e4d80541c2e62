"""Can the process cut the disc's holes?"""

from __future__ import annotations

from platewheel.parts.base.cut_process import HOLE_SOURCE, least_hole_mm
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting


def hole_by_process(setting: Setting) -> CheckResult:
    """Smallest hole of the disc against the least for the process."""
    spec = setting.wheel
    hole, limit = spec.hub_hole_diameter_mm, least_hole_mm(setting.process, spec.disc_thickness_mm)
    name, key = "hub hole", "wheel.hub_tube_outside_mm" if spec.has_tube else "wheel.hub_bore_mm"
    if spec.vent_count and spec.vent_diameter_mm < hole:
        hole, name, key = spec.vent_diameter_mm, "vents", "wheel.vent_diameter_mm"
    return judged(
        "hole-by-process",
        f"Smallest hole cut by {setting.process}",
        hole,
        limit,
        "mm",
        HOLE_SOURCE[setting.process],
        at_most=False,
        good=f"{setting.process} cuts every hole of the disc",
        bad=f"{setting.process} does not cut the {name} cleanly: {key} = {limit:g} or more, "
        "or drill",
        bad_verdict="warn",
    )


CHECKS = (hole_by_process,)
