"""refit-sheet.html: the refit for the person who builds from it; one self-contained page."""

from __future__ import annotations

from html import escape
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.html.offcut_words import offcut_marks
from platewheel.cli.papers.html.refit_table import STYLE, table
from platewheel.cli.schema.refit import AxleRecord, RefitReport, WheelRecord
from platewheel.cli.schema.report import BlankRow
from platewheel.cli.words.figures import thickness
from platewheel.cli.words.inches import page_in
from platewheel.cli.words.refit import summary_words
from platewheel.parts.base.units import Units, length


def refit_page(job: Job, report: RefitReport, folder: Path) -> str:
    """The page; pictures are drawn from the cutting files that `folder` already holds."""
    title = f"{escape(report.job)}: refit to {report.sums.rings} rings as rolled"
    sheets = "".join(
        f"<figure>{dxf_picture(folder / s.file, s.file, offcut_marks(s))}<figcaption>"
        f"{escape(f'{s.file}: {s.stock}, cut {s.repeat} off')}</figcaption></figure>"
        for s in report.sheets or ()
    )
    page = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{title}</title><style>{STYLE}</style></head><body><h1>{title}</h1>"
        f"{_summary(job, report)}{_notes(report)}"
        f"<h2>1. Blanks to cut</h2>{_blanks(job, report)}"
        f"<h2>2. Which blanks go to which ring</h2>{_fits(job, report)}"
        f"{_tried(job, report)}"
        f"<h2>3. Wheels on axles, axles on wagons</h2>{_axles(job, report)}"
        f"<h2>4. What was measured</h2>{_measured(job, report)}"
        f"<h2>Limits</h2>{_limits(report)}"
        f"{'<h2>Sheets</h2>' + sheets if sheets else ''}</body></html>\n"
    )
    return page_in(page, job.paper.units)


def _told(mm: float | None, units: Units, places: int = 2) -> str:
    """A size in a column: mm, which the fits need to 0.1 or finer, or inches with those beside."""
    if mm is None:
        return ""
    return f"{mm:.{places}f}" if units == "mm" else f"{length(mm, units)} ({mm:.{places}f})"


def _summary(job: Job, report: RefitReport) -> str:
    sizes = "All sizes in mm." if job.paper.units == "mm" else "Sizes in inches (mm beside)."
    words = [*summary_words(report), f"{sizes} Record of every wheel: record.csv."]
    return f"<p>{escape(' '.join(words))}</p>"


def _notes(report: RefitReport) -> str:
    lines = "".join(f"<li>{escape(line)}</li>" for line in report.warnings)
    return f"<h2>Look at this first</h2><div class=note><ul>{lines}</ul></div>" if lines else ""


def _blanks(job: Job, report: RefitReport) -> str:
    shared = {row.blank: row for row in report.shared}
    rows = [
        (
            "",
            (
                b.name,
                str(b.count),
                thickness(b.thickness_mm, job.paper.units),
                _sizes(b, shared[b.name].size_mm, job.paper.units),
                ", ".join(shared[b.name].rings),
                "",
            ),
        )
        for b in report.blanks
    ]
    vents = (
        f"All discs: hub hole {job.wheel.hub_hole_diameter_mm:.1f} mm"
        + (
            f", {job.wheel.vent_count} vents of {job.wheel.vent_diameter_mm:g} mm on a circle of "
            f"{job.wheel.vent_circle_mm:g} mm"
            if job.wheel.vent_count
            else ""
        )
        + f". Flanges: {job.wheel.flange_segments} pieces each. Every blank's name is marked on it."
    )
    columns = (
        ("Blank", ""),
        ("Cut", "n"),
        ("Plate", "n"),
        ("Size", ""),
        ("For rings", ""),
        ("Done", "tick"),
    )
    return f"<p>{escape(vents)}</p>{table(columns, rows)}"


def _sizes(blank: BlankRow, size_mm: float, units: Units) -> str:
    def said(mm: float | None) -> str:
        return _told(mm, units, 1)

    if blank.diameter_mm is not None:
        return f"diameter {said(blank.diameter_mm)}"
    return (
        f"radii {said(blank.inner_radius_mm)} and {said(blank.outer_radius_mm)}, sweep "
        f"{blank.sweep_deg:.2f} deg (for a tread of {said(size_mm)})"
    )


def _fits(job: Job, report: RefitReport) -> str:
    """In the order of the ring numbers, as the rings are taken from the heap."""
    units = job.paper.units
    two = any(w.disc_field_blank != w.disc_gauge_blank for w in report.wheels)

    def cells(w: WheelRecord) -> tuple[str, ...]:
        discs = [w.disc_field_blank, _told(w.disc_field_gap_mm, units)]
        if two:
            discs += [w.disc_gauge_blank, _told(w.disc_gauge_gap_mm, units)]
        flange = w.flange_blank or "as tried on"
        return (w.ring, str(w.wheel), *discs, flange, _told(w.flange_seam_gap_mm, units, 1), "")

    names = ("Field disc", "Gauge disc") if two else ("Both discs",)
    discs = [column for name in names for column in ((name, "k"), ("Gap all round", "n"))]
    columns = (
        ("Ring", ""),
        ("Stamp wheel no.", "n"),
        *discs,
        ("Flange", "k"),
        ("Root gap, each seam", "n"),
        ("Tacked", "tick"),
    )
    ordered = sorted(report.wheels, key=lambda w: (len(w.ring), w.ring))
    return table(columns, [("", cells(w)) for w in ordered])


