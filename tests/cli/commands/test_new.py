"""`platewheel new` as a command: what it writes, and what it leaves alone."""

from __future__ import annotations

import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from platewheel.cli.commands.main import app
from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose.wanted import Wanted
from platewheel.cli.schema.propose import OwnRow, ProposeReport
from platewheel.cli.start.questions import QUESTIONS
from platewheel.cli.work import stopping
from platewheel.cli.work.progress import Steps
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.jobs import run
from tests.cli.propose.rows import laid

pytestmark = pytest.mark.usefixtures("own_folder")
MODULE = [sys.executable, "-m", "platewheel"]


def answered(file: str, last: list[str], *, width: int = 80, first: list[str] | None = None) -> Any:
    """`new --ask` with Enter for every question after `first`, then `last`."""
    first = first or []
    lines = [*first, *[""] * (len(QUESTIONS) - len(first)), *last]
    text = "".join(f"{line}\n" for line in lines)
    return CliRunner(env={"COLUMNS": str(width)}).invoke(app, ["new", file, "--ask"], input=text)


def test_it_writes_a_job_that_builds_without_a_failed_check() -> None:
    result = run("new", "new.toml")
    assert (result.exit_code, result.stdout, result.stderr) == (0, "new.toml\n", "")
    text = Path("new.toml").read_text(encoding="utf-8")
    quick = text.replace("\nwheels = 8 ", "\nwheels = 1 ")
    assert quick != text
    Path("new.toml").write_text(quick, encoding="utf-8")
    result = run("build", "new.toml")
    assert result.exit_code == 0, result.stderr
    assert Path("out/my-wheels/job-sheet.html").is_file()


def test_answers_without_end_are_refused() -> None:
    result = CliRunner().invoke(app, ["new", "n.toml", "--ask"], input="y\n" * 600)
    assert result.exit_code == 2
    assert "at most 500 answers" in result.stderr
    assert not Path("n.toml").exists()


def test_a_file_that_is_there_is_kept_unless_told() -> None:
    path = Path("mine.toml")
    path.write_bytes(b"mine\r\n")
    result = run("new", "mine.toml")
    assert result.exit_code == 2
    assert "mine.toml" in result.stderr
    assert "--overwrite" in result.stderr
    assert result.stdout == ""
    assert path.read_bytes() == b"mine\r\n"
    asked = answered("mine.toml", ["2"])
    assert asked.exit_code == 2
    assert "Gauge" not in asked.stdout  # told before anything is asked
    assert path.read_bytes() == b"mine\r\n"
    for flag in ("--overwrite", "--force"):
        path.write_bytes(b"mine\r\n")
        assert run("new", "mine.toml", flag).exit_code == 0
        read_job(path)


def test_a_file_that_cannot_be_made_is_told_in_a_line() -> None:
    result = run("new", "no/such/folder/job.toml")
    assert result.exit_code == 2
    said = "there is no folder no/such/folder; make it first, or try another name"
    assert result.stderr == f"no/such/folder/job.toml: {said}\n"
    Path("folder").mkdir()
    for arguments in (["folder"], ["folder", "--overwrite"]):
        result = run("new", *arguments)
        assert result.exit_code == 2
        assert result.stderr.startswith("folder: is a folder; try ")
        assert len(result.stderr.splitlines()) == 1


def test_every_key_or_questions_not_both() -> None:
    result = run("new", "new.toml", "--all", "--ask")
    assert result.exit_code == 2
    assert "--all" in result.stderr
    assert not Path("new.toml").exists()


