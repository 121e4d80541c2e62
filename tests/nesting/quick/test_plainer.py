"""What is told of outlines that are laid plainer than they are."""

from __future__ import annotations

from platewheel.nesting.quick.plainer import MANY_KINDS, few_turns_words, plainer_words
from platewheel.parts.geometry.blank import Blank
from tests.nesting.geometry.test_plain import comb, star


def blank(name: str, outline: object) -> Blank:
    return Blank(name, "extra", 6.0, outline)  # type: ignore[arg-type]


def test_only_what_takes_much_more_plate_is_told() -> None:
    blanks = [
        blank("round", star(4000, 80, [])),
        blank("few", comb(20, 4.0, 80)),
        blank("comb", comb(200, 2.0, 80)),
    ]
    (line,) = plainer_words(blanks)
    assert line.startswith("comb: more than 200 corners; laid as a plainer outline about it, ")
    assert "cut as drawn" in line


def test_very_many_kinds_are_told() -> None:
    assert list(few_turns_words(6.0, MANY_KINDS)) == []
    (line,) = few_turns_words(6.0, MANY_KINDS + 1)
    assert line.startswith(f"6 mm: {MANY_KINDS + 1} kinds of part")
