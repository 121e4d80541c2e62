"""proposal.html: tables of proposals, the trade-off drawn, what one step changes."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.papers.charts.flare import Flare, flare_picture
from platewheel.cli.papers.charts.trade import Dot, trade_picture
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.propose.cheaper_steps import MOST_STEPS
from platewheel.cli.schema.propose import ProposeReport
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.proposal import (
    STOPPED,
    against,
    cost,
    not_priced,
    own_words,
    proposals_table,
)
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Angle, Count, Force, Margin, Mass, Money, Percent, Quantity
from platewheel.parts.base.so_many import noun
from platewheel.parts.base.spec_model import toml_value

TRADE = (
    Column("cost", "Cost, estimated", Money, "number"),
    Column("rated", "Bears, N mean (coarse)", Force, "number", bare=True),
    Column("diameter", "Tread dia, mm", Quantity, "number", bare=True),
    Column("wall", "Wall, mm", Quantity, "number", bare=True),
    Column("discs", "Discs, mm", Quantity, "number", bare=True),
)
CHANGES = (
    Column("key", "Key", Name),
    Column("step", "From, to", Name),
    Column("mass", "kg", Mass, "number", bare=True),
    Column("cost", "Cost", Money, "number", bare=True),
    Column("rating", "Rating", Percent, "number"),
    Column("against", "Against it", Sentence),
)
FLARE = (
    Column("angle", "Flange angle, deg", Angle, "number", bare=True),
    Column("climb", "Room against climbing", Margin, "number"),
    Column("room", "Room in the curve", Margin, "number"),
    Column("verdict", "Checks of running", Name),
)
SIEVES = (
    Column("check", "Rule or check", Sentence),
    Column("came", "Came", Count, "number"),
    Column("passed", "Passed", Count, "number"),
)


def proposal_page(job: Job, report: ProposeReport) -> str:
    """The page: proposals with their keys, pictures, one step away, flare, the sieve."""
    return render(
        "proposal.html",
        job.paper.units,
        title=f"{report.job}: wheels for this track and load",
        searched=(
            f"{report.choices:,} {noun(report.choices, 'combination')} of the shop's "
            f"choices, up to {report.judged:,} judged at once; {report.screened:,} "
            f"{noun(report.screened, 'passes', 'pass')} the closed-form checks, {report.analysed} "
            "of them had a stress analysis."
        ),
        stopped=STOPPED if report.stopped else "",
        own=own_words(report),
        refused=report.refused,
        notes=report.notes,
        proposals=proposals_table(report),
        lacks=not_priced(report),
        told=[
            {
                "rank": row.rank,
                "kind": row.kind,
                "lessons": row.lessons,
                "warnings": row.warnings,
            }
            for row in report.proposals
        ],
        left_out=report.left_out,
        first=_first(report) if report.proposals else None,
        sieves=_sieves(report),
    )


def _first(report: ProposeReport) -> dict[str, object]:
    """What is told of the first proposal, and beside it."""
    return {
        "as_keyed": _keys(report),
        "trade_picture": drawn(trade_of(report)),
        "trade": _trade(report),
        "most_steps": MOST_STEPS,
        "changes": _changes(report),
        "flare_picture": drawn(flare_of(report)),
        "flare": _flare(report),
    }


def _keys(report: ProposeReport) -> str:
    first = report.proposals[0]
    rows = [f"{key} = {toml_value(value)}" for key, value in first.wheel.items()]
    if first.set_back_to_back_mm is not None:
        rows += ["", "[axle]", f"back_to_back_mm = {first.set_back_to_back_mm:g}"]
    return "\n".join(("[wheel]", *rows))


def trade_of(report: ProposeReport) -> str:
    """Cost against the mean load borne, drawn. Raises: IndexError without proposals."""
    dots = [Dot(t.cost_estimate, t.rated_n, "best" if t.best else "tried") for t in report.trade]
    mean = report.mean_load_n
    dots += [
        Dot(p.cost_estimate, p.rated_n / p.load_n * mean, "proposed", str(p.rank))
        for p in report.proposals
    ]
    unit = "kg of steel" if report.not_priced else report.currency
    return trade_picture(dots, mean, unit)


def _trade(report: ProposeReport) -> Table:
    return table(
        TRADE,
        (
            {
                "cost": cost(report, t.cost_estimate),
                "rated": Force(t.rated_n),
                "diameter": _as_keyed(t.tread_diameter_mm),
                "wall": _as_keyed(t.tread_thickness_mm),
                "discs": _as_keyed(t.disc_thickness_mm),
            }
            for t in report.trade
            if t.best
        ),
    )


def _as_keyed(mm: float) -> Quantity:
    """A size that stays in mm, as the keys of the job file have it."""
    return Quantity(mm, "g", "mm")


def _changes(report: ProposeReport) -> Table:
    return table(
        CHANGES,
        (
            {
                "key": Name(c.key),
                "step": Name(f"{c.was} to {c.becomes}"),
                "mass": Mass(c.mass_kg, "+z.2f"),
                "cost": Money(c.cost, form="+z.2f"),
                "rating": Name("cannot be rated")
                if c.rating_percent is None
                else Percent(c.rating_percent, "+z.0f"),
                "against": Sentence(against(c)),
            }
            for c in report.proposals[0].changes
        ),
    )


def flare_of(report: ProposeReport) -> str:
    """Flare against derailment, drawn. Raises: IndexError without proposals."""
    flares = [Flare(f.flange_angle_deg, f.climb, f.room, f.verdict == "pass") for f in report.flare]
    return flare_picture(flares, float(report.proposals[0].wheel["flange_angle_deg"]))


def _flare(report: ProposeReport) -> Table:
    return table(
        FLARE,
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


def _sieves(report: ProposeReport) -> Table:
    return table(
        SIEVES,
        (
            {
                "check": Sentence(s.check.strip("_")),
                "came": Count(s.came),
                "passed": Count(s.passed),
            }
            for s in report.sieves
            if s.came
        ),
    )
