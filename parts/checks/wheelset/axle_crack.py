"""Fatigue of the axle: does a crack come at any of its notches?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.parts.base.steel import AXLE_STEELS
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.wheelset.axle_bending import (
    moment_within_n_mm,
    moments_of_one_n,
    torque_within_n_mm,
)
from platewheel.parts.checks.wheelset.axle_notches import Notch, axle_notches
from platewheel.parts.loads.spectrum import Block, spectrum
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.rating.detail import Cycles
from platewheel.parts.rating.miner import allowed_share
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset import axle_fatigue
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_fatigue import Stresses
from platewheel.parts.wheelset.axle_strength import bending_stress_n_mm2, torsion_stress_n_mm2

# least factor on all loads of the life: unevenness, joints, pushes and slipping wheels as they come
# and the reliability of the endurance limit are in it already; our choice, no source
SAFETY = 1.0
# of the strikes at joints that count in full, as they come at any angle of a turning axle: the
# mean of cos^8 is 0.27, slopes of 8 and more giving less; of |cos|^3, a weld's slope, 4 / (3 pi)
JOLTED_SHARE, WELDED_SHARE = 0.3, 0.43
_SHAFT_SOURCE = (
    "Shigley, Mechanical Engineering Design: endurance limit, Marin factors, DE-Goodman, S-N "
    "line; Miner's sum as Haibach, 1970; all from memory; safety of 1 is our choice, no source"
)
_WELD_SOURCE = (
    "EN 1993-1-9:2005, figure 7.1, tables 3.1 and 8.5 (from memory), partial factor on the range "
    "by use.consequence; Miner's sum over the way"
)


def axle_fatigue_safety(setting: Setting, made: Wheelset) -> CheckResult:
    """Safety against a fatigue crack where the wheel is held, under the bearings, at every
    shoulder and on the plain axle between, each under its own greatest moment and torque, over
    all loads of the way."""
    safeties = notch_safeties(setting, made)
    worst = min(safeties, key=lambda notch: safeties[notch])
    welded = worst.weld_category_n_mm2 is not None
    cure = "a thicker axle there, bearings nearer to the wheels, or a better way to hold them"
    if not welded:
        cure += "; not by a weld"
    return judged(
        "axle-fatigue",
        "Safety of the axle against fatigue",
        safeties[worst],
        SAFETY,
        "",
        _WELD_SOURCE if welded else _SHAFT_SOURCE,
        at_most=False,
        good=f"no crack is to come {worst.where}",
        bad=f"a crack is to come {worst.where}: {cure}",
    )


def notch_safeties(setting: Setting, made: Wheelset) -> dict[Notch, float]:
    """Safety of every place where the axle may crack."""
    rm = AXLE_STEELS[made.steel].fu_at_n_mm2(made.thickest_mm)
    blocks = spectrum(setting)
    return {
        notch: _safety(setting, made, notch, rm, blocks)
        for notch in axle_notches(setting, made, rm)
    }


@dataclass(frozen=True)
class _Kind:
    """Cycles of one kind: load of both wheels and side force of one, N; whether the wheels slip."""

    load_n: float
    side_n: float
    cycles: float
    slips: bool


def _kinds(blocks: Sequence[Block], jolted: float) -> list[_Kind]:
    """Every kind of turn in the life, between joints and at them, alike ones together; `jolted` is
    the share of the strikes that count in full."""
    cycles: dict[tuple[float, float, bool], float] = {}
    for block in blocks:
        for load, count in (
            (block.load_n, block.turns),
            (block.struck_n, block.turns * block.hits * jolted),
        ):
            if count > 0:
                key = (load, block.side_n, block.slides)
                cycles[key] = cycles.get(key, 0.0) + count
    return [_Kind(load, side, count, slips) for (load, side, slips), count in cycles.items()]


@dataclass(frozen=True)
class Use:
    """One kind of cycle at a notch, N/mm2 without its factors: amplitude and mean of bending,
    torsion; `used` is 1 / n by Goodman's line, of a weld the range of bending."""

    load_n: float
    side_n: float
    cycles: float
    amplitude: float
    mean: float
    torsion: float
    used: float


