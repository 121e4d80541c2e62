"""Sections of the job sheet for the shop: buying list, time plan, cost, steps to build."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from platewheel.cli.papers.drawings.steps import (
    line_picture,
    pointer_picture,
    quarters_picture,
    star_picture,
)
from platewheel.cli.schema.report import Report
from platewheel.cli.schema.shop import FigureRow, StepRow
from platewheel.cli.words.figures import fine_length
from platewheel.parts.base.units import Units, length

SHOP_STYLE = """
ol.steps{list-style:none;padding:0;counter-reset:step}
ol.steps>li{counter-increment:step;border-top:1px solid #1c2226;margin-top:1rem;
  break-inside:avoid}
ol.steps h3{margin:.4rem 0;font-size:1.05rem;break-after:avoid}
ol.steps h3:before{content:counter(step) ". "}
ol.steps .step{display:flow-root}ol.do{padding-left:1.6rem}ol.do li{margin:.2rem 0}
figure.step{float:right;width:17rem;max-width:45%;margin:0 0 .5rem 1rem}
figure.both{width:26rem;max-width:60%}figure.step svg{max-height:13rem}
ul.caution{list-style:none;border:2px solid #1c2226;border-left-width:8px;margin:.5rem 0;
  padding:.4rem .8rem;break-inside:avoid;overflow:hidden}
