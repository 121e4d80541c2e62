"""Points that miss as few intervals as possible: which rings to true for so many sizes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Span = tuple[int, int]
Pair = tuple[Span, Span]  # an interval as it is, and the wider one that it may be brought to


def cheapest_points(
    pairs: Sequence[Pair] | NDArray[np.int64], most: int, counts: NDArray[np.float64] | None = None
) -> list[tuple[int, ...]]:
    """For each number of points up to `most` those that lie in every wider interval and miss
    the fewest narrow ones; numbers that cannot do are left out. Without intervals: no point.
    `counts`: how often each pair is there, once unless told.

    A point moved up to the next upper end misses nothing that it met, so upper ends do. Between
    two neighbouring points lie wholly just the intervals that both miss: least sum along a chain
    (Source: dynamic programming, Bellman 1957).
    """
    import numpy as np

    if not len(pairs):
        return [()]
    spans = np.asarray(pairs, dtype=np.int64).reshape(-1, 2, 2)
    ends = np.unique(spans[:, :, 1])
    cost = _cost_between(spans, ends, np.ones(len(spans)) if counts is None else counts)
    last = len(ends)  # beyond all
    # a step over a wider interval is never taken: of the points before one only the near ones count
    near = int(np.max(np.arange(last + 1) - np.argmax(np.isfinite(cost[1:]), axis=0)))
    before = np.arange(1, last + 1)[:, None] - near + np.arange(near)
    step = np.where(before < 0, math.inf, cost[before + 1, np.arange(1, last + 1)[:, None]])
    best = cost[0]  # with the next point at b; -1 is row 0
    froms: list[NDArray[np.int64]] = []
    found = []
    for _ in range(most):
        sums = best[before] + step
        taken = np.argmin(sums, axis=1)
        best = np.concatenate([[math.inf], sums[np.arange(last), taken]])
        froms.append(before[np.arange(last), taken])
        if best[last] < math.inf:
            found.append(_path(froms, ends))
    return found


def _path(froms: Sequence[NDArray[np.int64]], ends: NDArray[np.int64]) -> tuple[int, ...]:
    """The points of the last chain, from the one beyond all back."""
    points, at = [], len(ends)
    for before in reversed(froms):
        at = int(before[at - 1])
        points.append(int(ends[at]))
    return tuple(reversed(points))


def _cost_between(
    spans: NDArray[np.int64], ends: NDArray[np.int64], counts: NDArray[np.float64]
) -> NDArray[np.float64]:
    """[a + 1, b]: narrow intervals wholly between ends a and b, of which none lies in between;
    a = -1 is below all, b = len(ends) above all; infinite where a wider one lies there."""
    import numpy as np

    last = len(ends)
    (now_low, now_high), (wide_low, wide_high) = spans[:, 0].T, spans[:, 1].T
    starts = np.zeros((last + 1, last + 1))
    rows = np.searchsorted(ends, now_low), np.searchsorted(ends, now_high, "right")
    np.add.at(starts, rows, counts)
    inside = np.cumsum(np.cumsum(starts[::-1], axis=0)[::-1], axis=1)
    closed = np.full(last + 1, last + 1)
    np.minimum.at(
        closed, np.searchsorted(ends, wide_low), np.searchsorted(ends, wide_high, "right")
    )
    closed = np.minimum.accumulate(closed[::-1])[::-1]
    inside[np.arange(last + 1) >= closed[:, None]] = math.inf
    return inside
