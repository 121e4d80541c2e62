"""Section of the job sheet about the axle: drawing, sizes, fits, how wheels are held, saw list."""

from __future__ import annotations

from html import escape

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.sheet.shop import stacked
from platewheel.cli.report.wheelset_rows import cut_rows, fit_rows, missing_words, size_rows
from platewheel.cli.schema.wheelset import WheelsetRow


def wheelset_section(job: Job, row: WheelsetRow | None) -> str:
    """The section; for a job without a wheelset what would give it one."""
    made = job_wheelset(job).wheelset
    if row is None or made is None:
        words = (
            "This job has no [axle], so axle, bearings and fits are not worked out."
            if not job.has_axle
            else "No wheelset is made of this [axle]: see the notes at the end."
        )
        return f"<h2>The wheelset</h2><p>{words}</p>"
    units = job.paper.units
    caption = (
        "Two wheels on their axle; rails drawn in. Keyways, set screws and fillets of shoulders "
        "are not drawn. Solids: <code>solids/wheelset.step</code>"
    )
    held = "; ".join(row.held_by)
    saws = ""
    if row.cuts:
        heads = ("Bar", "Bars", "From each", "Rest of each")
        short = "".join(f"<p>{escape(line)}</p>" for line in missing_words(row))
        saws = stacked(heads, cut_rows(row), frozenset({1, 3})) + short
    else:
        saws = (
            f"<p>Saw {row.axles} off {row.piece_mm:.4g} mm long from round bar of "
            f"{row.least_bar_mm:.4g} mm or thicker, {escape(row.steel)}; with [[round]] in the job "
            "file its bars are planned.</p>"
        )
    fits = ("Where", "Size", "Hole", "Shaft")
    return (
        f"<h2 class=own>The wheelset</h2><figure class=drawing>"
        f"{wheelset_picture(job.setting, made, units)}"
        f"<figcaption>{caption}</figcaption></figure>"
        f"{stacked(('What', 'Size', 'Of what'), size_rows(row))}"
        f"<p>Each wheel is held by {escape(row.retention)}; an axle takes {escape(held)}.</p>"
        f"<h3>Fits, ISO 286</h3>{stacked(fits, fit_rows(row, units), frozenset({1}))}"
        f"<h3>Axles to saw</h3>{saws}"
    )
