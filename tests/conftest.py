"""Property tests give the same verdict every time, and none asserts a time.

To explore with other examples: `pytest --hypothesis-profile=explore`.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

from platewheel.parts.base import interruptible

# The suite has a worker for each core: linear algebra on several would only wait. Read when numpy
# and scipy are first imported, which no test has done yet.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.pop("COLUMNS", None)  # told to pytest's workers; what a test runs is read by a program

settings.register_profile("explore", derandomize=False, deadline=None)
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")


@pytest.fixture
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the current one, so that the default out/ shows."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def heard(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """As in a command, where Ctrl-C keeps the best found: what is told to be kept."""
    told: list[str] = []
    monkeypatch.setattr(interruptible, "_HEARERS", [told.append])
    monkeypatch.setattr(interruptible, "_KEPT", [])
    return told
