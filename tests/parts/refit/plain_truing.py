"""Which rings to true for fewer sizes, found the plain long way: every ring asked again each time.

What finds the same sooner is compared with it.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import product

from platewheel.parts.refit.fewest_missed import Pair
from platewheel.parts.refit.ring_windows import moved
from platewheel.parts.refit.shared_blanks import STEPS_PER_MM, Window, fewest_sizes, steps_of
from platewheel.parts.refit.tried_sizes import Ring, Sizes

EASED_MM, MOST_SHARE = 0.02, 0.5


def plain_shifts(rings: Sequence[Ring], now: tuple[int, int]) -> dict[int, dict[int, float]]:
    """For each number of sizes told, its rings and what each is resized by."""
    found: dict[int, dict[int, float]] = {}
    for sizes in _some_sizes(rings, now):
        shifts = _shifts(rings, sizes)
        if shifts is None:
            continue
        count = sum(map(len, sizes))
        if count < sum(now) and (count not in found or len(shifts) < len(found[count])):
            found[count] = shifts
    most = math.floor(MOST_SHARE * len(rings))
    least = {}
    for count in sorted(found):
        shifts = _without_needless(rings, found[count], count)
        if len(shifts) <= most:
            least[count] = _eased(rings, shifts, count)
    work = {count: (len(one), _resized(one)) for count, one in least.items()}
    return {
        count: one
        for count, one in least.items()
        if all(work[fewer] > work[count] for fewer in work if fewer < count)
    }


def _resized(shifts: Mapping[int, float]) -> int:
    """By how much in all, in tenths of a mm."""
    return round(10 * math.fsum(map(abs, shifts.values())))


def _some_sizes(rings: Sequence[Ring], now: tuple[int, int]) -> list[Sizes]:
    """Sizes worth trying: for each number of one pool the cheapest points, and then of the other
    with the rings at hand that are trued already."""
    tried: list[Sizes] = []
    for first in (0, 1):
        second = 1 - first
        for points in plain_points(_pairs(rings, first, set()), now[first]):
            trued = {i for i, ring in enumerate(rings) if not _all_hit(ring.now[first], points)}
            for others in plain_points(_pairs(rings, second, trued), now[second]):
                tried.append((points, others) if first == 0 else (others, points))
    return tried


def _pairs(rings: Sequence[Ring], pool: int, trued: set[int]) -> list[Pair]:
    """Spans of all rings; those trued already meet what they can be brought to."""
    return [
        (wide if i in trued else now, wide)
        for i, ring in enumerate(rings)
        for now, wide in ring.spans(pool)
    ]


def _all_hit(windows: Sequence[Window], points: Sequence[int], shift_mm: float = 0.0) -> bool:
    spans = [steps_of(moved(window, shift_mm)) for window in windows]
    return all(any(low <= point <= high for point in points) for low, high in spans)


def _shifts(rings: Sequence[Ring], sizes: Sizes) -> dict[int, float] | None:
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


def _least_shift(ring: Ring, sizes: Sizes) -> float | None:
    """Least shift at which a window begins or ends to hold a size, or of those allowed."""
    low, high = ring.resize_mm
    ends = {0.0, low, high}
    for windows, points in zip(ring.round, sizes, strict=True):
        for window, point in product(windows, points):
            at = point / STEPS_PER_MM
            ends |= {at - window.greatest_mm, at - window.least_mm}
    meets = [end for end in ends if low <= end <= high and _meets(ring, sizes, end)]
    return min(meets, key=lambda end: (abs(end), end), default=None)


def _meets(ring: Ring, sizes: Sizes, shift: float) -> bool:
    return all(
        _all_hit(windows, points, shift) for windows, points in zip(ring.round, sizes, strict=True)
    )


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


def _without_needless(
    rings: Sequence[Ring], shifts: Mapping[int, float], count: int
) -> dict[int, float]:
    """The same without rings that need not be trued for this number of sizes."""
    left = dict(shifts)
    for i in sorted(shifts, key=lambda i: -abs(shifts[i])):
        fewer = {k: shift for k, shift in left.items() if k != i}
        if _do(rings, fewer, count):
            left = fewer
    return left


def _do(rings: Sequence[Ring], shifts: Mapping[int, float], count: int) -> bool:
    """Whether so many sizes do."""
    return sum(map(len, _sizes(rings, shifts))) <= count


def _eased(rings: Sequence[Ring], shifts: Mapping[int, float], count: int) -> dict[int, float]:
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


def plain_points(pairs: Sequence[Pair], most: int) -> list[tuple[int, ...]]:
    """For each number of points up to `most` those that lie in every wider interval and miss
    the fewest narrow ones; numbers that cannot do are left out. Without intervals: no point.

    A point moved up to the next upper end misses nothing that it met, so upper ends do. Between
    two neighbouring points lie wholly just the intervals that both miss: least sum along a chain
    (Source: dynamic programming, Bellman 1957).
    """
    if not pairs:
        return [()]
    ends = sorted({high for pair in pairs for _, high in pair})
    cost = _cost_between(Counter(pairs), ends)
    last = len(ends)  # beyond all
    best = [cost[0][b] for b in range(last + 1)]  # with the next point at b; -1 is row 0
    path: list[tuple[int, ...]] = [()] * (last + 1)
    found = []
    for _ in range(most):
        after = [math.inf] * (last + 1)
        ways: list[tuple[int, ...]] = [()] * (last + 1)
        for b in range(1, last + 1):
            sums = [best[a] + cost[a + 1][b] for a in range(b)]
            a = min(range(b), key=sums.__getitem__)
            after[b], ways[b] = sums[a], (*path[a], ends[a])
        best, path = after, ways
        if best[last] < math.inf:
            found.append(path[last])
    return found


def _cost_between(pairs: Counter[Pair], ends: Sequence[int]) -> list[list[float]]:
    """[a + 1][b]: narrow intervals wholly between ends a and b, of which none lies in between;
    a = -1 is below all, b = len(ends) above all; infinite where a wider one lies there."""
    rows = []
    for above in (-math.inf, *ends):
        starts = [0.0] * (len(ends) + 2)
        closed = len(ends) + 1
        for (now, wide), count in pairs.items():
            if now[0] > above:
                starts[bisect_right(ends, now[1])] += count
            if wide[0] > above:
                closed = min(closed, bisect_right(ends, wide[1]))
        total, row = 0.0, []
        for b in range(len(ends) + 1):
            total += starts[b]
            row.append(math.inf if b >= closed else total)
        rows.append(row)
    return rows
