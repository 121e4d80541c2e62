"""Numbers in runs: read back they are the numbers again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.papers.plates.legend import runs


@given(st.sets(st.integers(1, 60), min_size=1))
def test_runs_hold_every_number_and_no_other(numbers: set[int]) -> None:
    told = runs(sorted(numbers))
    back = []
    for piece in told.split(", "):
        first, _, last = piece.partition("-")
        back += range(int(first), int(last or first) + 1)
    assert back == sorted(numbers)


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([4], "4"), ([1, 2], "1, 2"), ([1, 2, 3, 5, 7, 8, 9], "1-3, 5, 7-9"), ([], "")],
)
def test_three_in_a_row_are_a_run(numbers: list[int], told: str) -> None:
    assert runs(numbers) == told
