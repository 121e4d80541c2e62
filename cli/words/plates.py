"""Tables of plates and of lengths to saw; terminal and page take the columns that they show."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.report import LengthRow, SheetRow
from platewheel.cli.words.figures import counted
from platewheel.cli.words.phrases import Name, Phrase, PlateName, listed, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Length, Percent, Quantity
from platewheel.parts.base.units import Units

PLATES = (
    Column("file", "Cutting file", Name, short="file"),
    Column("stock", "Plate", PlateName, short="plate"),
    Column("thick", "Thick", Length, "number"),
    Column("repeat", "Cut", Count, "number", short="cut"),
    Column("blanks", "Blanks on it", Name, short="blanks"),
    Column("scrap", "scrap", Percent),
    Column("scrap_percent", "Scrap %", Percent, "number", bare=True),
    Column("minutes", "min each", Quantity, "number", bare=True),
)
LENGTHS = (
    Column("stock", "From", PlateName, short="from"),
    Column("length", "Length", Length, "number", short="mm", bare=True),
    Column("repeat", "Cut", Count, "number", short="cut"),
    Column("pieces", "Pieces", Name, short="pieces"),
    Column("pieces_of", "Pieces", Phrase, bare=True),
    Column("rest", "Rest", Length, "number", short="rest mm", bare=True),
)


def plates_table(sheets: Iterable[SheetRow]) -> Table:
    """A row a cutting file."""
    return table(
        PLATES,
        (
            {
                "file": Name(sheet.file),
                "stock": PlateName(sheet.stock),
                "thick": Length(sheet.thickness_mm, "g", "rule"),
                "repeat": Count(sheet.repeat),
                "blanks": Name(counted(p.blank for p in sheet.placements)),
                "scrap": Percent(sheet.scrap_percent),
                "scrap_percent": Percent(sheet.scrap_percent),
                "minutes": Quantity(sheet.cutting_minutes, ".0f", "min"),
            }
            for sheet in sheets
        ),
    )


def lengths_table(lengths: Iterable[LengthRow], units: Units = "mm") -> Table:
    """A row a way to saw a bar or pipe."""
    return table(
        LENGTHS,
        (
            {
                "stock": PlateName(row.stock),
                "length": Length(row.stock_length_mm, "g" if units == "mm" else ".0f", "rule"),
                "repeat": Count(row.repeat),
                "pieces": Name(", ".join(f"{n} {name}" for name, n in row.pieces.items())),
                "pieces_of": _pieces(row),
                "rest": Length(row.rest_mm, ".0f", "rule"),
            }
            for row in lengths
        ),
    )


def _pieces(row: LengthRow) -> Phrase:
    each = Length(row.piece_length_mm, ".1f", "rule")
    return listed(phrase(f"{n} {name} of ", each) for name, n in row.pieces.items())
