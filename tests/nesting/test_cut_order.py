"""The order of cutting: every part once, always the nearest next."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.cut_order import cut_order
from nesting.layout import Placement
from parts.outline import bounds
from tests.nesting.plates import disc, sector, strip

placements = st.lists(
    st.builds(
        Placement,
        st.sampled_from([disc(50.0), strip(80.0, 20.0), sector(40.0, 60.0, 120.0)]),
        st.floats(0, 1000),
        st.floats(0, 1000),
        st.sampled_from([0.0, 90.0, 210.0]),
    ),
    max_size=8,
)


def middle(placement: Placement) -> tuple[float, float]:
    x0, y0, x1, y1 = bounds(placement.outline)
    return (x0 + x1) / 2, (y0 + y1) / 2


@settings(max_examples=100, deadline=None, derandomize=True)
@given(placements)
def test_nearest_part_next_and_none_left_out(placed: list[Placement]) -> None:
    order = list(cut_order(placed))
    assert sorted(map(id, order)) == sorted(map(id, placed))
    here = (0.0, 0.0)
    for i, chosen in enumerate(order):
        least = min(math.dist(here, middle(p)) for p in order[i:])
        assert math.dist(here, middle(chosen)) <= least + 1e-6
        here = middle(chosen)


def test_begins_at_the_lower_left_and_equal_distances_keep_their_order() -> None:
    blank = disc(10.0)
    far, one, two = (Placement(blank, x, y, 0.0) for x, y in ((90, 90), (30, 10), (10, 30)))
    assert cut_order([far, one, two]) == (one, two, far)
