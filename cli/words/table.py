"""A table as one record: named columns of a kind, rows of values by the names of the columns.

Terminal, page, PDF and JSON draw from the same record; none of them counts cells.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import UnionType
from typing import Literal

from platewheel.cli.words.phrases import Words
from platewheel.cli.words.values import Raw, Value
from platewheel.parts.base.units import Units

Align = Literal["text", "name", "number", "box"]  # name: not broken; box: to be ticked by hand
Look = Literal["", "sum", "first"]  # sum: below the others; first: begins a group


@dataclass(frozen=True)
class Column:
    """What stands below one head. Its cells are of `kind`, or words, or empty."""

    key: str
    head: str
    kind: type | UnionType
    align: Align = "text"
    short: str = ""  # head on the terminal, where it is another one
    bare: bool = False  # its head, or the page, tells the unit; its cells leave it out


@dataclass(frozen=True)
class Row:
    """Values by the keys of the columns; None is an empty cell."""

    cells: Mapping[str, Value | None]
    look: Look = ""


@dataclass(frozen=True)
class Table:
    """Raises: ValueError where a row has other cells than the columns, or of another kind."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def __post_init__(self) -> None:
        keys = [column.key for column in self.columns]
        for row in self.rows:
            if set(row.cells) != set(keys):
                raise ValueError(f"a row of {[*row.cells]} in a table of {keys}")
            for column in self.columns:
                cell = row.cells[column.key]
                if cell is not None and not isinstance(cell, column.kind | Words):
                    raise ValueError(f"{column.key}: {cell!r} is no {column.kind}")

    def only(self, *keys: str) -> Table:
        """The table with these columns alone, in this order."""
        by_key = {column.key: column for column in self.columns}
        rows = (replace(row, cells={key: row.cells[key] for key in keys}) for row in self.rows)
        return Table(tuple(by_key[key] for key in keys), tuple(rows))

    def lines(self, units: Units) -> Iterator[tuple[Look, list[tuple[Column, str]]]]:
        """Each row: how it looks, and its cells as they are told, each with its column."""
        for row in self.rows:
            cells = ((column, row.cells[column.key]) for column in self.columns)
            yield (
                row.look,
                [
                    (column, "" if cell is None else cell.told(units, column.bare))
                    for column, cell in cells
                ],
            )

    def cells(self, units: Units) -> Iterator[list[str]]:
        """Each row as it is told."""
        return ([told for _, told in line] for _, line in self.lines(units))

    def unwritten(self) -> list[bool]:
        """Of each column, whether all its cells are empty: for a hand to fill."""
        return [all(row.cells[one.key] is None for row in self.rows) for one in self.columns]

    def heads(self, short: bool = False) -> list[str]:
        """Heads of the columns; `short` for the terminal."""
        return [(short and column.short) or column.head for column in self.columns]

    def as_json(self) -> list[dict[str, Raw]]:
        """Rows as a program reads them, without the sums below."""
        return [
            {key: None if cell is None else cell.raw for key, cell in row.cells.items()}
            for row in self.rows
            if row.look != "sum"
        ]


Cells = Mapping[str, Value | None]


def table(columns: Sequence[Column], rows: Iterable[Cells], sums: Iterable[Cells] = ()) -> Table:
    """A table of rows, and of the sums below them, which may leave cells out.

    Raises: ValueError as `Table`.
    """
    blank = dict.fromkeys(column.key for column in columns)
    made = [Row(cells) for cells in rows]
    made += [Row({**blank, **cells}, "sum") for cells in sums]
    return Table(tuple(columns), tuple(made))
