"""The table of checks on a page, and what a check's limit is told as."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.report import CheckRow
from platewheel.cli.words.phrases import Name, Phrase, Sentence, phrase
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
                "limit": limit_words(row),
                "says": Sentence(row.says),
                "source": Sentence(row.source),
            }
            for row in checks
        ),
    )


def limit_words(row: CheckRow) -> Phrase | None:
    """`at most 1.3 mm`, or `at least`; None where there is no limit."""
    if row.limit is None:
        return None
    side = {True: "at most ", False: "at least ", None: ""}[row.at_most]
    return phrase(side, Figure(row.limit, row.unit))


def _figure(value: float | None, unit: str) -> Figure | None:
    return None if value is None else Figure(value, unit)
