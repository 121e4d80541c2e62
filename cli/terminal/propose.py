"""What the terminal shows of a proposal."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.schema.propose import ChangeRow, ProposeReport
from platewheel.cli.terminal.show import say, show_table
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.proposal import (
    STOPPED,
    against,
    cost,
    not_priced,
    own_words,
    proposals_table,
)
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Angle, Force, Length, Margin, Mass, Money, Percent
from platewheel.parts.base.so_many import noun


def show_proposals(report: ProposeReport, seconds: float) -> None:
    """How long it took, proposals, what binds the first and what would relax it; or why none is."""
    say(
        f"{report.choices:,} {noun(report.choices, 'combination')}, up to {report.judged:,} judged "
        f"at once, {report.screened:,} left by the screening, {report.analysed} analysed, "
        f"{seconds:.0f} s"
    )
    if report.stopped:
        say(STOPPED)
    say(own_words(report))
    if not report.proposals:
        return
    show_table("Wheels that fail no check", proposals_table(report))
    if lacks := not_priced(report):
        say(lacks)
    for line in report.notes:
        say(line)
    for row in report.proposals:
        say(f"{row.rank}{f' ({row.kind})' if row.kind else ''}: {' '.join(row.lessons)}")
        for line in row.warnings:
            say(f"   look at: {line}")
    if report.proposals[0].changes:  # not looked at where Ctrl-C came before
        show_table("The first, one step away", _changes(report.proposals[0].changes))
    show_table("Cost against load rating", _trade(report))
    show_table("Flare against derailment", _flare(report))


def _changes(changes: Sequence[ChangeRow]) -> Table:
    columns = (
        Column("key", "key", Name),
        Column("was", "from", Name),
        Column("becomes", "to", Name),
        Column("mass", "kg", Mass, bare=True),
        Column("cost", "cost", Money, bare=True),
        Column("rating", "rating", Percent),
        Column("against", "against it", Name),
    )
    return table(
        columns,
        (
            {
                "key": Name(c.key),
                "was": Name(c.was),
                "becomes": Name(c.becomes),
                "mass": Mass(c.mass_kg, "+z.2f"),
                "cost": Money(c.cost, form="+z.2f"),
                "rating": None if c.rating_percent is None else Percent(c.rating_percent, "+z.0f"),
                "against": Name(against(c)),
            }
            for c in changes
        ),
    )


def _trade(report: ProposeReport) -> Table:
    columns = (
        Column("cost", "cost, estimated", Money),
        Column("rated", "bears, mean", Force),
        Column("diameter", "diameter", Length, bare=True),
    )
    return table(
        columns,
        (
            {
                "cost": cost(report, t.cost_estimate),
                "rated": Force(t.rated_n),
                "diameter": Length(t.tread_diameter_mm, "g"),
            }
            for t in report.trade
            if t.best
        ),
    )


def _flare(report: ProposeReport) -> Table:
    columns = (
        Column("angle", "flange angle", Angle, bare=True),
        Column("climb", "room against climbing", Margin),
        Column("room", "room in the curve", Margin),
        Column("verdict", "checks of running", Name),
    )
    return table(
        columns,
        (
            {
                "angle": Angle(f.flange_angle_deg, "g"),
                "climb": Margin(f.climb),
                "room": Margin(f.room),
                "verdict": Name(f.verdict),
            }
            for f in report.flare
        ),
    )
