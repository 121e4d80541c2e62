"""Points that miss as few intervals as possible: which rings to true for so many sizes."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence

Span = tuple[int, int]
Pair = tuple[Span, Span]  # an interval as it is, and the wider one that it may be brought to


def cheapest_points(pairs: Sequence[Pair], most: int) -> list[tuple[int, ...]]:
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
