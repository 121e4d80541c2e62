"""job-sheet.html: the job for a person, one self-contained page that prints."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.html.offcut_words import HEADS, offcut_cells, offcut_marks
from platewheel.cli.papers.html.style import CAUTIONS, STYLE
from platewheel.cli.papers.sheet.record import record_form
from platewheel.cli.papers.sheet.shop import (
    SHOP_STYLE,
    buying_section,
    cost_section,
    stacked,
    steps_section,
    time_section,
)
from platewheel.cli.papers.sheet.wagon import wagon_section
from platewheel.cli.papers.sheet.wheel_pictures import WHEEL_STYLE, wheel_pictures
from platewheel.cli.papers.sheet.wheelset import wheelset_section
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.schema.report import BlankRow, Report
from platewheel.cli.words.figures import (
    check_cells,
    counted,
    length_beside,
    payload_words,
    thickness,
    web_words,
)
from platewheel.cli.words.inches import page_in, plate_name
from platewheel.parts.base.units import Units


def job_sheet(
    job: Job,
    report: Report,
    folder: Path,
    pictures: Sequence[tuple[str, str]] = (),
    wheels: Sequence[WheelRecord] = (),
) -> str:
    """The page, with pictures drawn from the files that `folder` already holds; `wheels` fill
    its record."""
    head, units = job.head, job.paper.units
    blanks = "".join(_blank_figure(row, folder) for row in report.blanks)
    sheets = "".join(_sheet_figure(report, i, folder, units) for i in range(len(report.sheets)))
    title = f"{escape(head.name)}: {head.wheels} wheels"
    page = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{title}</title><style>{STYLE}{SHOP_STYLE}{WHEEL_STYLE}</style></head><body>"
        f"<h1>{title}</h1>{_summary(job, report)}"
        f"<h2>The wheel</h2>{wheel_pictures(job)}"
        f"<h2>Checks</h2>{_rating(report)}{_checks(report, units)}{_pictures(pictures)}"
        f"{wagon_section(job)}"
        f"{wheelset_section(job, report.wheelset)}"
        f"<h2>Sizes</h2>{_wheel_sizes(job)}"
        f"<h2>Parts</h2>{_parts(report)}"
        f"<h2>Blanks</h2>{_blanks(report, units)}{blanks}"
        f"<h2>Sheets</h2>{_sheets(report, units)}{sheets}"
        f"{_offcuts(report, units)}{_lengths(report, units)}"
        f"{buying_section(report)}{time_section(report)}{cost_section(report)}"
        "<h2>Before you start</h2><div class=caution><ul>"
        f"{''.join(f'<li>{escape(line)}</li>' for line in CAUTIONS)}</ul></div>"
        f"{steps_section(report, units)}{record_form(job, wheels)}{_notes(report)}</body></html>\n"
    )
    return page_in(page, units)


def _summary(job: Job, report: Report) -> str:
    wheel, nesting, units = report.wheel, report.nesting, job.paper.units
    gauge, tread, over = (
        f"{mm:g} mm" if units == "mm" else length_beside(mm, units)
        for mm in (job.track.gauge_mm, wheel.tread_diameter_mm, wheel.over_flange_diameter_mm)
    )
    words = (
        f"Track {gauge} gauge. Each wheel {tread} over "
        f"the tread, {over} over the flange, {wheel.mass_kg:.1f} kg "
        f"with its beads; {wheel.mass_kg * job.head.wheels:.0f} kg in all. "
        f"Steel {job.wheel.steel}, {job.finish.coating}. {nesting.sheets_used} plates, scrap "
        f"{nesting.scrap_percent:.0f} %, or {nesting.scrap_percent_after_offcuts:.0f} % after the "
        f"offcuts worth keeping; cutting about {nesting.cutting_hours:.1f} h, "
        f"{nesting.cut_length_mm / 1000:.1f} m of cut, {nesting.pierces} pierces. "
        + web_words(nesting.web_mm, nesting.edge_web_mm)
    )
    return f"<p>{escape(f'{words} {report.cost.says}')}</p>"


def table(
    heads: Sequence[str], rows: Sequence[Sequence[str]], numbers: frozenset[int] = frozenset()
) -> str:
    """HTML table; `numbers` are the columns set to the right."""
    return f"<div class=wide>{stacked(heads, rows, numbers)}</div>"


def _parts(report: Report) -> str:
    count = report.job.wheels
    rows = [
        [
            p.name,
            f"{p.count_per_wheel}",
            f"{p.count_per_wheel * count}",
            f"{p.mass_kg:.3f}",
            f"{p.mass_kg * p.count_per_wheel * count:.1f}",
            p.step,
        ]
        for p in report.parts
    ]
    heads = ("Part", "A wheel", "In all", "kg each", "kg in all", "Solid")
    return table(heads, rows, frozenset({1, 2, 3, 4}))


def _wheel_sizes(job: Job) -> str:
    """Every dimension of the wheel as the job gives it, welds and clearances too."""
    wheel = job.wheel
    units = job.paper.units
    values = {key: getattr(wheel, key) for key in type(wheel).model_fields}
    if units == "inch":
        lengths = {k: v for k, v in values.items() if k.endswith("_mm") and v is not None}
        values |= {key: length_beside(mm, units, 2) for key, mm in lengths.items()}
    rows = [
        [key, f"{values[key]}", field.description or ""]
        for key, field in type(wheel).model_fields.items()
    ]
    turned = wheel.tread_from == "pipe" and wheel.tread_taper_1_in
    note = "<p>The taper is turned on the outside of the pipe; its bore stays straight.</p>"
    return (note if turned else "") + table(("Key of the job file", "Value", "What it is"), rows)


def _sizes(row: BlankRow, units: Units) -> str:
    names = {
        "length_mm": "length",
        "width_mm": "width",
        "diameter_mm": "dia",
        "hub_hole_diameter_mm": "hub hole dia",
        "inner_radius_mm": "inner radius",
        "outer_radius_mm": "outer radius",
    }
    sizes = {name: getattr(row, key) for key, name in names.items() if getattr(row, key)}
    words = [f"{name} {length_beside(mm, units)}" for name, mm in sizes.items()]
    if row.sweep_deg:
        words.append(f"sweep {row.sweep_deg:.2f} deg")
    if row.vent_count and row.vent_diameter_mm and row.vent_circle_mm:
        both = (row.vent_diameter_mm, row.vent_circle_mm)
        told = (f"{mm:g}" if units == "mm" else length_beside(mm, units) for mm in both)
        words.append(f"{row.vent_count} vents dia {' on '.join(told)} circle")
    if row.drawing:
        words.append(f"your own part, from {row.drawing}")
    return ", ".join(words)


def _blanks(report: Report, units: Units) -> str:
    rows = [
        [
            b.name,
            thickness(b.thickness_mm, units),
            b.steel,
            f"{b.count}",
            _sizes(b, units),
            f"{b.area_mm2 / 100:.1f}",
            b.file,
        ]
        for b in report.blanks
    ]
    sizes = "Sizes, mm" if units == "mm" else "Sizes"
    heads = ("Blank", "Thick", "Steel", "Count", sizes, "cm2", "Drawing")
    return table(heads, rows, frozenset({1, 3, 5}))


def _blank_figure(row: BlankRow, folder: Path) -> str:
    picture = dxf_picture(folder / row.file, row.name)
    return f"<figure class=blank>{picture}<figcaption>{escape(row.name)}</figcaption></figure>"


def _sheets(report: Report, units: Units) -> str:
    rows = []
    for sheet in report.sheets:
        content = counted(p.blank for p in sheet.placements)
        rows.append(
            [
                sheet.file,
                plate_name(sheet.stock, units),
                thickness(sheet.thickness_mm, units),
                f"{sheet.repeat}",
                content,
                f"{sheet.scrap_percent:.1f}",
                f"{sheet.cutting_minutes:.0f}",
            ]
        )
    heads = ("Cutting file", "Plate", "Thick", "Cut", "Blanks on it", "Scrap %", "min each")
    return table(heads, rows, frozenset({2, 3, 5, 6}))


def _sheet_figure(report: Report, index: int, folder: Path, units: Units) -> str:
    sheet = report.sheets[index]
    caption = f"{sheet.file}: {plate_name(sheet.stock, units)}, cut {sheet.repeat} off"
    return (
        f"<figure>{dxf_picture(folder / sheet.file, caption, offcut_marks(sheet))}"
        f"<figcaption>{escape(caption)}</figcaption></figure>"
    )


def _offcuts(report: Report, units: Units) -> str:
    rows = offcut_cells(report.sheets, units)
    if not rows:
        return ""
    words = "Mark them before the cut; offcuts.toml has them for the next job file."
    return f"<h2>Offcuts to keep</h2><p>{words}</p>" + table(HEADS, rows, frozenset({2, 4}))


def _lengths(report: Report, units: Units) -> str:
    tubes = [p for p in report.parts if p.name == "hub-tube"]
    tube = (
        f"<p>Hub tubes: {report.job.wheels} off, {escape(report.wheel.hub_tube)}.</p>"
        if tubes
        else ""
    )
    if not report.cutting_lists:
        return "<h2>Lengths to saw</h2>" + tube if tube else ""
    rows = [
        [
            plate_name(row.stock, units),
            f"{row.stock_length_mm:g}"
            if units == "mm"
            else length_beside(row.stock_length_mm, units, 0),
            f"{row.repeat}",
            ", ".join(
                f"{n} {name} of {length_beside(row.piece_length_mm, units)}"
                for name, n in row.pieces.items()
            ),
            length_beside(row.rest_mm, units, 0),
        ]
        for row in report.cutting_lists
    ]
    heads = ("From", "Length", "Cut", "Pieces", "Rest")
    return "<h2>Lengths to saw</h2>" + tube + table(heads, rows, frozenset({1, 2, 4}))


def _rating(report: Report) -> str:
    rating = report.rating
    if rating is None:
        return ""
    rows = [
        [limit.name, f"{limit.load_n:.0f}", _worn(report, limit.name), limit.where, limit.by]
        for limit in rating.limits_new
    ]
    worn = "" if rating.worn_n is not None else "Not rated worn: see the check. "
    words = (
        f"Rated wheel load {rating.rated_n:.0f} N with unevenness and shock, "
        f"{rating.rated_state}: {rating.governs}, {rating.where}. {worn}Payload: "
        f"{payload_words(rating.payload_kg_per_wagon)}. Not covered: residual stress, a ring out "
        "of round, poor welds, wear beyond the allowance, shocks beyond the factor. Prove one "
        "wheel: press it on a rail with 1.5 times the rating, measure run-out before and after."
    )
    heads = ("Limit", "New, N", "Worn, N", "Where", "Set by")
    return f"<p>{escape(words)}</p>" + table(heads, rows, frozenset({1, 2}))


def _worn(report: Report, name: str) -> str:
    worn = report.rating.limits_worn if report.rating else []
    loads = [limit.load_n for limit in worn if limit.name == name]
    return f"{loads[0]:.0f}" if loads else ""


def _pictures(pictures: Sequence[tuple[str, str]]) -> str:
    return "".join(
        f"<figure>{svg}<figcaption>{escape(caption)}</figcaption></figure>"
        for svg, caption in pictures
    )


def _checks(report: Report, units: Units) -> str:
    rows = [check_cells(row, units) for row in report.checks]
    heads = ("Verdict", "Check", "Value", "Limit", "What it says", "Source")
    return table(heads, rows, frozenset({2, 3}))


def _notes(report: Report) -> str:
    if not report.warnings:
        return ""
    return (
        "<h2>Notes</h2><ul>" + "".join(f"<li>{escape(w)}</li>" for w in report.warnings) + "</ul>"
    )
