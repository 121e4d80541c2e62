"""Does the welder there is fuse into the plates, and how much throat does it lay in one run?"""

from __future__ import annotations

import math
from typing import Literal

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

Process = Literal["rod", "wire"]
A_PER_MM_OF_ROD = 40.0
RODS_MM = ((3.0, 2.0), (5.0, 2.5), (12.0, 3.2), (math.inf, 4.0))  # plate up to: rod
ROD_SOURCE = (
    "rod by thickness of plate (2 to 3 mm, 2.5 to 5, 3.2 to 12, 4 beyond), 40 A a mm of rod: "
    "welding handbooks, from memory"
)
# kg/h for each ampere: covered rods 0.0076 (rutile 3.2 at 125 A) to 0.0104 (basic 4 at 180 A),
# metal-cored wire of 1.1 mm 0.0117 (1.4 kg/h at 120 A); low ends
KG_H_A = {"rod": 0.0076, "wire": 0.0117}
MOST_A = {"rod": 180.0, "wire": 400.0}  # of a 4 mm rod; a wire takes all
TRAVEL_MM_MIN = 130.0
RUN_SOURCE = (
    "weld metal a minute over the travel: makers' tables of deposition (rods 0.0076 kg/h an "
    "ampere, wire 0.0117), from memory; slowest travel before slag runs ahead 130 mm/min, common "
    "practice, no source"
)


def least_current_a(thickness_mm: float) -> float:
    """Current that fuses a plate this thick, cold. Source: ROD_SOURCE."""
    return A_PER_MM_OF_ROD * next(rod for most, rod in RODS_MM if thickness_mm <= most)


def run_area_mm2(current_a: float, process: Process) -> float:
    """Most section of weld metal that one run lays. Source: RUN_SOURCE."""
    kg_min = KG_H_A[process] * min(current_a, MOST_A[process]) / 60
    return kg_min / DENSITY_KG_MM3 / TRAVEL_MM_MIN


def throat_in_one_run_mm(current_a: float, process: Process) -> float:
    """Throat of the fillet of that section: an equal-legged one is the square of its throat.
    Source: plain geometry."""
    return math.sqrt(run_area_mm2(current_a, process))


def runs(section_mm2: float, current_a: float, process: Process) -> int:
    """Runs that fill such a section, at least one."""
    return max(1, math.ceil(section_mm2 / run_area_mm2(current_a, process) - 1e-9))


def welded_plates_mm(wheel: WheelSpec) -> dict[str, float]:
    """What is welded together, by the key that sets its thickness."""
    plates = {
        "tread_thickness_mm": wheel.tread_thickness_mm,
        "flange_thickness_mm": wheel.flange_thickness_mm,
        "disc_thickness_mm": wheel.disc_thickness_mm,
    }
    if wheel.has_tube:
        plates["hub tube's wall"] = (wheel.hub_tube_outside_mm - wheel.hub_bore_mm) / 2
    return plates


def weld_current(setting: Setting) -> CheckResult | None:
    """The welder's current against what the thickest plate of the wheel asks; None where the
    shop does not say."""
    most = setting.shop.welder_most_a
    if most is None:
        return None
    plates = welded_plates_mm(setting.wheel)
    key, thick = max(plates.items(), key=lambda plate: plate[1])
    needed = least_current_a(thick)
    return judged(
        "weld-current",
        "Current of the welder for the thickest plate",
        most,
        needed,
        "A",
        ROD_SOURCE,
        at_most=False,
        good=f"{most:g} A fuse into {thick:g} mm",
        bad=f"{most:g} A do not fuse into {key} = {thick:g}, the bead lies on it and breaks off: "
        f"shop.welder_most_a = {at_least(needed, 0)} or more, a thinner plate, or warm both plates "
        "before every run and break a trial piece open",
        bad_verdict="warn",
    )


CHECKS = (weld_current,)