def test_answers_that_are_piped_in_make_the_file_in_a_process_of_its_own() -> None:
    lines = ["inch", "quarry", "12", "2 ft", *[""] * (len(QUESTIONS) - 4), "2", ""]
    done = subprocess.run(
        [*MODULE, "new", "asked.toml", "--ask"],
        input="\n".join(lines),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "read as 609.6 mm (24 in)" in done.stdout
    job = read_job(Path("asked.toml"))
    assert (job.head.name, job.head.wheels, job.track.gauge_mm) == ("quarry", 12, 609.6)
    assert run("check", "asked.toml", "--quick").exit_code in (0, 1)


def test_in_a_narrow_terminal_no_line_is_longer_than_it() -> None:
    result = answered("asked.toml", ["2"], width=40)
    assert result.exit_code == 0, result.output
    assert max(map(len, result.stdout.splitlines())) <= 40
    run("new", "plain.toml")
    assert Path("asked.toml").read_bytes() == Path("plain.toml").read_bytes()


@pytest.mark.parametrize("count", [1, 10, len(QUESTIONS)])
def test_answers_that_end_too_soon_write_nothing_and_say_so(count: int) -> None:
    result = CliRunner().invoke(app, ["new", "asked.toml", "--ask"], input="\n" * count)
    assert result.exit_code == 3
    assert result.stderr.endswith(f"the answers end after line {count}: nothing is written\n")
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize("number", [stopping.ASKED, signal.SIGTERM])
@pytest.mark.parametrize("answers", [[], ["mm", "mine"]])
def test_a_stop_writes_nothing_and_says_so(
    number: int, answers: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    given = iter(answers)

    def prompt(label: str, default: str) -> str:
        if (answer := next(given, None)) is None:
            stopping._heard(number, None)
        return str(answer)

    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    monkeypatch.setattr("typer.prompt", prompt)
    result = run("new", "asked.toml", "--ask")
    assert result.exit_code == 3
    assert result.stdout.endswith("\n")  # of a question
    assert result.stderr == "stopped: nothing is written\n"
    assert list(Path().iterdir()) == []


def test_with_no_terminal_and_no_answers_it_is_refused() -> None:
    result = run("new", "asked.toml", "--ask")
    assert result.exit_code == 2
    assert "no terminal, and no answers piped in" in result.stderr
    assert list(Path().iterdir()) == []


class Search:
    """Stands for `propose`, which has tests of its own: what it was asked, what it answers."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, *, finds: bool) -> None:
        self.finds = finds
        self.meanwhile = ""  # what a person writes into the file while it looks
        self.wanted: Wanted | None = None
        self.wheel: WheelSpec | None = None
        monkeypatch.setattr("platewheel.cli.propose.run.propose", self)
        page = Path("proposal.html")
        monkeypatch.setattr("platewheel.cli.output.proposal.write_proposal", lambda *_: page)

    def __call__(self, job: Job, wanted: Wanted, step: Steps) -> ProposeReport:
        self.wanted = wanted
        if self.meanwhile:
            Path("asked.toml").write_text(self.meanwhile, encoding="utf-8")
        values = job.wheel.model_dump() | {"flange_depth_mm": 12.0, "seam": "dressed"}
        self.wheel = WheelSpec(**values)
        row = laid(self.wheel, 5.0, set_back_to_back_mm=430.0, lessons=["Cheap."])
        found = {"proposals": [row]} if self.finds else {"refused": ["no wheel: too heavy"]}
        nothing = {"proposals": [], "refused": [], "left_out": [], "notes": [], "stopped": False}
        own = OwnRow(row=None, against=["too weak"])
        return ProposeReport.model_construct(own=own, **nothing | found)


def test_the_wheel_that_the_search_finds_is_written_with_the_answers(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    search = Search(monkeypatch, finds=True)
    result = answered("asked.toml", ["1"], first=["", "line"])
    assert result.exit_code == 0, result.output
    assert search.wanted == Wanted(210, 390)
    job = read_job(Path("asked.toml"))
    assert job.wheel == search.wheel
    assert (job.head.name, job.axle.back_to_back_mm) == ("line", 430)
    run("new", "plain.toml")
    plain = read_job(Path("plain.toml"))
    assert (
        replace(job, wheel=plain.wheel, axle=plain.axle, head=plain.head, has_axle=False) == plain
    )
    assert "Cheap." in result.stdout


def test_a_diameter_that_is_wanted_is_the_only_one_looked_at_and_a_search_in_vain_is_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    search = Search(monkeypatch, finds=False)
    lines = [*[""] * (len(QUESTIONS) - 1), "25 cm", "1"]
    text = "".join(f"{line}\n" for line in lines)
    result = CliRunner().invoke(app, ["new", "asked.toml", "--ask"], input=text)
    assert result.exit_code == 1
    assert search.wanted == Wanted(250, 250, step_mm=250)
    assert "no wheel: too heavy" in result.stderr
    assert "looks at other tread diameters" in result.stderr
    assert read_job(Path("asked.toml")).wheel.tread_diameter_mm == 250


def test_a_file_that_was_changed_while_it_looked_is_left_as_it_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    search = Search(monkeypatch, finds=True)
    search.meanwhile = "mine"
    result = answered("asked.toml", ["1"])
    assert result.exit_code == 1
    assert "changed meanwhile" in result.stderr
    assert Path("asked.toml").read_text(encoding="utf-8") == "mine"
