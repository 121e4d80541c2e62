"""Fixtures of the tests of `cli`."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from nesting.nest import EFFORTS
from parts.checks.setting import Setting
from parts.rating.assess import Assessment, assess


@pytest.fixture
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the current one, so that the default out/ shows."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture(autouse=True)
def nest_quickly(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command line's own tests do not wait for the full search; it has its own."""
    monkeypatch.setitem(EFFORTS, "normal", EFFORTS["quick"])


@pytest.fixture(autouse=True)
def in_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a test puts in place of the analysis stands in this process alone."""
    monkeypatch.setattr("cli.beside._alone", lambda: False)


@pytest.fixture(autouse=True)
def rate_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Builds of one wheel share its stress analysis, on a coarse mesh: rating has its own tests."""
    monkeypatch.setattr("cli.build.assess", _rate_once)


@cache
def _rate_once(setting: Setting) -> Assessment:
    return assess(setting, size_mm=4.0)
