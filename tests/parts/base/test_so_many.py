"""Counts in sentences."""

from __future__ import annotations

import pytest

from platewheel.parts.base.so_many import noun, so_many


@pytest.mark.parametrize(
    ("count", "told"), [(0, "0 wheels"), (1, "1 wheel"), (1.0, "1 wheel"), (1.5, "1.5 wheels")]
)
def test_one_alone_is_no_plural(count: float, told: str) -> None:
    assert so_many(count, "wheel") == told


def test_words_with_a_plural_of_their_own() -> None:
    assert so_many(100_000, "entity", "entities") == "100000 entities"
    assert [noun(one, "is", "are") for one in (0, 1, 2)] == ["are", "is", "are"]
