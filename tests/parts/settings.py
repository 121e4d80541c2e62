"""The demo's setting, for tests that need a whole track and wagon."""

from __future__ import annotations

from platewheel.cli.job.job import read_job
from platewheel.parts.setting.setting import Setting
from tests.places import DEMO


def demo_setting() -> Setting:
    """The salt-marsh tramway."""
    return read_job(DEMO).setting