def _signed(mm: float, units: Units) -> str:
    return f"{'+' if mm >= 0 else ''}{_told(mm, units, 1)}"


def _tried(job: Job, report: RefitReport) -> str:
    units = job.paper.units
    rows = [
        (
            "",
            (
                w.ring,
                _signed(w.flange_seam_mm, units),
                w.tried.says,
                _signed(w.tried.from_ring_mm, units),
                _signed(w.tried.from_blank_mm, units),
            ),
        )
        for w in report.wheels
        if w.tried and w.flange_seam_mm is not None
    ]
    if not rows:
        return ""
    columns = (
        ("Ring", ""),
        ("Seam found", "n"),
        ("What to do", ""),
        ("of it: ring", "n"),
        ("of it: blank", "n"),
    )
    words = (
        "Flanges tried on (+ open, - lapped, the other seams at their root gap). What the ring's "
        "own size explains is set apart from what cutting and rolling must explain."
    )
    return f"<h2>Flanges tried on</h2><p>{words}</p>{table(columns, rows)}"


def _axles(job: Job, report: RefitReport) -> str:
    wheels, units = {w.wheel: w for w in report.wheels}, job.paper.units

    def cells(axle: AxleRecord) -> tuple[str, ...]:
        pair = [
            (str(w.wheel), w.ring, _told(w.tread_diameter_mm, units))
            for w in (wheels[axle.left], wheels[axle.right])
        ]
        radius = "straight" if axle.curve_radius_m is None else f"{axle.curve_radius_m:.0f} m"
        after = "" if axle.flange_after_m is None else f"{axle.flange_after_m:.1f} m"
        drift = _told(axle.drift_mm, units, 0)
        return (
            *(axle.wagon or "spare", axle.axle, *pair[0], *pair[1]),
            *(_told(axle.difference_mm, units), radius, drift, after, ""),
        )

    starts = [
        i == 0 or axle.wagon != report.axles[i - 1].wagon for i, axle in enumerate(report.axles)
    ]
    rows = [
        ("first" if start else "", cells(axle))
        for start, axle in zip(starts, report.axles, strict=True)
    ]
    spare = [w for w in report.wheels if w.axle is None]
    rows += [
        ("first", ("spare", "", str(w.wheel), w.ring, _told(w.tread_diameter_mm, units), *[""] * 8))
        for w in spare
    ]
    columns = (
        ("Wagon", ""),
        ("Axle", ""),
        ("Left wheel", "n"),
        ("ring", ""),
        ("tread dia", "n"),
        ("Right wheel", "n"),
        ("ring", ""),
        ("tread dia", "n"),
        ("Differ by", "n"),
        ("Rolls in a curve of", "n"),
        ("Drift in 10 m", "n"),
        ("Flange touches after", "n"),
        ("Mounted", "tick"),
    )
    if job.axle.wheels_on_axle == "loose":
        words = "Wheels loose on the axle turn each at their own speed: their sizes do not steer."
    else:
        words = (
            "An axle steers towards its smaller wheel. Drift is what 10 m of straight track would "
            "bring if no flange held it; the last column starts from the middle of the track. The "
            "larger wheel stands left on one axle and right on the next, so that the axles of a "
            "wagon steer against each other."
        )
    return f"<p>{words}</p>{table(columns, rows)}"


def _measured(job: Job, report: RefitReport) -> str:
    units = job.paper.units

    def cells(w: WheelRecord) -> tuple[str, ...]:
        own = _told(w.disc_field_mm, units, 1)
        if abs(w.disc_gauge_mm - w.disc_field_mm) > 0.05:
            own += f" / {_told(w.disc_gauge_mm, units, 1)}"
        radii = (w.flange_inner_radius_mm, w.flange_outer_radius_mm)
        flange = ", ".join(_told(mm, units, 1) for mm in radii)
        return (
            str(w.wheel),
            w.ring,
            _told(w.outside_circumference_mm, units, 1),
            _told(w.inside_circumference_mm, units, 1),
            _told(w.tread_diameter_mm, units),
            _told(w.wall_mm, units),
            _told(w.inside_diameter_mm, units),
            _told(w.out_of_round_mm, units, 1),
            _told(w.out_of_round_limit_mm, units, 1),
            f"{own}; {flange}, {w.flange_sweep_deg:.2f} deg",
        )

    columns = (
        ("Wheel", "n"),
        ("Ring", ""),
        ("Tape outside", "n"),
        ("Tape inside", "n"),
        ("Tread dia", "n"),
        ("Wall", "n"),
        ("Inside dia", "n"),
        ("Out of round", "n"),
        ("at most", "n"),
        ("Own disc dia; own flange radii, sweep", "n"),
    )
    return table(columns, [("", cells(w)) for w in report.wheels])


def _limits(report: RefitReport) -> str:
    rows = [("", (row.what, row.limit, row.source)) for row in report.limits]
    return table((("What", ""), ("Limit", ""), ("Source", "")), rows)
