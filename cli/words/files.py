"""Tables of files that a command wrote."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.solids import SolidRow
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Mass, Quantity

SOLIDS = (
    Column("part", "part", Name),
    Column("count", "how many", Name),
    Column("volume", "cm3 each", Quantity, bare=True),
    Column("mass", "kg each", Mass, bare=True),
    Column("file", "file", Name),
)
TEMPLATES = (Column("file", "file", Name), Column("pages", "pages", Count))


def solids_table(solids: Iterable[SolidRow]) -> Table:
    """A row a part, an assembly, a model to print, and what is there for reference."""
    return table(
        SOLIDS,
        (
            {
                "part": Name(one.name),
                "count": Name(f"{one.count} {one.within}".strip()),
                "volume": None
                if one.volume_mm3 is None
                else Quantity(one.volume_mm3 / 1000, ".4g", "cm3"),
                "mass": _mass(one),
                "file": Name(one.file),
            }
            for one in solids
        ),
    )


def _mass(one: SolidRow) -> Mass | Name | None:
    if one.reference:
        return Name("for reference")
    return None if one.mass_kg is None else Mass(one.mass_kg, ".3f")


def templates_table(made: Iterable[tuple[str, int]]) -> Table:
    """A row a PDF and its pages."""
    return table(TEMPLATES, ({"file": Name(file), "pages": Count(pages)} for file, pages in made))
