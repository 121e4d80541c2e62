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
from platewheel.parts.refit.fewest_missed import Pair, cheapest_points
from platewheel.parts.refit.plan import Refit
from platewheel.parts.refit.ring_windows import left_uneven_mm, moved, ring_windows
from platewheel.parts.refit.shared_blanks import (
    STEPS_PER_MM,
    Window,
    fewest_sizes,
    flange_window,
    steps_of,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

EASED_MM = 0.02  # finer than any ring is trued
MOST_SHARE = 0.5  # of the rings, trued for a choice; beyond it other rings are the better choice


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


@dataclass(frozen=True)
class _Ring:
    """Windows of one ring as it is and once it is round, on discs and on its flange (none where
    the one tried on stays); least and most that it is resized by."""

    now: tuple[tuple[Window, ...], tuple[Window, ...]]
    round: tuple[tuple[Window, ...], tuple[Window, ...]]
    resize_mm: tuple[float, float]


Sizes = tuple[Sequence[int], Sequence[int]]  # of discs and flanges, in steps


def choices(setting: Setting, refit: Refit) -> tuple[Choice, ...]:
    """For each smaller number of sizes the fewest rings that were found to be trued for it.

    Every choice does with its sizes by the plan's own rule, `fewest_sizes`. Of one window a ring
    the fewest are found (`cheapest_points`); discs and flanges, or two discs unlike, are looked
    at one after the other, and fewer rings might do.
    """
    rings = [_ring(setting, refit, i) for i in range(len(refit.fitted))]
    now = len(refit.discs), len(refit.flanges)
    found: dict[int, dict[int, float]] = {}
    for sizes in _some_sizes(rings, now):
        shifts = _shifts(rings, sizes)
        if shifts is None:
            continue
        count = sum(map(len, sizes))
        if count < sum(now) and (count not in found or len(shifts) < len(found[count])):
            found[count] = shifts
    told: list[Choice] = []
    most = math.floor(MOST_SHARE * len(rings))
    for count in sorted(found):  # fewest sizes first
        shifts = _without_needless(rings, found[count], count)
        told = [one for one in told if len(one.trued) > len(shifts)]
        if len(shifts) <= most:
            told.append(_choice(setting, refit, rings, _eased(rings, shifts, count)))
    return tuple(sorted(told, key=lambda one: -one.sizes))


def _ring(setting: Setting, refit: Refit, place: int) -> _Ring:
    one = refit.fitted[place]
    windows = ring_windows(setting, one.measured, one.spec, one.tried is not None)
    flange = () if one.flange is None else (flange_window(one.spec),)
    return _Ring((windows.now, flange), (windows.round, flange), windows.resize_mm)


def _some_sizes(rings: Sequence[_Ring], now: tuple[int, int]) -> list[Sizes]:
    """Sizes worth trying: for each number of one pool the cheapest points, and then of the other
    with the rings at hand that are trued already."""
    tried: list[Sizes] = []
    for first in (0, 1):
        second = 1 - first
        for points in cheapest_points(_pairs(rings, first, set()), now[first]):
            trued = {i for i, ring in enumerate(rings) if not _all_hit(ring.now[first], points)}
            for others in cheapest_points(_pairs(rings, second, trued), now[second]):
                tried.append((points, others) if first == 0 else (others, points))
    return tried


def _pairs(rings: Sequence[_Ring], pool: int, trued: set[int]) -> list[Pair]:
    """What each ring meets as it is and what it can be brought to meet, in steps."""
    pairs = []
    for i, ring in enumerate(rings):
        for now, whole in zip(ring.now[pool], ring.round[pool], strict=True):
            low, high = steps_of(now)
            wide = steps_of(
                Window(
                    whole.least_mm + ring.resize_mm[0],
                    whole.wanted_mm,
                    whole.greatest_mm + ring.resize_mm[1],
                )
            )
            wide = min(low, wide[0]), max(high, wide[1])
            pairs.append((wide if i in trued else (low, high), wide))
    return pairs


def _all_hit(windows: Sequence[Window], points: Sequence[int], shift_mm: float = 0.0) -> bool:
    spans = [steps_of(moved(window, shift_mm)) for window in windows]
    return all(any(low <= point <= high for point in points) for low, high in spans)


def _shifts(rings: Sequence[_Ring], sizes: Sizes) -> dict[int, float] | None:
    """Rings to be trued for these sizes and what each is resized by; None where one cannot be."""
    shifts = {}
    for i, ring in enumerate(rings):
        if all(map(_all_hit, ring.now, sizes)):
            continue
        shift = _least_shift(ring, sizes)
        if shift is None:
            return None
        shifts[i] = shift
    return shifts


def _least_shift(ring: _Ring, sizes: Sizes) -> float | None:
    return next((shift for shift in _ends(ring, sizes) if _meets(ring, sizes, shift)), None)


def _ends(ring: _Ring, sizes: Sizes) -> list[float]:
    """Shifts at which a window begins or ends to hold a size, and those allowed; least first."""
    low, high = ring.resize_mm
    ends = {0.0, low, high}
    for windows, points in zip(ring.round, sizes, strict=True):
        for window in windows:
            for point in points:
                at = point / STEPS_PER_MM
                ends |= {at - window.greatest_mm, at - window.least_mm}
    return sorted((end for end in ends if low <= end <= high), key=abs)


def _meets(ring: _Ring, sizes: Sizes, shift: float) -> bool:
    return all(
        _all_hit(windows, points, shift) for windows, points in zip(ring.round, sizes, strict=True)
    )


def _reach(ring: _Ring, sizes: Sizes, shift: float) -> tuple[float, float]:
    """Least and most that the ring may be resized by, to the side of `shift`, for these sizes."""
    if _meets(ring, sizes, 0.0):
        return 0.0, 0.0
    side = [end for end in _ends(ring, sizes) if end * shift > 0]
    first, last = shift, shift
    for end in side:  # outwards
        if abs(end) > abs(last) and all(_meets(ring, sizes, s) for s in ((last + end) / 2, end)):
            last = end
        elif abs(end) > abs(last):
            break
    for end in reversed(side):  # inwards
        if abs(end) < abs(first) and all(_meets(ring, sizes, s) for s in ((first + end) / 2, end)):
            first = end
        elif abs(end) < abs(first):
            break
    return first, last


def _sizes(rings: Sequence[_Ring], shifts: Mapping[int, float]) -> Sizes:
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


def _without_needless(
    rings: Sequence[_Ring], shifts: Mapping[int, float], count: int
) -> dict[int, float]:
    """The same without rings that need not be trued for this number of sizes."""
    left = dict(shifts)
    for i in sorted(shifts, key=lambda i: -abs(shifts[i])):
        fewer = {k: shift for k, shift in left.items() if k != i}
        if _do(rings, fewer, count):
            left = fewer
    return left


def _do(rings: Sequence[_Ring], shifts: Mapping[int, float], count: int) -> bool:
    """Whether so many sizes do."""
    return sum(map(len, _sizes(rings, shifts))) <= count


def _eased(rings: Sequence[_Ring], shifts: Mapping[int, float], count: int) -> dict[int, float]:
    """The same rings, each resized as little as still does, to EASED_MM; by halving."""
    left = dict(shifts)
    for i in sorted(shifts, key=lambda i: -abs(shifts[i])):
        enough, little = left[i], 0.0
        if enough and _do(rings, left | {i: 0.0}, count):
            enough = 0.0
        while abs(enough - little) > EASED_MM:
            half = (enough + little) / 2
            if _do(rings, left | {i: half}, count):
                enough = half
            else:
                little = half
        left[i] = enough
    return left


def _choice(
    setting: Setting, refit: Refit, rings: Sequence[_Ring], shifts: Mapping[int, float]
) -> Choice:
    sizes = _sizes(rings, shifts)
    trued = []
    for i, shift in sorted(shifts.items()):
        one = refit.fitted[i]
        press, resize = left_uneven_mm(setting, one.measured), _reach(rings[i], sizes, shift)
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
