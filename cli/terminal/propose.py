"""What the terminal shows of a proposal."""

from __future__ import annotations

from platewheel.cli.schema.propose import ProposeReport
from platewheel.cli.terminal.show import show_table
from platewheel.cli.words.proposal import (
    HEADS,
    STOPPED,
    against,
    money,
    not_priced,
    proposal_cells,
)


def show_proposals(report: ProposeReport) -> None:
    """Proposals, what binds the first and what would relax it; or why there is none."""
    print(
        f"{report.choices:,} combinations, up to {report.judged:,} judged at once, "
        f"{report.screened:,} left by the screening, {report.analysed} analysed, "
        f"{report.seconds:.0f} s"
    )
    if report.stopped:
        print(STOPPED)
    if not report.proposals:
        return
    rows = [proposal_cells(report, row) for row in report.proposals]
    show_table("Wheels that fail no check", HEADS, rows)
    if lacks := not_priced(report):
        print(lacks)
    for row in report.proposals:
        print(f"{row.rank}: rating set by {row.governs}; tightest check that passes: {row.binds}")
        for line in row.warnings:
            print(f"   look at: {line}")
    show_table(
        "The first, one step away",
        ("key", "from", "to", "kg", "cost", "rating", "against it"),
        [
            (
                c.key,
                c.was,
                c.becomes,
                f"{c.mass_kg:+z.2f}",
                f"{c.cost:+z.2f}",
                "" if c.rating_percent is None else f"{c.rating_percent:+z.0f} %",
                against(c),
            )
            for c in report.proposals[0].changes
        ],
    )
    best = [
        (money(report, t.cost_estimate), f"{t.rated_n:.0f} N", f"{t.tread_diameter_mm:g}")
        for t in report.trade
        if t.best
    ]
    columns = ("cost, estimated", "rating, coarse", "diameter")
    show_table("Cost against load rating", columns, best)
    angles = [
        (f"{f.flange_angle_deg:g}", f"{f.climb:+.0%}", f"{f.room:+.0%}", f.verdict)
        for f in report.flare
    ]
    names = ("flange angle", "room against climbing", "room in the curve", "checks of running")
    show_table("Flare against derailment", names, angles)
