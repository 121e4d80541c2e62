"""Section of the job sheet about the axle: drawing, sizes, fits, how wheels are held, saw list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.report.wheelset_rows import missing_words
from platewheel.cli.schema.wheelset import WheelsetRow
from platewheel.cli.words.phrases import phrase
from platewheel.cli.words.values import Length
from platewheel.cli.words.wheelset import fits_table, sawn_table, sizes_table

if TYPE_CHECKING:
    from markupsafe import Markup


def wheelset_section(job: Job, row: WheelsetRow | None) -> Markup:
    """The section; for a job without a wheelset what would give it one."""
    made, units = job_wheelset(job).wheelset, job.paper.units
    if row is None or made is None:
        why_not = (
            "This job has no [axle], so axle, bearings and fits are not worked out."
            if not job.has_axle
            else "No wheelset is made of this [axle]: see the notes at the end."
        )
        return render("wheelset.html", units, drawing=None, why_not=why_not)
    return render(
        "wheelset.html",
        units,
        drawing=drawn(wheelset_picture(job.setting, made, units)),
        sizes=sizes_table(row),
        fits=fits_table(row),
        retention=row.retention,
        held="; ".join(row.held_by),
        sawn=sawn_table(row),
        missing=missing_words(row),
        saw=phrase(
            f"Saw {row.axles} off ",
            Length(row.piece_mm, ".4g"),
            " long from round bar of ",
            Length(row.least_bar_mm, ".4g"),
            f" or thicker, {row.steel}; with [[round]] in the job file its bars are planned.",
        ),
    )
