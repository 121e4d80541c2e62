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
    LIMIT_MM,
    Pairing,
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
    left = [] if found.left_over is None else [found.left_over]
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
    assert pair_wheels([3.0]).left_over == 0
    assert in_order(5).pairs == ((0, 1), (2, 3))
    assert in_order(5).left_over == 4


def test_the_wheel_left_over_is_the_one_out_of_place() -> None:
    """Worked by hand: 1.0 1.1 | 2.0 2.1 with 5.0, 0.0 or 1.5 too many; where the largest
    difference is the same the sum decides, where both are, the smallest wheel is left."""
    assert pair_wheels([5.0, 1.1, 2.0, 1.0, 2.1]).left_over == 0
    assert pair_wheels([1.1, 0.0, 2.0, 1.0, 2.1]).left_over == 1
    middle = pair_wheels([1.1, 2.0, 1.5, 1.0, 2.1])
    assert middle.left_over == 2
    assert middle.pairs == ((3, 0), (1, 4))
    # 0 4 | 5 6 9: leave 9 (4, 1), 5 (4, 3) or 0 (1, 3): the last has the least largest difference
    assert pair_wheels([0.0, 4.0, 5.0, 6.0, 9.0]).left_over == 0
    # 0 4 8 9 13: leave 13 (4 + 1), 8 (4 + 4) or 0 (4 + 4): all of largest 4, the first sum is least
    assert pair_wheels([0.0, 4.0, 8.0, 9.0, 13.0]).left_over == 4
    assert pair_wheels([1.0, 2.0, 3.0]).left_over == 0
    assert pair_wheels([2.0, 2.0, 2.0]).left_over == 0


def test_sums_in_numbers() -> None:
    sizes = [300.0, 300.4, 299.0, 300.1]
    pairing = Pairing(((0, 1), (3, 2)))
    assert largest_difference_mm(pairing, sizes) == pytest.approx(1.1)
    assert sum_of_differences_mm(pairing, sizes) == pytest.approx(1.5)
    assert largest_difference_mm(Pairing(()), sizes) == 0.0
    assert LIMIT_MM == 0.5  # of one axle, railway shop practice, from memory; no source read


@pytest.mark.parametrize("count", range(6))
def test_as_listed(count: int) -> None:
    """First with second, third with fourth; the last of an odd number is over."""
    found = in_order(count)
    assert found.pairs == tuple((2 * i, 2 * i + 1) for i in range(count // 2))
    assert found.left_over == (count - 1 if count in {1, 3, 5} else None)
