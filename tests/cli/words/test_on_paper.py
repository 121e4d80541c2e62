"""Sentences on paper: in its units, and no note that names a key of the job file."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from platewheel.cli.words.on_paper import backticked, lines_on_paper, on_paper, without_keys
from platewheel.cli.words.phrases import Name, Sentence, phrase
from platewheel.cli.words.table import Column, table
from platewheel.cli.words.values import Length, Run


@pytest.mark.parametrize(
    ("says", "left"),
    [
        ("price of its [[stock]]", ""),
        (
            "costs.filler_price_per_kg; 28.3 kg of it end in the beads",
            "28.3 kg of it end in the beads",
        ),
        ("cutting.price_per_h: machine, operator, gas", "machine, operator, gas"),
        ("by its mass, costs.steel_price_per_kg", "by its mass"),
        ("costs.steel_price_per_kg, as other steel", "as other steel"),
        ("not priced: set costs.tube_price_per_kg or costs.steel_price_per_kg", ""),
        (
            "not priced: set cutting.price_per_h (machine, gas); until then labour",
            "until then labour",
        ),
        ("to hand, nothing to pay", "to hand, nothing to pay"),
        ("47.1 h at 28", "47.1 h at 28"),
    ],
)
def test_what_is_left_of_a_note_names_no_key(says: str, left: str) -> None:
    assert without_keys(says) == left


def test_words_turn_to_inches_wherever_they_stand() -> None:
    """25.4 mm to the inch."""
    assert on_paper("cut at 50.8 mm", "inch") == "cut at 2 in (50.8 mm)"
    assert on_paper(phrase("a ", Sentence("25.4 mm"), " b"), "inch") == "a 1 in (25.4 mm) b"
    assert on_paper(Run(3048.0), "inch") == "10 ft (3.0 m)"
    assert on_paper(None, "mm") == ""
    columns = (Column("a", "a", Name), Column("mm", "mm", Length, bare=True))
    lines = table(columns, [{"a": Sentence("6 mm"), "mm": Length(25.4)}])
    ((look, cells),) = lines_on_paper(lines, "inch")
    assert look == ""
    assert [text for _, text in cells] == ["15/64 in (6 mm)", "1 in (25.4 mm)"]


def test_typed_words_stand_between_backticks() -> None:
    assert backticked("run `platewheel rings` first") == ["run ", "platewheel rings", " first"]


@pytest.mark.parametrize("kind", [str, Name, Sentence, lambda text: phrase("by ", Name(text))])
def test_what_nobody_sees_is_not_put_on_paper(kind: Callable[[str], Any]) -> None:
    told = on_paper(kind("a\u202eb\x1b\x00c\u200b\nd"), "mm")
    assert told.removeprefix("by ") == "abc\nd"
