"""What the terminal shows of a refit of many rings: the first of them, and how many more."""

from __future__ import annotations

import pytest

from platewheel.cli.terminal.refit import MOST_ROWS, _show_first
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.refit import first_of
from platewheel.cli.words.table import Column, table


def test_of_many_the_first_are_told_and_how_many_more() -> None:
    assert first_of(["1", "2", "7"], 3, "page") == ["1", "2", "7"]
    assert first_of(["1", "2", "7", "9", "12"], 3, "page") == ["1", "2", "7", "and 2 more: page"]


@pytest.mark.parametrize(("more", "last"), [(0, ""), (1, "and 1 more axle"), (2, "2 more axles")])
def test_a_long_table_ends_with_what_it_leaves_to_the_page(
    more: int, last: str, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [f"axle-{k}." for k in range(MOST_ROWS + more)]
    rows = table((Column("axle", "axle", Name),), ({"axle": Name(name)} for name in names))
    _show_first("Axles", rows, "axle")
    told = capsys.readouterr().out
    assert [name for name in names if name in told] == names[:MOST_ROWS]
    assert last in told.splitlines()[-1]
    assert ("refit-sheet.html" in told) == bool(more)
