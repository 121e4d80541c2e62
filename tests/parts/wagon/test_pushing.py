"""People who push: whole people, and the table from memory."""

from __future__ import annotations

from itertools import pairwise

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.wagon.pushing import ISO_11228_2_FROM_MEMORY, people, people_over


def test_whole_people_and_never_none() -> None:
    assert [people(worth) for worth in (0.0, 0.2, 1.0, 1.0001, 2.0 + 1e-12, 2.5)] == [
        1,
        1,
        1,
        2,
        2,
        3,
    ]


def test_limits_fall_with_the_distance() -> None:
    for near, far in pairwise(ISO_11228_2_FROM_MEMORY):
        assert near.distance_m < far.distance_m
        assert near.start_n > far.start_n
        assert near.sustained_n > far.sustained_n
    assert [people_over(d, 240, 140) for d in (2, 8, 45)] == [1, 2, 2]


def test_other_distances_are_refused_with_the_known_ones() -> None:
    with pytest.raises(SpecError, match=r"distance_m.*2, 8, 15, 30, 45"):
        people_over(20, 100, 50)
