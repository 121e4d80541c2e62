"""Sections of the job sheet for the shop: buying list, time plan, cost of a wheel and an axle."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from platewheel.cli.papers.html.render import render
from platewheel.cli.schema.report import Report
from platewheel.cli.schema.shop import BuyRow
from platewheel.cli.words.cost import axle_cost_table, price_or_none, wheel_cost_table
from platewheel.cli.words.on_paper import without_keys
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Mass, Money, Quantity, Run
from platewheel.parts.base.units import Units

if TYPE_CHECKING:
    from markupsafe import Markup


def buying_section(report: Report, units: Units) -> Markup:
    """What to buy, with masses and prices."""
    return render(
        "buying.html",
        units,
        bought=buying_table(report),
        unpriced=unpriced_words(report.buying),
        axles_bought=report.wheelset is not None,
    )


def buying_table(report: Report) -> Table:
    """A row a thing or service, and their sum."""
    currency = _currency(report)
    columns = (
        Column("what", "What", Sentence),
        Column("quantity", "How much", Quantity, "number"),
        Column("metres", "Length", Run, "number"),
        Column("mass", "kg", Mass, "number", bare=True),
        Column("each", f"Each{currency}", Money, "number"),
        Column("price", f"Price{currency}", Money, "number"),
        Column("order", "Ask for", Sentence),
    )
    priced = [row.price for row in report.buying if row.price is not None]
    missing = len(report.buying) - len(priced)
    word = f"sum without {missing} not priced" if missing else "sum"
    total: Cells = {"what": Name(word), "price": Money(sum(priced))}
    return table(columns, map(_bought, report.buying), [total])


def _bought(row: BuyRow) -> Cells:
    says = "" if row.price is None else without_keys(row.says)
    order = [row.stock, row.standard, says]
    return {
        "what": Sentence(row.item),
        "quantity": Quantity(row.quantity, ".0f" if row.unit == "off" else ".2f", row.unit),
        "metres": None if row.metres is None else Run(1000 * row.metres),
        "mass": None if row.mass_kg is None else Mass(row.mass_kg),
        "each": price_or_none(row.unit_price),
        "price": price_or_none(row.price),
        "order": Sentence("; ".join(filter(None, order))),
    }


def unpriced_words(rows: Iterable[BuyRow]) -> str:
    """What has no price, in one line, by what would price it; nothing where all has."""
    by_reason: dict[str, list[str]] = {}
    for row in rows:
        if row.price is None:
            by_reason.setdefault(row.says.removeprefix("not priced: "), []).append(row.item)
    told = [f"{', '.join(items)} ({reason})" for reason, items in by_reason.items()]
    return f"Not priced: {'; '.join(told)}." if told else ""


def time_section(report: Report, units: Units) -> Markup:
    """How long it takes."""
    return render("time.html", units, works=time_table(report), own_parts=has_own_parts(report))


def has_own_parts(report: Report) -> bool:
    """Whether the cutting has the user's own parts or gauges in it."""
    return any(blank.kind in ("extra", "gauge") for blank in report.blanks)


def time_table(report: Report) -> Table:
    """A row a kind of work, and the sum."""
    plan = report.time_plan
    columns = (
        Column("work", "Work", Sentence),
        Column("count", "Count", Quantity, "number"),
        Column("each", "Minutes each", Quantity, "number", bare=True),
        Column("hours", "Hours", Quantity, "number", bare=True),
        Column("paid", "Paid", Name),
    )
    rows: list[Cells] = [
        {
            "work": Sentence(row.work),
            "count": Quantity(row.quantity, ".1f" if row.quantity % 1 else ".0f", row.unit),
            "each": Quantity(row.minutes_each, ".1f", "min"),
            "hours": Quantity(row.hours, ".1f", "h"),
            "paid": None if row.labour else Name("in the price of cutting"),
        }
        for row in plan.works
    ]
    total: Cells = {
        "work": Name("all"),
        "each": Name(f"{60 * plan.hours_per_wheel:.0f} a wheel"),
        "hours": Quantity(plan.hours, ".1f", "h"),
    }
    return table(columns, rows, [total])


def cost_section(report: Report, units: Units) -> Markup:
    """What a wheel costs, beside a bought one; what an axle costs."""
    cost = report.cost
    wheel, axle, says = wheel_cost_table(cost, report.job.wheels), axle_cost_table(cost), cost.says
    return render("cost.html", units, says=says, wheel_parts=wheel, axle_parts=axle)


def _currency(report: Report) -> str:
    return f", {report.cost.currency}" if report.cost.currency else ""
