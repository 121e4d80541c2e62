"""Ctrl-C once wheels are found: what is known is proposed, and nothing more is looked for."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from types import SimpleNamespace
from typing import Any

import pytest

from platewheel.cli.propose import run as module
from platewheel.cli.propose.wanted import Wanted
from tests.cli.propose.easy_job import DEMO_JOB
from tests.cli.propose.rows import laid

SEARCH: Any = SimpleNamespace(job=DEMO_JOB, choices=None, found=None)
GOOD = [laid(DEMO_JOB.wheel, 60.0), laid(DEMO_JOB.wheel, 70.0)]
CHEAPER = laid(DEMO_JOB.wheel.model_copy(update={"weld_throat_mm": 3.5}), 55.0)


def looked_beside(monkeypatch: pytest.MonkeyPatch, **stand_ins: Any) -> Any:
    for name, what in stand_ins.items():
        monkeypatch.setattr(module, name, what)
    with ThreadPoolExecutor(1) as pool:
        wanted = Wanted(250.0, 350.0)
        return module._looked_beside(SEARCH, GOOD, ["one"], wanted, pool, lambda text: None)


def interrupted(*more: object) -> Any:
    raise KeyboardInterrupt


def test_ctrl_c_one_step_away_keeps_the_proposals(
    monkeypatch: pytest.MonkeyPatch, heard: list[str]
) -> None:
    found = looked_beside(monkeypatch, cheaper_steps=interrupted)
    assert found == (GOOD, ["one"], True)
    assert heard == ["the proposal of 2 wheels found"]


def test_ctrl_c_at_other_kinds_keeps_the_cheaper_one_too(
    monkeypatch: pytest.MonkeyPatch, heard: list[str]
) -> None:
    good, left_out, stopped = looked_beside(
        monkeypatch, cheaper_steps=lambda *_: (CHEAPER, ["two"]), other_kinds=interrupted
    )
    assert stopped
    assert good[0] == CHEAPER
    assert left_out == ["one", "two"]
    assert len(heard) == 1


def test_in_a_script_it_ends_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whose author has not asked for less."""
    with pytest.raises(KeyboardInterrupt):
        looked_beside(monkeypatch, cheaper_steps=interrupted)
