"""The table of checks, for terminal and page alike."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.report import CheckRow
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Figure

COLUMNS = (
    Column("verdict", "Verdict", Name, short="verdict"),
    Column("check", "Check", Sentence, short="check"),
    Column("value", "Value", Figure, "number", short="value"),
    Column("limit", "Limit", Figure, "number", short="limit"),
    Column("says", "What it says", Sentence, short="says"),
    Column("source", "Source", Sentence, short="source"),
)


def checks_table(checks: Iterable[CheckRow]) -> Table:
    """A row a check, in their order."""
    return table(
        COLUMNS,
        (
            {
                "verdict": Name(row.verdict),
                "check": Sentence(row.title),
                "value": _figure(row.value, row.unit),
                "limit": _figure(row.limit, row.unit),
                "says": Sentence(row.says),
                "source": Sentence(row.source),
            }
            for row in checks
        ),
    )


def _figure(value: float | None, unit: str) -> Figure | None:
    return None if value is None else Figure(value, unit)
