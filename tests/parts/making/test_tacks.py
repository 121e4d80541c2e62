"""Tacks and runs in an order that spreads the heat."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from platewheel.parts.making.tacks import PITCH_MM, middle_out, quadrant_order, star_order, tacks_of
from tests.parts.wheels import plain_wheel


@pytest.mark.parametrize("count", [4, 8, 12, 16, 24])
def test_every_second_tack_lies_opposite_the_one_before(count: int) -> None:
    order = star_order(count)
    assert sorted(order) == list(range(1, count + 1))
    assert order[0] == 1
    assert abs(order[0] - order[1]) == count // 2
    for first, second in pairwise(order):  # never two neighbours in a row
        apart = abs(first - second)
        assert min(apart, count - apart) > 1 or count == 4


def test_the_first_four_of_a_star_are_a_cross() -> None:
    assert star_order(4) == [1, 3, 2, 4]
    assert sorted(star_order(8)[:4]) == [1, 3, 5, 7]


@pytest.mark.parametrize("count", [2, 3, 4, 5, 9])
def test_from_the_middle_to_both_ends(count: int) -> None:
    order = middle_out(count)
    assert sorted(order) == list(range(1, count + 1))
    middle = (count + 1) / 2
    away = [abs(n - middle) for n in order]
    assert away == sorted(away)
    assert {order[-1], order[-2]} == {1, count}


def test_each_quarter_once_opposite_and_on_the_other_side() -> None:
    order = quadrant_order()
    assert sorted(order) == [side + n for side in "FG" for n in "1234"]
    for before, after in pairwise(order):
        assert before[0] != after[0]
    for i in (0, 2, 4, 6):
        assert abs(int(order[i][1]) - int(order[i + 1][1])) == 2


@pytest.mark.parametrize("diameter", [180, 300, 900])
def test_no_tacks_further_apart_than_the_pitch(diameter: int) -> None:
    tacks = tacks_of(
        plain_wheel(
            tread_diameter_mm=float(diameter),
            vent_circle_mm=diameter - 60.0,
            flange_segments=3,
        )
    )
    assert tacks.rim % 4 == 0
    around = math.pi * (diameter - 2 * 8)
    assert around / tacks.rim <= PITCH_MM < around / (tacks.rim - 4 or 1)
    assert tacks.all == 2 * (tacks.rim + 4) + 3 * tacks.segment + 2
