"""Points that miss the fewest intervals: against all sets of points."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.refit.fewest_missed import Pair, cheapest_points


def pair(low: int, long: int, below: int, above: int) -> Pair:
    return (low, low + long), (low - below, low + long + above)


SMALL = st.integers(0, 3)
PAIRS = st.lists(st.builds(pair, st.integers(0, 14), SMALL, SMALL, SMALL), max_size=7)


def missed(pairs: list[Pair], points: tuple[int, ...]) -> int | None:
    """None where a wider one is missed."""
    if any(not any(low <= p <= high for p in points) for _, (low, high) in pairs):
        return None
    return sum(not any(low <= p <= high for p in points) for (low, high), _ in pairs)


@given(PAIRS, st.integers(1, 4))
def test_no_other_points_miss_fewer(pairs: list[Pair], most: int) -> None:
    found = {len(points): points for points in cheapest_points(pairs, most)}
    if not pairs:
        assert found == {0: ()}
        return
    for count in range(1, most + 1):
        tries = (missed(pairs, points) for points in combinations(range(-4, 22), count))
        best = min((cost for cost in tries if cost is not None), default=None)
        if count in found:
            assert missed(pairs, found[count]) == best
        else:  # more points than upper ends are of no use, or none do
            assert best is None or count > len({high for p in pairs for _, high in p})


def test_worked_by_hand() -> None:
    """0..1, 4..5 and 4..5 reach 2 further: one point, 1 to 3, does; 1 itself lies outside of
    what the others reach, 2 or 3 outside of all as they are; two points miss none."""
    pairs = [pair(0, 1, 2, 2), pair(4, 1, 2, 2), pair(4, 1, 2, 2)]
    assert [missed(pairs, points) for points in cheapest_points(pairs, 2)] == [3, 0]
    apart = [pair(0, 1, 0, 0), pair(4, 1, 2, 2)]
    assert cheapest_points(apart, 2) == [(1, 5)]  # one point does not do
