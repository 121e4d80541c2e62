"""Which two wheels go on one axle: the pairs with the least difference of tread diameter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

LIMIT_MM = 0.5  # difference of the two tread diameters
LIMIT_SOURCE = "railway shop practice for turned wheels of one axle, from memory; no source read"


@dataclass(frozen=True)
class Pairing:
    """Pairs of places in the list given, smaller diameter first, rising; `left_over` of an odd
    number."""

    pairs: tuple[tuple[int, int], ...]
    left_over: int | None = None


def pair_wheels(diameters_mm: Sequence[float]) -> Pairing:
    """Pairs with the least largest difference, and of those the least sum of differences.

    Neighbours in order of size reach both at once: where two pairs lie across each other or one
    within the other, changing partners to neighbours raises neither (Source: exchange argument).
    Of an odd number, the wheel left over is the one that leaves the best pairs.
    """
    order = sorted(range(len(diameters_mm)), key=lambda i: (diameters_mm[i], i))
    left = None
    if len(order) % 2:
        left = order.pop(_left_over([diameters_mm[i] for i in order]))
    return Pairing(tuple(zip(order[::2], order[1::2], strict=True)), left)


def in_order(count: int) -> Pairing:
    """Pairs as the rings are listed: first with second, third with fourth."""
    pairs = tuple((i, i + 1) for i in range(0, count - 1, 2))
    return Pairing(pairs, count - 1 if count % 2 else None)


def largest_difference_mm(pairing: Pairing, diameters_mm: Sequence[float]) -> float:
    """Of all axles; 0 without one."""
    return max((abs(diameters_mm[a] - diameters_mm[b]) for a, b in pairing.pairs), default=0.0)


def sum_of_differences_mm(pairing: Pairing, diameters_mm: Sequence[float]) -> float:
    """Over all axles."""
    return sum(abs(diameters_mm[a] - diameters_mm[b]) for a, b in pairing.pairs)


def _left_over(rising: Sequence[float]) -> int:
    """Place, always an even one, whose wheel is left over: neighbours pair on both sides of it."""
    below = [b - a for a, b in zip(rising[:-1:2], rising[1::2], strict=True)]
    above = [b - a for a, b in zip(rising[1::2], rising[2::2], strict=True)]
    most_below = [0.0, *accumulate(below, max)]
    sum_below = [0.0, *accumulate(below)]
    most_above = [*reversed([*accumulate(reversed(above), max)]), 0.0]
    sum_above = [*reversed([*accumulate(reversed(above))]), 0.0]
    return 2 * min(
        range(len(below) + 1),
        key=lambda k: (max(most_below[k], most_above[k]), sum_below[k] + sum_above[k], k),
    )
