"""Standards of track and wheel in tables, for paper and terminal alike."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Length, Lengths, Quantity, Value
from platewheel.parts.standards.published import Published, Range
from platewheel.parts.standards.rows import Standard
from platewheel.parts.standards.widening import Widening

COLUMNS = (
    Column("symbol", "", Name, "name"),
    Column("name", "size", Name),
    Column("least", "least", Length | Quantity, "number", bare=True),
    Column("has", "here", Length | Quantity, "number", bare=True),
    Column("most", "most", Length | Quantity, "number", bare=True),
    Column("outside", "", Name),
    Column("follows", "follows from", Name),
)
WIDENING = (
    Column("radius", "radius of the curve", Quantity, "number"),
    Column("least", "least widening", Length, "number"),
    Column("says", "", Name),
)


def published_head(one: Published) -> str:
    """Head of a column of published values."""
    return f"{one.gauge_mm:g} mm: {one.name}"


def standards_table(rows: Iterable[Standard], published: Iterable[Published]) -> Table:
    """A row a size, with the published values of other gauges beside it."""
    outside = tuple(published)
    heads = tuple(
        Column(f"published_{k}", published_head(one), Lengths | Name, "number", bare=True)
        for k, one in enumerate(outside)
    )
    return table(
        (*COLUMNS, *heads),
        (
            _cells(row) | {f"published_{k}": _range(one, row) for k, one in enumerate(outside)}
            for row in rows
        ),
    )


def _cells(row: Standard) -> dict[str, Value | None]:
    named = row.name if row.unit == "mm" else f"{row.name}, {row.unit}"
    return {
        "symbol": Name(row.symbol),
        "name": Name(named),
        "least": _size(row, row.least),
        "has": _size(row, row.has),
        "most": _size(row, row.most),
        "outside": Name("" if row.holds else "outside"),
        "follows": Name(row.follows),
    }


def _size(row: Standard, value: float | None) -> Value | None:
    if value is None:
        return None
    return Length(value) if row.unit == "mm" else Quantity(value, ".1f", row.unit)


def _range(one: Published, row: Standard) -> Value | None:
    least, most = one.rows.get(row.key, (None, None))
    return range_value((least, most), row.unit)


def range_value(pair: Range, unit: str) -> Value | None:
    """Least and most as published: one alone as `from` or `to`."""
    least, most = pair
    if least is None and most is None:
        return None
    both = [value for value in (least, most) if value is not None]
    if unit != "mm":
        return Name(("to " if least is None else "from " if most is None else "") + f"{both[0]:g}")
    if len(both) == 2 and both[0] != both[1]:
        return Lengths((both[0], both[1]), " to ", "g")
    if len(both) == 2:
        return Lengths((both[0],), "", "g")
    return Name(f"{'to' if least is None else 'from'} {both[0]:g}")


def widening_words(rows: Iterable[Widening]) -> Table:
    """A row a radius."""
    return table(WIDENING, (_widening(row) for row in rows))


def _widening(row: Widening) -> Cells:
    return {
        "radius": Quantity(row.radius_m, "g", "m"),
        "least": None if row.least_mm is None else Length(row.least_mm),
        "says": Name("no widening lets this wagon through" if row.least_mm is None else ""),
    }
