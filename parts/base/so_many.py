"""A count with its noun, `1 plate` and `3 plates`, and lists as long as can be read."""

from __future__ import annotations

from collections.abc import Sequence

MOST_TOLD = 5  # words of one kind, where nothing else is said
MOST_LETTERS = 60  # of a word that is told


def so_many(count: float, one: str, many: str = "") -> str:
    """The count and its noun, which `noun` gives.

    >>> so_many(1, "wheel"), so_many(2, "wheel"), so_many(0, "check passes", "checks pass")
    ('1 wheel', '2 wheels', '0 checks pass')
    """
    return f"{count:.15g} {noun(count, one, many)}"


def noun(count: float, one: str, many: str = "") -> str:
    """What there are so many of, or what they do: `one`, else `many`, which is `one` and an s
    where nothing is given."""
    return one if count == 1 else many or f"{one}s"


def counted_unit(digits: str, unit: str) -> str:
    """The unit behind these digits; things that are counted, `wheels`, stand alone after 1.

    >>> counted_unit("1", "wheels"), counted_unit("1.0", "years"), counted_unit("1", "s")
    ('wheel', 'years', 's')
    """
    things = len(unit) > 3 and unit.isalpha() and unit.endswith("s")
    if not things or digits != "1":
        return unit
    return unit[:-2] if unit.endswith(("sses", "shes", "ches", "xes")) else unit[:-1]


def listed(words: Sequence[str], most: int = MOST_TOLD) -> str:
    """The first of the words, and how many more there are; long ones cut.

    >>> listed(["a", "b", "c", "d"], 2)
    'a, b and 2 more'
    """
    first = [
        one if len(one) <= MOST_LETTERS else f"{one[:MOST_LETTERS]}..." for one in words[:most]
    ]
    left = len(words) - most
    return ", ".join(first) + (f" and {left} more" if left > 0 else "")
