"""stdout and stderr closed, full, or without a reader: the exit code is that of the work."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from platewheel.cli.terminal.exits import tell_file
from platewheel.cli.terminal.show import say, show_table
from platewheel.cli.terminal.streams import Forgiving
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, table

PYTHON = f'"{sys.executable}" -m platewheel'
LINUX = pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full")


def shell(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["bash", "-c", line], cwd=folder, capture_output=True, text=True, check=False
    )


@LINUX
@pytest.mark.parametrize(
    ("line", "code", "told"),
    [
        ("{} schema | head -1; exit ${{PIPESTATUS[0]}}", 0, ""),
        ("{} schema >&-", 0, ""),
        ("{} schema >/dev/full", 3, "stdout: No space left on device; what was to be shown"),
        ("{} check none.toml 2>/dev/full", 2, ""),
        ("{} check none.toml <&- >&- 2>&-", 2, ""),
        ("{} new a.toml >/dev/full", 0, "stdout: No space left on device; what was to be shown"),
    ],
)
def test_the_code_is_that_of_the_work(line: str, code: int, told: str, tmp_path: Path) -> None:
    done = shell(line.format(PYTHON), tmp_path)
    assert done.returncode == code
    assert done.stderr.startswith(told)
    assert len(done.stderr.splitlines()) == bool(told)


@pytest.mark.parametrize("wide", [40, 60, 80, 200])
def test_a_long_line_is_folded_where_a_person_reads(
    wide: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    line = "not priced in A: plates, hub tube, cutting, filler and gas, " * 5 + "a\x1b[31mb"
    monkeypatch.delenv("COLUMNS", raising=False)
    say(line)
    assert capsys.readouterr().out == f"{line}\n"
    monkeypatch.setenv("COLUMNS", str(wide))
    for terminal in (False, True):  # piped it is asked for by the variable alone
        monkeypatch.setattr(sys.stdout, "isatty", lambda there=terminal: there)
        say(line)
        told = capsys.readouterr().out
        assert max(map(len, told.splitlines())) <= wide
        assert told.split() == line.replace("\x1b", " ").split()


def test_the_title_of_a_narrow_table_is_folded_too(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    shown = table([Column(name, name, Name) for name in "abc"], [{one: Name(one) for one in "abc"}])
    show_table("Checks that differ: verdict, value against limit, margin", shown)
    told = capsys.readouterr().out.splitlines()
    assert max(map(len, told)) <= 40
    assert told[-4:] == ["a: a", "b: b", "c: c", ""]


@LINUX
def test_a_folder_that_is_gone_is_told_before_any_work(tmp_path: Path) -> None:
    """getcwd(3): ENOENT, the current working directory has been unlinked."""
    here = tmp_path / "here"
    here.mkdir()
    done = shell(f'rmdir "{here}"; {PYTHON} new {tmp_path}/job.toml', here)
    assert done.returncode == 3
    assert done.stderr == (
        "the folder that this was started in is gone; change into another one first\n"
    )
    assert [*tmp_path.iterdir()] == []


@LINUX
def test_what_cannot_be_written_is_forgotten(tmp_path: Path) -> None:
    stream = Forgiving(open("/dev/full", "wb"), encoding="utf-8", write_through=True)  # noqa: SIM115
    assert stream.write("first") == 5
    stream.flush()
    assert stream.lost is not None
    stream.write("second")
    stream.close()


def test_a_name_is_shown_without_what_a_terminal_acts_upon(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """ECMA-48: ESC begins a control sequence."""
    named = Path("a\x1b[31mb.pdf")
    tell_file(named)
    tell_file(named, aside=True)
    for stream in (sys.stdout, sys.stderr):
        monkeypatch.setattr(stream, "isatty", lambda: True)
    tell_file(named)
    tell_file(named, aside=True)
    assert set(capsys.readouterr()) == {"a\x1b[31mb.pdf\na [31mb.pdf\n"}
