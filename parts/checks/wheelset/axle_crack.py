"""Fatigue of the axle: does a crack come at any of its notches?"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import AXLE_STEELS
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.wheelset.axle_bending import moment_within_n_mm, torque_within_n_mm
from platewheel.parts.checks.wheelset.axle_notches import Notch, axle_notches
from platewheel.parts.rating.fatigue import range_for_cycles
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset import axle_fatigue
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_fatigue import Stresses
from platewheel.parts.wheelset.axle_strength import bending_stress_n_mm2, torsion_stress_n_mm2

# least safety for endless life: load unevenness, half the shock, a push and a slipping wheel in
# every turn and the reliability of the endurance limit are in it already; our choice, no source
SAFETY = 1.0
_SHAFT_SOURCE = (
    "Shigley, Mechanical Engineering Design: endurance limit, Marin factors, DE-Goodman, from "
    "memory; safety of 1 with all that in it is our choice, no source"
)
_WELD_SOURCE = (
    "EN 1993-1-9:2005, figure 7.1, tables 3.1 and 8.5 (from memory), partial factor on the range "
    "by use.consequence, turns of the stated use"
)


def axle_fatigue_safety(setting: Setting, made: Wheelset) -> CheckResult:
    """Safety against a fatigue crack where the wheel is held, under the bearings, at every
    shoulder and on the plain axle between, each under its own greatest moment and torque; half
    the shock in every turn, as in the wheel's own rating."""
    rm = AXLE_STEELS[made.steel].fu_at_n_mm2(made.thickest_mm)
    safeties = {
        notch: _safety(setting, made, notch, rm) for notch in axle_notches(setting, made, rm)
    }
    worst = min(safeties, key=lambda notch: safeties[notch])
    welded = worst.weld_category_n_mm2 is not None
    cure = "a thicker axle there, bearings nearer to the wheels, or a better way to hold them"
    return judged(
        "axle-fatigue",
        "Safety of the axle against fatigue",
        safeties[worst],
        SAFETY,
        "",
        _WELD_SOURCE if welded else _SHAFT_SOURCE,
        at_most=False,
        good=f"no crack is to come {worst.where}",
        bad=f"a crack is to come {worst.where}: {cure}"
        + (', such as axle.retention = "key"' if welded else "; weld no axle of this kind"),
    )


def _safety(setting: Setting, made: Wheelset, notch: Notch, rm_n_mm2: float) -> float:
    shock = setting.wagon.shock_factor
    share = (1 + shock) / 2 / shock
    d = notch.diameter_mm
    least, most = (
        share * math.copysign(bending_stress_n_mm2(moment, d), moment)
        for moment in moment_within_n_mm(setting, made, *notch.within_mm)
    )
    if made.turning:
        amplitude, mean = max(abs(least), abs(most)), 0.0
    else:  # from no load to either
        least, most = min(least, 0.0), max(most, 0.0)
        amplitude, mean = (most - least) / 2, abs(most + least) / 2
    if notch.weld_category_n_mm2 is not None:
        allowed = range_for_cycles(notch.weld_category_n_mm2, setting.turns_in_life)
        allowed /= setting.fatigue_factor
        return allowed / (2 * amplitude) if amplitude else math.inf
    torque = share * torque_within_n_mm(setting, made, *notch.within_mm)
    return axle_fatigue.fatigue_safety(
        Stresses(amplitude, mean, torsion_stress_n_mm2(torque, d)),
        notch.kf,
        notch.kfs,
        rm_n_mm2,
        axle_fatigue.endurance_n_mm2(rm_n_mm2, d, turning=made.turning),
    )


CHECKS = (axle_fatigue_safety,)
