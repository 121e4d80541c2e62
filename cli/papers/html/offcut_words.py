"""What is kept of the plates, in words: labels for pictures, rows for the job sheet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from platewheel.cli.schema.report import OffcutRow, SheetRow
from platewheel.cli.words.figures import thickness
from platewheel.cli.words.inches import in_inches
from platewheel.parts.base.units import Units

LETTER = 0.007  # of a picture, a letter's width that can be read in print
HEADS = ("Chalk on it", "Left of", "Thick", "Size", "cm2")


def offcut_marks(sheet: SheetRow) -> list[tuple[list[tuple[float, float]], str]]:
    """For each piece of a layout its corners and a label: size, and the names to keep it as;
    on a small piece the end of the names alone."""
    size, marks = max(sheet.length_mm, sheet.width_mm), []
    for _, same in groupby(sheet.offcuts, key=lambda row: (row.outline, row.holes)):
        rows = list(same)
        label = f"{size_words(rows[0])}, keep as {_names(rows)}"
        if max(rows[0].length_mm, rows[0].width_mm) < len(label) * LETTER * size:
            label = _names(rows).removeprefix(rows[0].name.rpartition(" ")[0]).strip()
        marks.append((rows[0].outline, label))
    return marks


def size_words(row: OffcutRow) -> str:
    """ "1250 x 870 mm"; "in 1250 x 870 mm" for what is no rectangle."""
    plain = abs(row.area_mm2 - row.length_mm * row.width_mm) < 1e-6 * row.area_mm2
    return f"{'' if plain else 'in '}{row.length_mm:g} x {row.width_mm:g} mm"


def _names(rows: Sequence[OffcutRow]) -> str:
    first, last = rows[0].name, rows[-1].name
    return first if len(rows) == 1 else f"{first} to {last.rsplit('-', 1)[-1]}"


def offcut_cells(sheets: Sequence[SheetRow], units: Units = "mm") -> list[list[str]]:
    """Table rows of all pieces that are kept, below HEADS."""
    return [
        [
            row.name,
            sheet.file,
            thickness(sheet.thickness_mm, units),
            _size(row, units),
            f"{row.area_mm2 / 100:.0f}",
        ]
        for sheet in sheets
        for row in sheet.offcuts
    ]


def _size(row: OffcutRow, units: Units) -> str:
    told = size_words(row)
    return told if units == "mm" else in_inches(told)
