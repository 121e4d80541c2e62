"""proposal.html and report.json of a proposal: tables, the trade-off, what one step changes."""

from __future__ import annotations

from html import escape

from platewheel.cli.job.job import Job
from platewheel.cli.papers.charts.flare import Flare, flare_picture
from platewheel.cli.papers.charts.trade import Dot, trade_picture
from platewheel.cli.papers.html.style import STYLE
from platewheel.cli.papers.sheet.shop import SHOP_STYLE, stacked
from platewheel.cli.propose.cheaper_steps import MOST_STEPS
from platewheel.cli.schema.propose import ProposeReport
from platewheel.cli.words.inches import page_in
from platewheel.cli.words.proposal import HEADS, STOPPED, against, money, not_priced, proposal_cells
from platewheel.parts.base.spec_model import toml_value

CAUTION = (
    "A proposal is a sum of checks, not a licence: prove one wheel with 1.5 times its load before "
    "any is used, let nobody ride before that, and put local codes and licensed practice first."
)


def proposal_page(job: Job, report: ProposeReport) -> str:
    """The page: proposals with their keys, pictures, one step away, flare, the sieve."""
    title = f"{escape(report.job)}: wheels for this track and load"
    body = f"<p class=caution>{STOPPED}.</p>" if report.stopped else ""
    body += _refused(report) if report.refused else ""
    if report.proposals:
        body += _proposals(report) + _trade(report) + _changes(report) + _flare(report)
    page = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{title}</title><style>{STYLE}{SHOP_STYLE}</style></head><body><h1>{title}</h1>"
        f"<p>{report.choices:,} combinations of the shop's choices, up to {report.judged:,} judged "
        f"at once; {report.screened:,} pass the closed-form checks, {report.analysed} of them had "
        "a stress analysis.</p>"
        f"<p class=caution>{CAUTION}</p>{body}{_sieves(report)}</body></html>\n"
    )
    return page_in(page, job.paper.units)


def _refused(report: ProposeReport) -> str:
    lines = "".join(f"<li>{escape(line)}</li>" for line in report.refused)
    return f"<h2>No wheel passes</h2><ul>{lines}</ul>"


def _proposals(report: ProposeReport) -> str:
    rows = [proposal_cells(report, row) for row in report.proposals]
    words = "".join(
        f"<li><b>{row.rank}</b>: the rating is set by {escape(row.governs)}. "
        f"Tightest check that passes, {row.binds_margin:.0%} of room: {escape(row.binds)}."
        + "".join(f" Look at: {escape(line)}." for line in row.warnings)
        + "</li>"
        for row in report.proposals
    )
    words += "".join(f"<li>{escape(line)}</li>" for line in report.left_out)
    how = "each with its plates laid (quick effort); the first of each diameter, stock and wall"
    lacks = f"<p>{escape(not_priced(report))}</p>" if not_priced(report) else ""
    return (
        f"<h2>Proposals, cheapest first</h2><p>{how}</p><div class=wide>"
        f"{stacked(HEADS, rows, frozenset({0, 1, 2, 7, 8, 9}))}</div>"
        f"{lacks}<ul>{words}</ul><h2>The first as a job file has it</h2>"
        f"<pre>{escape(_keys(report))}</pre>"
    )


def _keys(report: ProposeReport) -> str:
    rows = (f"{key} = {toml_value(value)}" for key, value in report.proposals[0].wheel.items())
    return "\n".join(("[wheel]", *rows))


def trade_of(report: ProposeReport) -> str:
    """Cost against load rating, drawn. Raises: IndexError without proposals."""
    dots = [Dot(t.cost_estimate, t.rated_n, "best" if t.best else "tried") for t in report.trade]
    dots += [Dot(p.cost_estimate, p.rated_n, "proposed", str(p.rank)) for p in report.proposals]
    unit = "kg of steel" if report.not_priced else report.currency
    return trade_picture(dots, report.proposals[0].load_n, unit)


def _trade(report: ProposeReport) -> str:
    rows = [
        [
            money(report, t.cost_estimate),
            f"{t.rated_n:.0f}",
            f"{t.tread_diameter_mm:g}",
            f"{t.tread_thickness_mm:g}",
            f"{t.disc_thickness_mm:g}",
        ]
        for t in report.trade
        if t.best
    ]
    heads = ("Cost, estimated", "Rated, N (coarse)", "Tread dia, mm", "Wall, mm", "Discs, mm")
    note = (
        "Squares: proposals, rated in full. Full dots: no cheaper wheel of those analysed is as "
        "strong. The estimate shares plates and bars out by what a wheel takes of them; the table "
        "above has them whole, so its costs are higher and may stand in another order."
    )
    shown = f"<figure>{trade_of(report)}<figcaption>{note}</figcaption></figure>"
    return f"<h2>Cost against load rating</h2>{shown}{stacked(heads, rows, frozenset(range(5)))}"


def _changes(report: ProposeReport) -> str:
    rows = [
        [
            c.key,
            f"{c.was} to {c.becomes}",
            f"{c.mass_kg:+z.2f}",
            f"{c.cost:+z.2f}",
            "cannot be rated" if c.rating_percent is None else f"{c.rating_percent:+z.0f} %",
            against(c),
        ]
        for c in report.proposals[0].changes
    ]
    heads = ("Key", "From, to", "kg", "Cost", "Rating", "Against it")
    words = (
        "What relaxes the first proposal, or makes it cheaper and fail: one step at a time. "
        f"Costs are estimated; up to {MOST_STEPS} steps that looked cheaper with nothing against "
        "them were tried in full and laid on the plates. A wheel that a check warns of is proposed "
        "only where the screening left no other."
    )
    return f"<h2>One step away</h2><p>{words}</p>{stacked(heads, rows, frozenset({2, 3, 4}))}"


def flare_of(report: ProposeReport) -> str:
    """Flare against derailment, drawn. Raises: IndexError without proposals."""
    flares = [Flare(f.flange_angle_deg, f.climb, f.room, f.verdict == "pass") for f in report.flare]
    return flare_picture(flares, float(report.proposals[0].wheel["flange_angle_deg"]))


def _flare(report: ProposeReport) -> str:
    rows = [
        [f"{f.flange_angle_deg:g}", f"{f.climb:+.0%}", f"{f.room:+.0%}", f.verdict]
        for f in report.flare
    ]
    heads = ("Flange angle, deg", "Room against climbing", "Room in the curve", "Checks of running")
    words = "A flatter flange (smaller angle) grinds less and climbs sooner."
    note = "Open dots: a check of running that hangs on the angle warns or fails."
    shown = f"<figure>{flare_of(report)}<figcaption>{note}</figcaption></figure>"
    table = stacked(heads, rows, frozenset({0, 1, 2}))
    return f"<h2>Flare against derailment</h2><p>{words}</p>{shown}{table}"


def _sieves(report: ProposeReport) -> str:
    rows = [[s.check.strip("_"), f"{s.came}", f"{s.passed}"] for s in report.sieves if s.came]
    heads = ("Rule or check", "Came", "Passed")
    words = "In the order asked; dimensions are added one after the other, so numbers grow again."
    return f"<h2>The screening</h2><p>{words}</p>{stacked(heads, rows, frozenset({1, 2}))}"
