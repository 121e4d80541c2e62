"""The line with a spinner is a thread: it begins with the first step told, after the workers."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
import typer
from rich.console import Console
from rich.status import Status

from platewheel.cli.output import build
from platewheel.cli.propose import run
from platewheel.cli.propose.wanted import Wanted
from platewheel.cli.script.job_file import demo
from platewheel.cli.terminal.exits import exit_codes
from platewheel.cli.terminal.show import steps
from platewheel.cli.work import stopping
from platewheel.cli.work.stopping import ToldToStop


def test_the_spinner_begins_with_the_first_step(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(Console, "is_terminal", True)
    before = threading.active_count()
    with steps() as step:
        assert threading.active_count() == before
        step("nesting")
        assert threading.active_count() == before + 1
        step("papers")
        assert threading.active_count() == before + 1
    with steps():
        pass
    assert "papers" in capsys.readouterr().err


def test_a_stop_leaves_no_spinner_half_made(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    start = Status.start

    def told(status: Status) -> None:
        stopping._heard(signal.SIGTERM, None)
        start(status)

    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    monkeypatch.setattr(Console, "is_terminal", True)
    monkeypatch.setattr(Status, "start", told)
    with pytest.raises(ToldToStop), steps() as step:
        step("nesting")
    shown = capsys.readouterr().err
    assert shown.index("\x1b[?25l") < shown.index("\x1b[?25h")  # DECTCEM: cursor hidden, shown


def test_what_breaks_on_the_way_out_of_a_stop_is_no_fault(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped() -> None:
        try:
            raise ToldToStop
        finally:
            [].pop()

    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    with pytest.raises(typer.Exit) as left, exit_codes():
        stopped()
    assert left.value.exit_code == 3
    assert capsys.readouterr().err == "stopped; nothing is written, all is as it was\n"


class FirstStep(Exception):  # noqa: N818 - what the run is ended by
    pass


@pytest.mark.parametrize(
    ("room", "work"),
    [
        (build, lambda out, step: build.build_job(demo().job, out, 0, step)),
        (run, lambda out, step: run.propose(demo().job, Wanted(200, 400), step)),
    ],
    ids=["build", "propose"],
)
def test_workers_are_there_before_it(
    room: ModuleType,
    work: Callable[[Path, Any], object],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[object] = []

    class Pool:
        def submit(self, work: object, *given: object, **more: object) -> None:
            asked.append(work)

    @contextmanager
    def beside(workers: int = 1) -> Iterator[Pool]:
        yield Pool()

    def step(text: str) -> None:
        assert asked
        raise FirstStep

    monkeypatch.setattr(room, "beside", beside)
    with pytest.raises(FirstStep):
        work(tmp_path, step)
