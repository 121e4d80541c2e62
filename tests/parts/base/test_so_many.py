"""Counts in sentences."""

from __future__ import annotations

import pytest

from platewheel.parts.base.so_many import MOST_TOLD, counted_unit, listed, noun, so_many


@pytest.mark.parametrize(
    ("count", "told"), [(0, "0 wheels"), (1, "1 wheel"), (1.0, "1 wheel"), (1.5, "1.5 wheels")]
)
def test_one_alone_is_no_plural(count: float, told: str) -> None:
    assert so_many(count, "wheel") == told


def test_words_with_a_plural_of_their_own() -> None:
    assert so_many(100_000, "entity", "entities") == "100000 entities"
    assert [noun(one, "is", "are") for one in (0, 1, 2)] == ["are", "is", "are"]


@pytest.mark.parametrize(
    ("digits", "unit", "told"),
    [
        ("1", "rings", "ring"),
        ("11", "rings", "rings"),
        ("0", "hollows", "hollows"),
        ("1", "passes", "pass"),
        ("1", "m/s", "m/s"),
        ("1", "N", "N"),
        ("1", "", ""),
    ],
)
def test_a_unit_that_is_a_thing_is_one_after_a_one(digits: str, unit: str, told: str) -> None:
    assert counted_unit(digits, unit) == told


def test_long_lists_are_cut_and_counted() -> None:
    assert listed(["a"] * MOST_TOLD) == "a, a, a, a, a"
    assert listed(["a"] * (MOST_TOLD + 7)).endswith("a and 7 more")
    assert len(listed(["W" * 4000])) < 100
