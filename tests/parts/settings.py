"""The demo's setting, for tests that need a whole track and wagon."""

from __future__ import annotations

from pathlib import Path

import cli
from cli.job import read_job
from parts.checks.setting import Setting

DEMO = Path(cli.__file__).parent / "jobs" / "demo.toml"


def demo_setting() -> Setting:
    """The salt-marsh tramway."""
    return read_job(DEMO).setting
