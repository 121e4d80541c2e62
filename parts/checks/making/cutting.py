"""Can the process cut the disc's holes?"""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting

# process -> hole over thickness, least hole mm
HOLES = {"plasma": (1.5, 0.0), "laser": (1.0, 1.0), "oxy-fuel": (1.5, 10.0), "hand": (0.25, 2.0)}
HOLE_SOURCE = {
    "plasma": "shop guides: plasma hole at least 1.5 t",
    "laser": "shop guides: laser hole at least t, 1 mm",
    "oxy-fuel": "common practice, from memory: at least 1.5 t, 10 mm",
    "hand": "common practice, no source: drilled, at least t / 4, 2 mm",
}


def least_hole_mm(process: str, thickness_mm: float) -> float:
    """Smallest hole that a process cuts well. Raises: KeyError for an unknown process."""
    share, least = HOLES[process]
    return max(share * thickness_mm, least)


def hole_by_process(setting: Setting) -> CheckResult:
    """Smallest hole of the disc against the least for the process."""
    spec = setting.wheel
    hole, limit = spec.hub_hole_diameter_mm, least_hole_mm(setting.process, spec.disc_thickness_mm)
    name = "hub hole"
    if spec.vent_count and spec.vent_diameter_mm < hole:
        hole, name = spec.vent_diameter_mm, "vents"
    return judged(
        "hole-by-process",
        f"Smallest hole cut by {setting.process}",
        hole,
        limit,
        "mm",
        HOLE_SOURCE[setting.process],
        at_most=False,
        good=f"{setting.process} cuts every hole of the disc",
        bad=f"{setting.process} does not cut the {name} cleanly: {limit:g} mm or more, or drill",
        bad_verdict="warn",
    )


CHECKS = (hole_by_process,)
