"""What the terminal shows of a refit."""

from __future__ import annotations

from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.terminal.show import say, show_sheets, show_table
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.refit import (
    choices_table,
    choices_words,
    first_of,
    kept_table,
    limits_table,
    shrinkage_words,
    summary_words,
    welded_table,
)
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Length, Quantity
from platewheel.parts.base.so_many import so_many

MOST_RINGS = 40  # told of one blank or choice; the page has them all
MOST_ROWS = 100  # of one table, likewise
PAGE = "refit-sheet.html"


def show_refit(report: RefitReport) -> None:
    """Blanks, axles, limits and sums; plates where they were laid."""
    if report.blanks:
        show_table("Blanks (disc: diameter; flange: tread)", _blanks(report))
    _show_first("Axles", _axles(report), "axle")
    kept = kept_table(report)
    if kept.rows:
        _show_first("Cut before (numbers: new)", kept, "ring")
    choices, welded = choices_table(report, MOST_RINGS, PAGE), welded_table(report)
    if choices.rows:
        show_table("Choices", choices)
        say(choices_words(report))
    if welded.rows:
        _show_first("Measured after welding", welded, "wheel")
    if report.sheets is not None and report.nesting is not None:
        show_sheets(report.sheets, report.nesting, [])
    show_table("Limits", limits_table(report))
    for line in (*summary_words(report), shrinkage_words(report)):
        say(line)


def _show_first(title: str, whole: Table, what: str) -> None:
    """The first rows alone where there are many."""
    more = len(whole.rows) - MOST_ROWS
    if more <= 0:
        show_table(title, whole)
        return
    show_table(title, Table(whole.columns, whole.rows[:MOST_ROWS]))
    say(f"and {so_many(more, f'more {what}')}: {PAGE}")


def _blanks(report: RefitReport) -> Table:
    shared = {row.blank: row for row in report.shared}
    columns = (
        Column("blank", "blank", Name),
        Column("count", "cut", Count),
        Column("size", "mm", Length, bare=True),
        Column("rings", "rings", Name),
    )
    return table(
        columns,
        (
            {
                "blank": Name(blank.name),
                "count": Count(blank.count),
                "size": Length(shared[blank.name].size_mm),
                "rings": Name(", ".join(first_of(shared[blank.name].rings, MOST_RINGS, PAGE))),
            }
            for blank in report.blanks
        ),
    )


def _axles(report: RefitReport) -> Table:
    rings = {wheel.wheel: wheel.ring for wheel in report.wheels}
    columns = (
        Column("wagon", "wagon", Name),
        Column("axle", "axle", Name),
        Column("left", "left wheel", Name),
        Column("right", "right wheel", Name),
        Column("difference", "differ by", Length),
        Column("radius", "rolls in", Quantity),
        Column("drift", "drift, 10 m", Length),
    )
    return table(
        columns,
        (
            {
                "wagon": Name(axle.wagon or "spare"),
                "axle": Name(axle.axle),
                "left": Name(f"{axle.left}: ring {rings[axle.left]}"),
                "right": Name(f"{axle.right}: ring {rings[axle.right]}"),
                "difference": Length(axle.difference_mm, ".2f"),
                "radius": Name("straight")
                if axle.curve_radius_m is None
                else Quantity(axle.curve_radius_m, ".0f", "m"),
                "drift": Length(axle.drift_mm, ".0f"),
            }
            for axle in report.axles
        ),
    )
