"""Pages from templates: what comes from a job is escaped; a broken template is told by its line."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

from platewheel.cli.papers.html import render as module
from platewheel.cli.papers.html.render import TEMPLATES, drawn, render
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, Row, Table, table
from platewheel.cli.words.values import Length
from platewheel.cli.work.not_finished import NotFinished
from platewheel.parts.base.units import Units
from tests.cli.jobs import job_text, run, write_job

Edited = Callable[[str, str, str], Path]


@pytest.fixture
def edited(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Edited:
    """The templates as somebody changed them."""

    def change(name: str, old: str, new: str) -> Path:
        folder = tmp_path / "templates"
        shutil.copytree(TEMPLATES, folder)
        text = (folder / name).read_text(encoding="utf-8")
        assert old in text
        (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")
        monkeypatch.setattr(module, "TEMPLATES", folder)
        return folder / name

    return change


def page_of(record: Table, units: Units = "mm") -> ElementTree.Element:
    """A table on a page of its own."""
    text = render("buying.html", units, bought=record, unpriced="", axles_bought=True)
    return ElementTree.fromstring(f"<page>{text}</page>")


def lengths(count: int, *rows: str) -> Table:
    columns = [Column(f"c{i}", f"b<{i}", Name) for i in range(count - 1)]
    cells: list[dict[str, Name | Length]] = [
        {**{column.key: Name(row) for column in columns}, "mm": Length(25.4)} for row in rows
    ]
    return table([*columns, Column("mm", "mm", Length, "number")], cells)


def test_a_cell_knows_its_head_for_the_phone_and_is_escaped() -> None:
    tree = page_of(lengths(5, "<x>"))
    assert [td.get("data-head") for td in tree.iter("td")] == ["b<0", "b<1", "b<2", "b<3", "mm"]
    assert [td.text for td in tree.iter("td")] == ["<x>"] * 4 + ["25.4 mm"]
    assert [td.get("class") for td in tree.iter("td")] == [None] * 4 + ["n"]
    assert [found.get("class") for found in tree.iter("table")] == ["stack"]
    assert [found.get("class") for found in page_of(lengths(4, "x")).iter("table")] == [None]


def test_cells_are_told_in_the_units_of_the_paper() -> None:
    assert [td.text for td in page_of(lengths(1, "x"), "inch").iter("td")] == ["1 in (25.4 mm)"]


def test_a_row_looks_as_it_says() -> None:
    column = Column("a", "a", Name)
    rows = [Row({"a": Name("1")}, "first"), Row({"a": Name("2")}), Row({"a": Name("3")}, "sum")]
    trees = list(page_of(Table((column,), tuple(rows))).iter("tr"))[1:]
    assert [tr.get("class") for tr in trees] == ["first", None, "sum"]


def test_a_drawing_is_taken_as_it_is_and_words_are_not() -> None:
    lines = lengths(1, "x")
    assert "<svg/>" in render("record.html", "mm", words=drawn("<svg/>"), lines=lines)
    assert "&lt;svg/&gt;" in render("record.html", "mm", words="<svg/>", lines=lines)


def test_a_name_that_is_not_given_is_an_error() -> None:
    with pytest.raises(NotFinished) as error:
        render("record.html", "mm", lines=lengths(1, "x"))
    assert error.value.lines == [f"{TEMPLATES / 'record.html'}, line 4: 'words' is undefined"]


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("{% endif %}", "{% endfi %}", 11, "endfi"),
        ("{{ table(works, units) }}", "{{ table(work, units) }}", 4, "'work' is undefined"),
    ],
)
def test_a_broken_template_is_told_by_its_line_and_nothing_is_written(
    edited: Edited, own_folder: Path, old: str, new: str, line: int, said: str
) -> None:
    file = edited("time.html", old, new)
    result = run("build", write_job(own_folder, job_text({"job.wheels": "1"})))
    assert result.exit_code == 3
    (told,) = result.stderr.splitlines()
    assert f"{file}, line {line}: " in told
    assert said in told
    assert not any((own_folder / "out").glob("*"))
