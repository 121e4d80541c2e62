"""Section of the job sheet about the axle: drawing, sizes, fits, how wheels are held, saw list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.report.wheelset_rows import missing_words
from platewheel.cli.schema.wheelset import WheelsetRow
from platewheel.cli.words.phrases import Phrase, phrase
from platewheel.cli.words.values import Length
from platewheel.cli.words.wheelset import fits_table, sawn_table, sizes_table

if TYPE_CHECKING:
    from markupsafe import Markup


def why_no_wheelset(job: Job) -> str:
    """Why this job has none."""
    if job.has_axle:
        return "No wheelset is made of the axle that this job asks for: see the notes."
    return (
        "This job has no axle, so axle, bearings and fits are not worked out; a section [axle] in "
        "the job file asks for them."
    )


def saw_words(row: WheelsetRow) -> Phrase:
    """What to saw where no bar is planned."""
    return phrase(
        f"Saw {row.axles} off ",
        Length(row.piece_mm, ".4g"),
        " long from round bar of ",
        Length(row.least_bar_mm, ".4g"),
        f" or thicker, {row.steel}; give your bars to the job and they are planned.",
    )


def wheelset_section(job: Job, row: WheelsetRow | None, drawing: str) -> Markup:
    """The section; for a job without a wheelset what would give it one."""
    units = job.paper.units
    if row is None or not drawing:
        return render("wheelset.html", units, drawing=None, why_not=why_no_wheelset(job))
    return render(
        "wheelset.html",
        units,
        drawing=drawn(drawing),
        sizes=sizes_table(row),
        fits=fits_table(row),
        retention=row.retention,
        held="; ".join(row.held_by),
        sawn=sawn_table(row),
        missing=missing_words(row),
        saw=saw_words(row),
    )