ul.caution li+li{margin-top:.3rem}
ul.caution li:first-child:before{content:"Caution. ";font-weight:bold}
.sum td{border-top:2px solid #1c2226;font-weight:bold}
td{overflow-wrap:break-word}code,td:last-child{overflow-wrap:anywhere}
@media(max-width:40rem){body{margin:.5rem auto;padding:0 .6rem}
  figure.step{float:none;width:100%;max-width:22rem;margin:0 auto}
  table.stack thead{display:none}table.stack tr{display:block;border-bottom:1px solid #1c2226;
  padding:.3rem 0}table.stack td{display:flex;gap:.6rem;border:0;padding:.1rem .2rem;
  text-align:left;white-space:normal}table.stack td:empty{display:none}
  table.stack td:before{content:attr(data-head);flex:0 0 34%;font-weight:bold}}
@page{margin:12mm}
@media print{.wide{overflow:visible}table{font-size:9.5px}thead{display:table-header-group}
  h1{font-size:20px}h2{font-size:15px}ol.steps h3{font-size:13px}figcaption{font-size:10px}
  figure.step{max-width:40%}figure.both{max-width:58%}p,li{orphans:2;widows:2}
  *{print-color-adjust:exact}}
"""


MOST_ON_PHONE = 4  # columns that are still read on 390 pixels


def stacked(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    numbers: frozenset[int] = frozenset(),
    sums: Sequence[Sequence[str]] = (),
) -> str:
    """Table that becomes one block a row on a phone if it has many columns; `sums` are its
    last, bold rows."""

    def line(cells: Sequence[str], mark: str) -> str:
        inside = "".join(
            f"<td{' class=n' if i in numbers else ''} data-head='{escape(head)}'>"
            f"{escape(cell)}</td>"
            for i, (head, cell) in enumerate(zip(heads, cells, strict=True))
        )
        return f"<tr{mark}>{inside}</tr>"

    head = "".join(
        f"<th{' class=n' if i in numbers else ''}>{escape(cell)}</th>"
        for i, cell in enumerate(heads)
    )
    body = "".join(line(cells, "") for cells in rows)
    body += "".join(line(cells, " class=sum") for cells in sums)
    kind = " class=stack" if len(heads) > MOST_ON_PHONE else ""
    return f"<table{kind}><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def money(value: float | None) -> str:
    """A price; never an empty or a zero cell for one that is missing."""
    return "not priced" if value is None else f"{value:.2f}"


def buying_section(report: Report) -> str:
    """What to buy, with masses and prices."""
    currency = _currency(report)
    rows = [
        [
            row.item,
            f"{row.quantity:.0f} off" if row.unit == "off" else f"{row.quantity:.2f} {row.unit}",
            "" if row.mass_kg is None else f"{row.mass_kg:.1f}",
            money(row.unit_price),
            money(row.price),
            row.says,
        ]
        for row in report.buying
    ]
    priced = [row.price for row in report.buying if row.price is not None]
    missing = len(report.buying) - len(priced)
    word = f"sum without {missing} not priced" if missing else "sum"
    total = [word, "", "", "", money(sum(priced)), ""]
    heads = ("What", "How much", "kg", f"Each{currency}", f"Price{currency}", "Priced by")
    axles = "" if report.wheelset else "axles, bearings, "
    note = (
        f"Not in the list: grinder discs, electricity for welding and grinding, {axles}bolts, "
        "transport. Whole plates and lengths are paid; offcuts to keep are not credited."
    )
    table = stacked(heads, rows, frozenset({1, 2, 3, 4}), [total])
    return f"<h2>Buying list</h2>{table}<p>{note}</p>"


def time_section(report: Report) -> str:
    """How long it takes."""
    plan = report.time_plan
    rows = [
        [
            row.work,
            f"{row.quantity:.1f} {row.unit}"
            if row.quantity % 1
            else f"{row.quantity:.0f} {row.unit}",
            f"{row.minutes_each:.1f}",
            f"{row.hours:.1f}",
            "" if row.labour else "in the price of cutting",
            row.rate,
        ]
        for row in plan.works
    ]
    total = ["all", "", f"{60 * plan.hours_per_wheel:.0f} a wheel", f"{plan.hours:.1f}", "", ""]
    heads = ("Work", "Count", "Minutes each", "Hours", "Paid", "Rate")
    note = "Setting up, waiting for the galvanizer and mistakes are not in it."
    if any(blank.kind == "extra" for blank in report.blanks):
        note += " Cutting has your own parts in it."
    table = stacked(heads, rows, frozenset({1, 2, 3}), [total])
    return f"<h2>Time plan</h2>{table}<p>{note}</p>"


def cost_section(report: Report) -> str:
    """What a wheel costs, beside a bought one."""
    cost, currency = report.cost, _currency(report)
    rows = [[p.part, money(p.per_wheel), money(p.price), p.says] for p in cost.parts]
    word = "sum of what is priced" if cost.not_priced else "sum"
    total = [word, money(cost.per_wheel), money(cost.price), ""]
    sums = [total]
    if cost.bought_wheel_price is not None:
        bought = cost.bought_wheel_price
        sums.append(["a bought wheel", money(bought), money(bought * report.job.wheels), ""])
    heads = ("Part", f"A wheel{currency}", f"All wheels{currency}", "Of what")
    table = stacked(heads, rows, frozenset({1, 2}), sums)
    return f"<h2>Cost of a wheel</h2><p>{escape(cost.says)}</p>{table}{_axle_table(report)}"


def _axle_table(report: Report) -> str:
    cost, currency = report.cost, _currency(report)
    if not cost.axle_parts:
        return ""
    rows = [[p.part, money(p.per_axle), money(p.price), p.says] for p in cost.axle_parts]
    word = "sum of what is priced" if any(p.price is None for p in cost.axle_parts) else "sum"
    price = sum(p.price for p in cost.axle_parts if p.price is not None)
    heads = ("Part", f"An axle{currency}", f"All axles{currency}", "Of what")
    total = [word, money(cost.per_axle), money(price), ""]
    return "<h3>An axle beside its wheels</h3>" + stacked(heads, rows, frozenset({1, 2}), [total])


def _currency(report: Report) -> str:
    return f", {report.cost.currency}" if report.cost.currency else ""


def steps_section(report: Report, units: Units) -> str:
    """Steps to build, each with its figures, picture and cautions."""
    seam = any(step.id == "close" for step in report.steps)
    steps = "".join(_step(step, units, seam) for step in report.steps)
    note = "Do one wheel through all steps before the rest. Write each reading down."
    return f"<h2>Steps to build</h2><p>{note}</p><ol class=steps>{steps}</ol>"


def _step(step: StepRow, units: Units, seam: bool) -> str:
    do = "".join(f"<li>{_text(line)}</li>" for line in step.do)
    cautions = "".join(f"<li>{_text(line)}</li>" for line in step.cautions)
    box = f"<ul class=caution>{cautions}</ul>" if cautions else ""
    rows = [
        [row.name, figure_words(row, units), row.limit, row.source if row.limit else ""]
        for row in step.figures
    ]
    heads = ["Figure", "Value", "Limit", "By"]
    if not any(row.limit for row in step.figures):
        heads, rows = heads[:2], [cells[:2] for cells in rows]
    return (
        f"<li id=step-{step.id}><h3>{escape(step.title)}</h3><div class=step>{_picture(step, seam)}"
        f"{box}<ol class=do type=a>{do}</ol></div>{stacked(heads, rows, frozenset({1}))}</li>"
    )


def _text(line: str) -> str:
    """Words with what is typed, between backticks, set as such."""
    return re.sub(r"`([^`]+)`", r"<code>\1</code>", escape(line))


def figure_words(row: FigureRow, units: Units) -> str:
    """A figure with its unit, in the units of the paper."""
    if row.fine:
        return fine_length(row.value, units)
    if row.unit == "mm":
        return length(row.value, units, 2 if abs(row.value) < 3 else 1)
    whole = row.value % 1 == 0 or (row.value >= 100 and row.unit != "deg")
    digits = f"{row.value:.0f}" if whole else f"{row.value:.2f}"
    return f"{digits} {row.unit}"


def _picture(step: StepRow, seam: bool) -> str:
    when = "in brackets: when"
    if step.id == "true":
        svg, words = pointer_picture(8), "Read at each number, on the tread and on the edge"
    elif step.id == "tack":
        svg = star_picture([int(n) for n in step.order], seam)
        words = f"Places of tacks; {when}"
    elif step.id in ("weld", "root"):
        svg, words = quarters_picture(step.order), f"Runs; {when}"
    elif step.id == "flange":
        svg, words = line_picture(step.order), f"Tacks on a piece; {when}"
    else:
        return ""
    both = ' class="step both"' if step.id == "weld" else " class=step"
    return f"<figure{both}>{svg}<figcaption>{escape(words)}</figcaption></figure>"
