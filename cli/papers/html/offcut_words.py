"""What is kept of the plates, in words: labels for pictures, a table for the job sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from platewheel.cli.schema.report import OffcutRow, SheetRow
from platewheel.cli.words.phrases import Name, Phrase, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Length, Lengths, Quantity

LETTER = 0.007  # of a picture, a letter's width that can be read in print
COLUMNS = (
    Column("name", "Chalk on it", Name),
    Column("file", "Left of", Name),
    Column("thick", "Thick", Length, "number"),
    Column("size", "Size", Phrase),
    Column("area", "cm2", Quantity, "number", bare=True),
)


def offcut_marks(sheet: SheetRow) -> list[tuple[list[tuple[float, float]], str]]:
    """For each piece of a layout its corners and a label: size, and the names to keep it as;
    on a small piece the end of the names alone."""
    size, marks = max(sheet.length_mm, sheet.width_mm), []
    for _, same in groupby(sheet.offcuts, key=lambda row: (row.outline, row.holes)):
        rows = list(same)
        label = f"{size_words(rows[0]).told('mm')}, keep as {_names(rows)}"
        if max(rows[0].length_mm, rows[0].width_mm) < len(label) * LETTER * size:
            label = _names(rows).removeprefix(rows[0].name.rpartition(" ")[0]).strip()
        marks.append((rows[0].outline, label))
    return marks


def size_words(row: OffcutRow) -> Phrase:
    """ "1250 x 870 mm"; "in 1250 x 870 mm" for what is no rectangle."""
    plain = abs(row.area_mm2 - row.length_mm * row.width_mm) < 1e-6 * row.area_mm2
    return phrase("" if plain else "in ", Lengths((row.length_mm, row.width_mm), " x ", "g"))


def _names(rows: Sequence[OffcutRow]) -> str:
    first, last = rows[0].name, rows[-1].name
    return first if len(rows) == 1 else f"{first} to {last.rsplit('-', 1)[-1]}"


def offcuts_table(sheets: Iterable[SheetRow]) -> Table:
    """A row a piece that is kept."""
    return table(
        COLUMNS,
        (
            {
                "name": Name(row.name),
                "file": Name(sheet.file),
                "thick": Length(sheet.thickness_mm, "g", "rule"),
                "size": size_words(row),
                "area": Quantity(row.area_mm2 / 100, ".0f", "cm2"),
            }
            for sheet in sheets
            for row in sheet.offcuts
        ),
    )
