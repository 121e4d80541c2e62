"""A proposal in words, for terminal and page alike."""

from __future__ import annotations

from platewheel.cli.schema.propose import ChangeRow, ProposalRow, ProposeReport
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Count, Mass, Money, Quantity

STOPPED = (
    "stopped by Ctrl-C: proposals are of the wheels analysed by then; cheaper ones may be left"
)
COLUMNS = (
    Column("rank", "", Count, "number"),
    Column("cost", "cost a wheel", Money, "number"),
    Column("diameter", "tread dia, mm", Quantity, "number", bare=True),
    Column("tread", "tread, mm", Name),
    Column("flange", "flange, mm", Name),
    Column("discs", "discs, mm", Name),
    Column("apart", "back to back / play, mm", Name),
    Column("welds", "throat / root, mm", Name),
    Column("mass", "kg", Mass, "number", bare=True),
    Column("rated", "rated, N", Name, "number"),
    Column("payload", "payload, kg", Mass, "number", bare=True),
)


def cost(report: ProposeReport, value: float, form: str = ".2f") -> Money:
    """A cost a wheel; kilograms where nothing is priced."""
    return Money(value, "kg of steel" if report.not_priced else report.currency, form)


def proposals_table(report: ProposeReport) -> Table:
    """A row a proposal; sizes stay in mm, as the keys of the job file have them."""
    return table(COLUMNS, (_cells(report, row) for row in report.proposals))


def _cells(report: ProposeReport, row: ProposalRow) -> Cells:
    w = row.wheel
    return {
        "rank": Count(row.rank),
        "cost": cost(report, row.cost_per_wheel),
        "diameter": Quantity(w["tread_diameter_mm"], "g", "mm"),
        "tread": Name(f"{w['tread_from']} {w['tread_width_mm']:g} x {w['tread_thickness_mm']:g}"),
        "flange": Name(
            f"{w['flange_depth_mm']:g} deep, {w['flange_angle_deg']:g} deg, "
            f"{w['flange_thickness_mm']:g} thick in {w['flange_segments']}"
        ),
        "discs": Name(f"{w['disc_thickness_mm']:g}, inset {w['disc_gauge_inset_mm']:g}"),
        "welds": Name(f"{w['weld_throat_mm']:g} / {w['root_weld_mm']:g}"),
        "apart": Name(f"{row.back_to_back_mm:.1f} / {row.play_mm:.1f}"),
        "mass": Mass(row.mass_kg),
        "rated": Name(f"{row.rated_n:.0f} of {row.load_n:.0f}"),
        "payload": Mass(row.payload_kg_per_wagon, ".0f"),
    }


def same(one: ProposalRow, other: ProposalRow) -> bool:
    """Whether two proposals are the same wheel, as far apart."""
    return one.wheel == other.wheel and one.set_back_to_back_mm == other.set_back_to_back_mm


def own_words(report: ProposeReport) -> str:
    """What the wheel of the job file costs and bears: what a proposal has to beat."""
    row, against = report.own.row, report.own.against
    told = "The wheel of the job file"
    if row is not None:
        told += (
            f" costs {cost(report, row.cost_per_wheel).told('mm')}, is rated "
            f"{row.rated_n:.0f} N for a load of {row.load_n:.0f} N"
        )
    if against:
        return f"{told}{' and' if row is not None else ''} is no proposal: {'; '.join(against)}"
    assert row is not None
    ranks = [one.rank for one in report.proposals if same(one, row)]
    if ranks:
        return f"{told} and is proposal {ranks[0]}"
    cheaper = [one for one in report.proposals if one.cost_per_wheel < row.cost_per_wheel]
    saves = row.cost_per_wheel - min((one.cost_per_wheel for one in cheaper), default=0.0)
    return f"{told}; the first proposal saves {cost(report, saves).told('mm')} of it"


def not_priced(report: ProposeReport) -> str:
    """What the costs lack; empty where nothing."""
    lacks = sorted({part for row in report.proposals for part in row.cost_lacks})
    return f"Not priced, so a wheel costs more: {', '.join(lacks)}." if lacks else ""


def against(row: ChangeRow) -> str:
    """What speaks against a step: checks that it would fail, or that would warn."""
    said = [f"fails: {', '.join(row.fails)}"] if row.fails else []
    said += [f"warns: {', '.join(row.warns)}"] if row.warns else []
    return "; ".join(said)
