"""Checks on a terminal: failures last, counted in the last line, readable at any width."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from platewheel.cli.report.judged_rows import check_rows
from platewheel.cli.schema.report import CheckRow
from platewheel.cli.terminal.checks import check_lines, counted, show_checks
from platewheel.cli.terminal.exits import tell_warnings
from platewheel.cli.terminal.width import columns, folded, row_blocks
from platewheel.parts.checks.result import CheckResult, judged, worst_first
from tests.cli.jobs import job_text, run, write_job

WIDTHS = (40, 60, 80, 120, 200)


def result(id: str, value: float, bad_verdict: str = "fail") -> CheckResult:
    return judged(
        id,
        f"Title of {id}",
        value,
        10.0,
        "mm",
        f"handbook of {id}",
        at_most=True,
        good=f"{id} holds",
        bad=f"{id} does not hold: wheel.weld_throat_mm = 4.5 or thicker plates all round",
        bad_verdict=bad_verdict,  # type: ignore[arg-type]
    )


@pytest.fixture(scope="module")
def rows() -> list[CheckRow]:
    found = [result("a", 5.0), result("b", 12.0), result("c", 30.0), result("d", 11.0, "warn")]
    none = CheckResult("e", "Title of e", None, None, "", "not-assessed", "not known", "none")
    return check_rows(worst_first([*found, none]))


def test_the_worst_stands_last_above_the_count(rows: list[CheckRow]) -> None:
    lines = [text for _, text in check_lines(rows)]
    assert lines[-1] == counted(rows) == "2 fail, 1 warn, 1 pass, 1 not assessed"
    assert lines[-3] == "fail  Title of c: 30 mm, at most 10 mm, margin -200%"
    heads = [line.split("  ")[0] for line in lines[1:-1] if not line.startswith(" ")]
    assert heads == ["not assessed", "warn", "fail", "fail"]


def test_passes_and_sources_are_told_when_asked_for(rows: list[CheckRow]) -> None:
    plain = "\n".join(text for _, text in check_lines(rows))
    every = "\n".join(text for _, text in check_lines(rows, every=True))
    sources = "\n".join(text for _, text in check_lines(rows, sources=True))
    assert "Title of a" not in plain
    assert "handbook" not in plain
    assert "--all" in plain
    assert "pass  Title of a: 5 mm, at most 10 mm, margin +50%" in every
    assert every.count("source: ") == 5
    assert "Title of a" not in sources
    assert "source: handbook of c" in sources


def test_one_reason_of_many_checks_is_said_once() -> None:
    """A disc of one's own leaves twenty without a verdict; another reason stands by itself."""
    why = {"e": "no such disc", "f": "no such disc", "g": "no axle", "h": "no such disc"}
    open_ones = [
        CheckResult(id, f"Title of {id}", None, None, "", "not-assessed", says, f"book of {id}")
        for id, says in why.items()
    ]
    told = check_rows([result("b", 12.0), *open_ones])
    text = "\n".join(line for _, line in check_lines(told))
    assert text.count("no such disc") == 1
    assert "not assessed  3 checks: Title of h; Title of f; Title of e\n      no such" in text
    assert "not assessed  Title of g\n      no axle" in text
    assert text.endswith("1 fail, 0 warn, 0 pass, 4 not assessed")
    sources = [line for _, line in check_lines(told, sources=True)]
    assert "      source of Title of f: book of f" in sources


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_is_wider_than_the_terminal_and_no_value_leaves_its_key(
    rows: list[CheckRow], width: int
) -> None:
    lines = [text for _, text in check_lines(rows, width, every=True)]
    assert max(map(len, lines)) <= width
    assert sum("wheel.weld_throat_mm = 4.5" in line for line in lines) == 3


def test_a_line_is_folded_below_its_head() -> None:
    assert folded("one two three", None) == ["one two three"]
    assert folded("one two three", 8, 2) == ["one two", "  three"]


def test_a_table_too_wide_is_told_a_row_a_block() -> None:
    told = list(row_blocks(["file", "scrap"], [["a.dxf", "12 %"], ["b.dxf", ""]], 40))
    assert told == ["file: a.dxf", "scrap: 12 %", "", "file: b.dxf", ""]


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_only_a_terminal_is_given_colour_and_folds(
    rows: list[CheckRow], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "60")
    monkeypatch.setenv("TERM", "xterm")
    for name in ("NO_COLOR", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for out, coloured in ((Terminal(), True), (io.StringIO(), False)):
        monkeypatch.setattr("sys.stdout", out)
        show_checks(rows)
        assert ("\x1b[" in out.getvalue()) == coloured
    piped = io.StringIO()
    assert (columns(piped), columns(piped, asked=True), columns(Terminal())) == (None, 60, 60)


def test_warnings_are_counted_last_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    for out, last in ((Terminal(), "2 warnings"), (io.StringIO(), "two " * 19 + "two")):
        monkeypatch.setattr("sys.stderr", out)
        tell_warnings(["one", "two " * 19 + "two"])
        lines = out.getvalue().splitlines()
        assert lines[-1] == last
    assert lines[0] == "one"


def test_the_command_ends_with_the_count(own_folder: Path) -> None:
    thin = {"wheel.vent_count": "0", "finish.coating": '"galvanized"'}
    told = run("check", write_job(own_folder, job_text(thin)), "--quick").stdout
    assert told.splitlines()[-1].split(" fail")[0] == "1"
    assert "\x1b" not in told
    assert "EXPLODES" in told.splitlines()[-2]
