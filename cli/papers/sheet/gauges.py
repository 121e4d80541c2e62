"""Section of the job sheet: the gauges, what each measures and how it is used."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.schema.gauge import GaugeRow, MeasureRow
from platewheel.cli.words.phrases import Name, Phrase, Sentence, listed, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Angle, Count, Length, Value

GAUGES = (
    Column("number", "No.", Count, "number"),
    Column("gauge", "Gauge", Name),
    Column("count", "Count", Count, "number"),
    Column("sizes", "True to", Phrase),
    Column("use", "How it is used", Sentence),
)


def gauges_table(gauges: Iterable[GaugeRow]) -> Table:
    """A row a gauge, by number."""
    return table(
        GAUGES,
        (
            {
                "number": Count(row.number),
                "gauge": Name(row.title),
                "count": Count(row.count),
                "sizes": listed(phrase(f"{size.name} ", _value(size)) for size in row.sizes),
                "use": Sentence(row.use),
            }
            for row in gauges
        ),
    )


def _value(size: MeasureRow) -> Value:
    if size.unit == "deg":
        return Angle(size.value, ".1f")
    return Length(size.value, ".2f", "micrometer")
