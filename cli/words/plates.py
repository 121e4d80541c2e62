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
    Column("stock", "Plate", Phrase, short="plate"),
    Column("thick", "Thick", Length, "number"),
    Column("repeat", "Cut", Count, "number", short="cut"),
    Column("blanks", "Blanks on it", Name, short="blanks"),
    Column("scrap", "scrap", Percent),
    Column("scrap_percent", "Scrap %", Percent, "number", bare=True),
    Column("minutes", "min each", Quantity, "number", bare=True),
)
LENGTHS = (
    Column("stock", "From", Phrase, short="from"),
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
                "stock": plate_words(sheet),
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


def plate_words(sheet: SheetRow) -> Phrase:
    """A plate by its size or an offcut by its name; and which pieces of the rack are cut so."""
    return phrase(PlateName(sheet.stock)) if sheet.offcut else _with_rack(sheet)


def _with_rack(row: SheetRow | LengthRow) -> Phrase:
    return phrase(PlateName(row.stock), *([f": {rack_words(row)}"] if row.rack else []))


def rack_words(row: SheetRow | LengthRow) -> str:
    """`plate-1, plate-2, 1 to buy`: the pieces that are cut so."""
    more = row.repeat - len(row.rack)
    return ", ".join([*row.rack, *([f"{more} to buy"] if more else [])])


def lengths_table(lengths: Iterable[LengthRow], units: Units = "mm") -> Table:
    """A row a way to saw a bar or pipe."""
    return table(
        LENGTHS,
        (
            {
                "stock": _with_rack(row),
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
