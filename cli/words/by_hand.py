"""Cutting by hand in words and tables: metres, holes, discs, straight cuts in order."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.schema.by_hand import HandRow, StraightCutRow
from platewheel.cli.words.phrases import Name, Phrase, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Length
from platewheel.parts.base.so_many import so_many

CUTS = (
    Column("number", "Cut", Count, "number"),
    Column("line", "Scribe at", Length, "number"),
    Column("measured_from", "from", Name),
    Column("span", "From, to", Phrase),
    Column("kerf", "Cut goes", Name),
)
KERF = {
    "on it": "on the line",
    "beyond it": "beside it, on its far side: the line is a finished edge",
    "before it": "beside it, on the near side: the line is a finished edge",
}
ACROSS = {"left": "lower edge", "lower edge": "left"}


def hand_words(row: HandRow) -> str:
    """Metres, holes and discs in a sentence."""
    told = [f"{row.straight_mm / 1000:.1f} m straight", f"{row.curved_mm / 1000:.1f} m round"]
    told += hole_words(row)
    return f"by grinder or saw {', '.join(told)}; about {so_many(row.discs, 'disc')} of 125 mm"


def hole_words(row: HandRow) -> Iterator[str]:
    """Holes by their way, those that there are."""
    for how, words in (("hole saw", "by hole saw"), ("drill", "drilled")):
        count = sum(one.count for one in row.holes if one.how == how)
        if count:
            yield f"{so_many(count, 'hole')} {words}"
    count = sum(one.count for one in row.holes if one.how == "chain")
    chained = sum(one.chain_holes for one in row.holes)
    if count:
        yield f"{so_many(count, 'hole')} chain drilled ({so_many(chained, 'hole')} in chains)"
    if row.arc_chain_holes:
        yield f"{so_many(row.arc_chain_holes, 'chain hole')} along inner arcs and cut-outs"


def cuts_table(row: HandRow) -> Table:
    """A row a straight cut, in their order; all measured from the whole plate's edges."""
    return table(
        CUTS,
        (
            {
                "number": Count(cut.number),
                "line": Length(cut.line_mm, ".1f"),
                "measured_from": Name(cut.measured_from),
                "span": _span(cut),
                "kerf": Name(KERF[cut.kerf]),
            }
            for cut in row.straight_cuts
        ),
    )


def _span(cut: StraightCutRow) -> Phrase:
    if cut.through:
        wide = "full width" if cut.measured_from == "left" else "full length"
        return phrase(wide)
    start, end = Length(cut.start_mm, ".0f", "rule"), Length(cut.end_mm, ".0f", "rule")
    return phrase(start, " to ", end, f" from the {ACROSS[cut.measured_from]}")