def notch_uses(setting: Setting, made: Wheelset, notch: Notch) -> list[Use]:
    """Every kind of cycle of the life at a notch."""
    rm = AXLE_STEELS[made.steel].fu_at_n_mm2(made.thickest_mm)
    return _uses(setting, made, notch, rm, spectrum(setting))


def _uses(
    setting: Setting, made: Wheelset, notch: Notch, rm_n_mm2: float, blocks: Sequence[Block]
) -> list[Use]:
    welded = notch.weld_category_n_mm2 is not None
    endurance = _endurance_n_mm2(made, notch, rm_n_mm2)
    jolted = 1.0 if not made.turning else WELDED_SHARE if welded else JOLTED_SHARE
    moments = moments_of_one_n(setting, made, *notch.within_mm)
    slip, design = torque_within_n_mm(setting, made, *notch.within_mm), wheel_load_n(setting)
    found = []
    for kind in _kinds(blocks, jolted):
        amplitude, mean = _bending(made, notch, moments, kind)
        torque = slip * kind.load_n / design if kind.slips else 0.0
        torsion = torsion_stress_n_mm2(torque, notch.diameter_mm)
        used = 2 * amplitude
        if not welded:
            stresses = Stresses(amplitude, mean, torsion)
            used = 1 / axle_fatigue.fatigue_safety(
                stresses, notch.kf, notch.kfs, rm_n_mm2, endurance
            )
        found.append(Use(kind.load_n, kind.side_n, kind.cycles, amplitude, mean, torsion, used))
    return found


def _endurance_n_mm2(made: Wheelset, notch: Notch, rm_n_mm2: float) -> float:
    return axle_fatigue.endurance_n_mm2(rm_n_mm2, notch.diameter_mm, turning=made.turning)


def _safety(
    setting: Setting, made: Wheelset, notch: Notch, rm_n_mm2: float, blocks: Sequence[Block]
) -> float:
    """Of one notch, over every kind of turn in the life: its bending by the moments of load and
    push, its torque where the wheels slip, Goodman's line and Miner's sum; of a weld the curve of
    its category. The paper of the calculation has them kind by kind."""
    uses = [(use.used, use.cycles) for use in _uses(setting, made, notch, rm_n_mm2, blocks)]
    if notch.weld_category_n_mm2 is not None:
        return _welded_safety(setting, notch.weld_category_n_mm2, uses)
    endurance = _endurance_n_mm2(made, notch, rm_n_mm2)
    return axle_fatigue.life_safety(uses, axle_fatigue.slope(rm_n_mm2, endurance))


def _bending(
    made: Wheelset, notch: Notch, moments: Sequence[tuple[float, float]], kind: _Kind
) -> tuple[float, float]:
    """Amplitude and mean of the bending stress at a notch, N/mm2."""
    least, most = (
        math.copysign(bending_stress_n_mm2(moment, notch.diameter_mm), moment)
        for moment in moment_within_n_mm(moments, kind.load_n, kind.side_n)
    )
    if made.turning:
        return max(abs(least), abs(most)), 0.0
    least, most = min(least, 0.0), max(most, 0.0)  # from no load to either
    return (most - least) / 2, abs(most + least) / 2


def _welded_safety(
    setting: Setting, category_n_mm2: float, uses: list[tuple[float, float]]
) -> float:
    """Factor on all ranges at which Miner's sum is 1."""
    import numpy as np

    ranges = np.array([[found for found, _ in uses]])
    counts = np.array([cycles for _, cycles in uses])
    every = Cycles(ranges, counts, np.arange(len(uses)), np.zeros(len(uses), bool))
    return allowed_share(every, category_n_mm2, setting.fatigue_factor)


CHECKS = (axle_fatigue_safety,)
