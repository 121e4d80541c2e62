"""What the terminal shows of a proposal."""

from __future__ import annotations

from platewheel.cli.schema.propose import ChangeRow, ProposalRow, ProposeReport
from platewheel.cli.terminal.show import show_table


def money(report: ProposeReport, value: float) -> str:
    """A cost a wheel; kilograms where nothing is priced."""
    unit = "kg of steel" if report.not_priced else report.currency
    return f"{value:.2f} {unit}".strip()


def wheel_cells(row: ProposalRow) -> tuple[str, ...]:
    """A proposal's main sizes."""
    w = row.wheel
    made = f"{w['tread_from']} {w['tread_width_mm']:g} x {w['tread_thickness_mm']:g}"
    flange = (
        f"{w['flange_depth_mm']:g} deep, {w['flange_angle_deg']:g} deg, "
        f"{w['flange_thickness_mm']:g} thick in {w['flange_segments']}"
    )
    discs = f"{w['disc_thickness_mm']:g}, inset {w['disc_gauge_inset_mm']:g}"
    welds = f"{w['weld_throat_mm']:g} / {w['root_weld_mm']:g}"
    return f"{w['tread_diameter_mm']:g}", made, flange, discs, welds


def proposal_cells(report: ProposeReport, row: ProposalRow) -> list[str]:
    """A proposal as a row of a table, below HEADS."""
    return [
        str(row.rank),
        money(report, row.cost_per_wheel),
        *wheel_cells(row),
        f"{row.mass_kg:.1f}",
        f"{row.rated_n:.0f} of {row.load_n:.0f}",
        f"{row.payload_kg_per_wagon:.0f}",
    ]


def not_priced(report: ProposeReport) -> str:
    """What the costs lack; empty where nothing."""
    lacks = sorted({part for row in report.proposals for part in row.cost_lacks})
    return f"Not priced, so a wheel costs more: {', '.join(lacks)}." if lacks else ""


def against(row: ChangeRow) -> str:
    """What speaks against a step: checks that it would fail, or that would warn."""
    said = [f"fails: {', '.join(row.fails)}"] if row.fails else []
    said += [f"warns: {', '.join(row.warns)}"] if row.warns else []
    return "; ".join(said)


SIZES = ("tread dia, mm", "tread, mm", "flange, mm", "discs, mm", "throat / root, mm")
STOPPED = (
    "stopped by Ctrl-C: proposals are of the wheels analysed by then; cheaper ones may be left"
)
HEADS = ("", "cost a wheel", *SIZES, "kg", "rated, N", "payload, kg")


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
