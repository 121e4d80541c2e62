"""Standards of track and wheel in tables, for paper and terminal alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Length, Lengths, Quantity, Value
from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.standards.published import Published, Range
from platewheel.parts.standards.rows import SPREAD, Standard
from platewheel.parts.standards.turnout import Sized
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
    Column("least", "least widening", Length | Name, "number"),
    Column("says", "", Name),
)
SETTING_OUT = (
    Column("name", "size", Name),
    Column("size", "", Length | Quantity, "number"),
    Column("follows", "follows from", Name),
)
# what is told beside a least widening of none at all, and where no widening does
SAYS_OF = {0.0: "nor in any easier curve", None: "no widening lets this wagon through"}


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
    spread = row.key in SPREAD
    named = row.name if row.unit == "mm" else f"{row.name}, {row.unit}"
    return {
        "symbol": Name(row.symbol),
        "name": Name(named),
        "least": _size(row, row.least if spread else _rounded(row.least, at_least)),
        "has": _size(row, row.has),
        "most": _size(row, row.most if spread else _rounded(row.most, at_most)),
        "outside": Name("" if row.holds else "outside"),
        "follows": Name(row.follows),
    }


def _rounded(value: float | None, inwards: Callable[[float], str]) -> float | None:
    """A bound to the tenth that it is told to, so that keeping to it is enough."""
    return None if value is None else float(inwards(value))


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
    """A row a radius, down to the first that needs none: easier curves need none either."""
    told = []
    for row in rows:
        told.append(row)
        if row.least_mm == 0:
            break
    return table(WIDENING, (_widening(row) for row in told))


def _widening(row: Widening) -> Cells:
    least: Value | None = None
    if row.least_mm is not None:
        least = Length(row.least_mm) if row.least_mm else Name("none needed")
    return {
        "radius": Quantity(row.radius_m, "g", "m"),
        "least": least,
        "says": Name(SAYS_OF.get(row.least_mm, "")),
    }


def setting_out_words(rows: Iterable[Sized]) -> Table:
    """A row a size of the turnout."""
    return table(SETTING_OUT, (_sized(row) for row in rows))


def _sized(row: Sized) -> Cells:
    size: Value | None = None
    if row.value is not None and row.unit == "1 in":
        size = Name(f"1 in {row.value:.2f}")
    elif row.value is not None and row.unit == "m":
        size = Quantity(row.value, ".1f", "m")
    elif row.value is not None:
        size = Length((_rounded(row.value, at_least) if row.least else row.value) or 0.0)
    return {"name": Name(row.name), "size": size, "follows": Name(row.follows)}
