"""Pairs of wheels: against every possible pairing, and against scipy's optimal assignment."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from platewheel.parts.refit.pairing import (
    in_order,
    largest_difference_mm,
    pair_wheels,
    sum_of_differences_mm,
)


def pairings(places: Sequence[int]) -> Iterator[list[tuple[int, int]]]:
    """Every way to pair; of an odd number each in turn is left over."""
    if len(places) % 2:
        for i in places:
            yield from pairings([k for k in places if k != i])
        return
    if not places:
        yield []
        return
    first, *rest = places
    for other in rest:
        for more in pairings([k for k in rest if k != other]):
            yield [(first, other), *more]


@given(st.lists(st.integers(0, 60), max_size=7))
def test_no_pairing_at_all_is_better(tenths: list[int]) -> None:
    found = pair_wheels(tenths)
    best = min(
        (
            (max((abs(tenths[a] - tenths[b]) for a, b in pairs), default=0),
             sum(abs(tenths[a] - tenths[b]) for a, b in pairs))
            for pairs in pairings(range(len(tenths)))
        ),
    )  # fmt: skip
    assert largest_difference_mm(found, tenths) == best[0]
    assert sum_of_differences_mm(found, tenths) == best[1]
    used = [i for pair in found.pairs for i in pair]
    left = [] if found.remnant is None else [found.remnant]
    assert sorted(used + left) == list(range(len(tenths)))


# scipy.optimize.linear_sum_assignment, "assign every wheel a partner": a relaxation of pairing
# (partners need not be mutual), so half its cost is a bound that a pairing of least sum must meet.
@pytest.mark.parametrize("seed", range(12))
def test_the_sum_meets_scipys_optimal_assignment(seed: int) -> None:
    rng = random.Random(seed)
    sizes = [rng.gauss(300.0, 0.6) for _ in range(2 * rng.randint(2, 40))]
    found = pair_wheels(sizes)
    apart = np.abs(np.subtract.outer(sizes, sizes))
    np.fill_diagonal(apart, 1e6)
    rows, columns = linear_sum_assignment(apart)
    bound = apart[rows, columns].sum() / 2
    ours = sum_of_differences_mm(found, sizes)
    assert ours >= bound - 1e-9
    # split as paired, small wheels against large: the assignment finds nothing better
    small, large = ([sizes[p[side]] for p in found.pairs] for side in (0, 1))
    cost = np.abs(np.subtract.outer(small, large))
    rows, columns = linear_sum_assignment(cost)
    assert ours == pytest.approx(cost[rows, columns].sum())


def test_pairs_rise_with_the_smaller_wheel_first() -> None:
    assert pair_wheels([5.0, 1.0, 4.0, 2.0]).pairs == ((1, 3), (2, 0))
    assert pair_wheels([]).pairs == ()
    assert pair_wheels([3.0]).remnant == 0
    assert in_order(5).pairs == ((0, 1), (2, 3))
    assert in_order(5).remnant == 4
