"""Rings that would be trued so that fewer sizes are cut: choices beside the plan.

A ring out of round is pressed round; one out of size is stretched or shrunk a little. A size of
disc or flange is left out where all rings that need it can be brought to another.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from platewheel.parts.base.steel import STEELS
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.refit.least_truing import eased, least_trued
from platewheel.parts.refit.plan import Refit
from platewheel.parts.refit.resizing import least_shift, reach
from platewheel.parts.refit.ring_windows import left_uneven_mm, moved, ring_windows
from platewheel.parts.refit.shared_blanks import (
    STEPS_PER_MM,
    fewest_sizes,
    flange_window,
)
from platewheel.parts.refit.tried_sizes import Kinds, Ring, Sizes, near_sizes, some_sizes
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

MOST_SHARE = 0.5  # of the rings, trued for a choice; beyond it other rings are the better choice
TOLD_MM = 0.1  # less work than that is no other choice; as sizes are told
MOST_TRUED = 500  # of many rings: more are not looked at; our choice


@dataclass(frozen=True)
class Trued:
    """One ring of a choice: what is pressed out of it, and what its diameter is stretched (+) or
    shrunk (-) by, at least and at most. `press_n` across the largest diameter while it is held;
    `tension_n` in the wall while it is stretched, 0 where it is not."""

    ring: str
    press_mm: float
    press_n: float
    resize_mm: tuple[float, float]
    tension_n: float

    @property
    def round_mm(self) -> tuple[float, float]:
        """The same by tape, longer (+) or shorter (-). Source: pi times the diameter."""
        return math.pi * self.resize_mm[0], math.pi * self.resize_mm[1]


@dataclass(frozen=True)
class Choice:
    """True these rings too, and so many different blanks are cut."""

    trued: tuple[Trued, ...]
    discs: int
    flanges: int

    @property
    def sizes(self) -> int:
        """Of discs and flanges."""
        return self.discs + self.flanges


def choices(setting: Setting, refit: Refit) -> tuple[Choice, ...]:
    """For each smaller number of sizes the fewest rings that were found to be trued for it.

    Every choice does with its sizes by the plan's own rule, `fewest_sizes`. Of one window a ring
    the fewest are found (`cheapest_points`); discs and flanges, or two discs unlike, are looked
    at one after the other, and fewer rings might do.
    """
    rings = [_ring(setting, refit, i) for i in range(len(refit.fitted))]
    shifts = fewest_trued(rings, (len(refit.discs), len(refit.flanges)))
    return tuple(_choice(setting, refit, rings, shifts[count]) for count in sorted(shifts)[::-1])


def fewest_trued(rings: Sequence[Ring], now: tuple[int, int]) -> dict[int, dict[int, float]]:
    """For each number of sizes below those now cut, discs and flanges, that is worth telling:
    places of the rings to be trued, and what each is resized by. More sizes are worth it where
    they take less work than all fewer ones."""
    told: dict[int, dict[int, float]] = {}
    most = math.floor(MOST_SHARE * len(rings))
    for count, shifts in least_trued(rings, _found(rings, now)):  # fewest sizes first
        if len(shifts) > min(map(len, told.values()), default=most):
            continue
        least = eased(rings, shifts, count)
        if all(_less_work(least, other) for other in told.values()):
            told[count] = least
    return told


def _less_work(shifts: Mapping[int, float], other: Mapping[int, float]) -> bool:
    """Whether fewer rings are trued, or as many that are resized by less in all, to TOLD_MM."""
    sums = (round(math.fsum(map(abs, one.values())) / TOLD_MM) for one in (shifts, other))
    return (len(shifts), next(sums)) < (len(other), next(sums))


def _ring(setting: Setting, refit: Refit, place: int) -> Ring:
    one = refit.fitted[place]
    windows = ring_windows(setting, one.measured, one.spec, one.tried is not None)
    flange = () if one.flange is None else (flange_window(one.spec),)
    return Ring((windows.now, flange), (windows.round, flange), windows.resize_mm)


def _found(rings: Sequence[Ring], now: tuple[int, int]) -> dict[int, dict[int, float]]:
    """For each smaller number of sizes the rings to be trued, and what each is resized by."""
    kinds = Kinds.of(rings)
    found: dict[int, dict[int, float]] = {}
    for sizes in some_sizes(kinds, now, MOST_TRUED):
        count = sum(map(len, sizes))
        missed = kinds.missed(sizes)
        fewest = len(found[count]) if count in found else MOST_TRUED + 1
        if count >= sum(now) or kinds.rings(missed) >= fewest:
            continue
        shifts: dict[int, float] = {}
        for kind in missed.nonzero()[0].tolist():
            shift = least_shift(kinds.of_each[kind], near_sizes(kinds.of_each[kind], sizes))
            if shift is None:
                break
            shifts |= dict.fromkeys(kinds.places[kind], shift)
        else:
            found[count] = dict(sorted(shifts.items()))
    return found


def _sizes(rings: Sequence[Ring], shifts: Mapping[int, float]) -> Sizes:
    """Discs and flanges to cut once these rings are trued, by the plan's own rule, in steps."""
    found = []
    for pool in (0, 1):
        windows = []
        for i, ring in enumerate(rings):
            if i in shifts:
                windows += [moved(window, shifts[i]) for window in ring.round[pool]]
            else:
                windows += ring.now[pool]
        found.append([round(STEPS_PER_MM * size) for size in fewest_sizes(windows)[0]])
    return found[0], found[1]


def _choice(
    setting: Setting, refit: Refit, rings: Sequence[Ring], shifts: Mapping[int, float]
) -> Choice:
    sizes = _sizes(rings, shifts)
    trued = []
    for i, shift in sorted(shifts.items()):
        one = refit.fitted[i]
        press = left_uneven_mm(setting, one.measured)
        resize = reach(rings[i], near_sizes(rings[i], sizes), shift)
        trued.append(
            Trued(
                one.measured.ring,
                press,
                round_force_n(one.spec, press),
                resize,
                wall_tension_n(one.spec) if resize[1] > 0 else 0.0,
            )
        )
    return Choice(tuple(trued), *map(len, sizes))


def wall_tension_n(spec: WheelSpec) -> float:
    """Pull in the ring's wall at which it begins to stay longer: yield strength x section, steel
    as strong as its name. Source: definition of the yield strength."""
    wall = spec.tread_thickness_mm
    return STEELS[spec.steel].fy_n_mm2(wall) * wall * spec.tread_width_mm
