"""One record of a table: named columns of a kind, for terminal, page and program."""

from __future__ import annotations

import pytest

from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, table
from platewheel.cli.words.values import Length, Mass

COLUMNS = (
    Column("part", "Part", Name, short="part"),
    Column("size", "Size", Length),
    Column("mass", "kg", Mass, "number", bare=True),
)
ROW: Cells = {"part": Name("disc"), "size": Length(25.4), "mass": Mass(1.25, ".2f")}


def test_cells_stand_below_their_heads() -> None:
    found = table(COLUMNS, [ROW], [{"mass": Mass(3)}])
    assert found.heads() == ["Part", "Size", "kg"]
    assert found.heads(short=True) == ["part", "Size", "kg"]
    assert list(found.cells("mm")) == [["disc", "25.4 mm", "1.25"], ["", "", "3.0"]]
    assert next(found.cells("inch"))[1] == "1 in (25.4 mm)"
    assert [look for look, _ in found.lines("mm")] == ["", "sum"]


def test_some_columns_in_another_order() -> None:
    found = table(COLUMNS, [ROW]).only("mass", "part")
    assert found.heads() == ["kg", "Part"]
    assert list(found.cells("mm")) == [["1.25", "disc"]]


def test_a_program_reads_rows_and_no_sums() -> None:
    found = table(COLUMNS, [{**ROW, "mass": None}], [{"mass": Mass(3)}])
    assert found.as_json() == [{"part": "disc", "size": 25.4, "mass": None}]


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"part": Name("disc"), "size": Length(1)}, "a row of"),
        ({**ROW, "more": Mass(1)}, "a row of"),
        ({**ROW, "mass": Length(1)}, "mass: Length"),
    ],
)
def test_a_row_that_does_not_fit_is_refused(cells: Cells, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        table(COLUMNS, [cells])


def test_words_stand_in_any_column() -> None:
    found = table(COLUMNS, [{**ROW, "mass": Name("not known")}])
    assert next(found.cells("mm"))[2] == "not known"
