"""Tables of files that a command wrote."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.report import PartRow
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Mass

SOLIDS = (
    Column("part", "part", Name),
    Column("count", "a wheel", Count),
    Column("mass", "kg each", Mass, bare=True),
    Column("file", "file", Name),
)
TEMPLATES = (Column("file", "file", Name), Column("pages", "pages", Count))


def solids_table(parts: Iterable[PartRow]) -> Table:
    """A row a part of the wheel."""
    return table(
        SOLIDS,
        (
            {
                "part": Name(part.name),
                "count": Count(part.count_per_wheel),
                "mass": Mass(part.mass_kg, ".3f"),
                "file": Name(part.step),
            }
            for part in parts
        ),
    )


def templates_table(made: Iterable[tuple[str, int]]) -> Table:
    """A row a PDF and its pages."""
    return table(TEMPLATES, ({"file": Name(file), "pages": Count(pages)} for file, pages in made))
