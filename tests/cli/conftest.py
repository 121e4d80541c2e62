"""Fixtures of the tests of `cli`."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the current one, so that the default out/ shows."""
    monkeypatch.chdir(tmp_path)
    return tmp_path
