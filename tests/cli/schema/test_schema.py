"""The schema of report.json tells of each of its properties what it is."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.metadata import version
from types import SimpleNamespace
from typing import Any

import pytest
from typer.testing import CliRunner

from platewheel.cli.commands.main import app
from platewheel.cli.schema.propose import ProposeReport, SieveRow
from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.schema.report import Report
from platewheel.cli.schema.row import SCHEMA_VERSION, Row

WHOLE = (Report, RefitReport, ProposeReport)


def properties(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, table in (("report", schema), *schema["$defs"].items()):
        for key, told in table.get("properties", {}).items():
            yield f"{name}.{key}", told


@pytest.mark.parametrize("kind", WHOLE)
def test_every_property_says_what_it_is(kind: type[Row]) -> None:
    told = dict(properties(kind.model_json_schema()))
    assert [name for name, one in told.items() if not one.get("description")] == []
    assert len(told) > 60


@pytest.mark.parametrize("kind", WHOLE)
def test_a_report_tells_by_what_it_was_written(kind: type[Row]) -> None:
    told = dict(properties(kind.model_json_schema()))
    assert told["report.schema_version"]["default"] == SCHEMA_VERSION
    assert "report.version" in told


def test_the_command_tells_its_version() -> None:
    told = CliRunner().invoke(app, ["--version"])
    assert (told.exit_code, told.stdout) == (0, f"platewheel {version('platewheel')}\n")


def test_a_row_takes_what_the_record_calls_alike_and_nothing_by_default() -> None:
    sieve = SimpleNamespace(check="axle", came=9, passed=4, warned=1, other="not of the row")
    row = SieveRow.of(sieve, passed=5)
    assert row == SieveRow(check="axle", came=9, passed=5, warned=1)
    del sieve.warned  # has a default, which is not taken
    with pytest.raises(AttributeError, match="warned"):
        SieveRow.of(sieve)
