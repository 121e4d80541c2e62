"""The wheelset under load: the axle as a beam, and its bending at rest."""

from __future__ import annotations

from parts import axle_strength
from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting
from parts.steel import STEELS
from parts.wheelset import Wheelset

BENDING_RESERVE = 1.5  # yield over stress; common practice, no source
C45_FY_N_MM2 = 305.0  # EN 10083-2 normalised, 16 to 100 mm, from memory


def beam_of(setting: Setting, made: Wheelset, way: int) -> axle_strength.AxleBeam:
    """The axle under both wheels' design load and one flange's push, inwards or outwards."""
    load = setting.wheel_load_n
    return axle_strength.axle_beam(
        made.contact_spacing_mm,
        made.hub_centres_mm,
        made.bearing_centres_mm,
        load,
        way * setting.use.lateral_share * load,
        setting.wheel.tread_radius_mm,
    )


def moment_within_n_mm(setting: Setting, made: Wheelset, start_mm: float, end_mm: float) -> float:
    """Greatest moment between two places of the axle, push on the flange either way."""
    return max(
        axle_strength.greatest_moment_n_mm(beam_of(setting, made, way), start_mm, end_mm)
        for way in (1, -1)
    )


def axle_bending(setting: Setting, made: Wheelset) -> CheckResult:
    """Greatest moment on each step of the axle, push on the flange either way."""
    id, title = "axle-bending", "Bending of the axle, at rest"
    stress, moment, d = max(
        (axle_strength.bending_stress_n_mm2(moment, d), moment, d)
        for z0, z1, d in made.steps
        for moment in [moment_within_n_mm(setting, made, z0, z1)]
    )
    thick = max(d for _, _, d in made.steps)
    if made.steel != "C45" and thick > 63:
        says = f"no yield strength of {made.steel} above 63 mm is listed; take a thinner axle"
        return CheckResult(id, title, None, None, "N/mm2", "not-assessed", says, "EN 10025-2")
    fy = C45_FY_N_MM2 if made.steel == "C45" else STEELS[made.steel].fy_n_mm2(thick)
    limit = fy / BENDING_RESERVE
    return judged(
        id,
        title,
        stress,
        limit,
        "N/mm2",
        "32 M / (pi d3), Gere, Mechanics of Materials; yield by EN 10025-2 (C45: EN 10083-2, from "
        "memory); reserve of 1.5 by common practice, no source",
        at_most=True,
        good="the axle stays straight at rest; its fatigue is another check",
        bad=f"the axle bends: {axle_strength.diameter_for_mm(moment, limit):.0f} mm or more where "
        f"it has {d:g}, or bearings nearer to the wheels",
    )


CHECKS = (axle_bending,)
