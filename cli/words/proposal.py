"""A proposal in words, for terminal and page alike."""

from __future__ import annotations

from platewheel.cli.schema.propose import ChangeRow, ProposalRow, ProposeReport

SIZES = ("tread dia, mm", "tread, mm", "flange, mm", "discs, mm", "throat / root, mm")
STOPPED = (
    "stopped by Ctrl-C: proposals are of the wheels analysed by then; cheaper ones may be left"
)
HEADS = ("", "cost a wheel", *SIZES, "kg", "rated, N", "payload, kg")


def money(report: ProposeReport, value: float) -> str:
    """A cost a wheel; kilograms where nothing is priced."""
    unit = "kg of steel" if report.not_priced else report.currency
    return f"{value:.2f} {unit}".strip()


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
