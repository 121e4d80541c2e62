"""A job file with another wheel: everything else stays as it is written."""

from __future__ import annotations

import tomllib

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.job.written_wheel import with_wheel
from platewheel.parts.base.faults import SpecError
from tests.places import DEMO


def test_values_change_and_the_rest_stays() -> None:
    text = DEMO.read_text(encoding="utf-8")
    wheel = read_job(DEMO).wheel.model_dump() | {"tread_diameter_mm": 280.0, "root_weld_mm": 6.0}
    written = with_wheel(text, wheel)
    before, after = tomllib.loads(text), tomllib.loads(written)
    assert after.pop("wheel") == wheel
    before.pop("wheel")
    assert after == before
    assert "tread_diameter_mm = 280\n" in written
    assert "root_weld_mm = 6\n" in written  # its comment spoke of the old value
    assert "gauge_widening_mm = 4\n" in written
    assert "# into the landing" in written


def test_inline_tables_are_refused() -> None:
    with pytest.raises(SpecError, match="a bare key a line"):
        with_wheel("wheel = {tread_diameter_mm = 300}\n", {"tread_diameter_mm": 280.0})


def test_keys_in_quotes_are_refused() -> None:
    with pytest.raises(SpecError, match="a key in quotes"):
        with_wheel('[wheel]\n"tread_diameter_mm" = 300\n', {"tread_diameter_mm": 280.0})


def test_a_sum_that_is_not_round_is_written_rounded() -> None:
    """0.32 + 0.25 is 0.5700000000000001."""
    wheel = read_job(DEMO).wheel.model_dump() | {"fit_clearance_mm": 0.32 + 0.25}
    written = with_wheel(DEMO.read_text(encoding="utf-8"), wheel)
    assert tomllib.loads(written)["wheel"]["fit_clearance_mm"] == 0.57
