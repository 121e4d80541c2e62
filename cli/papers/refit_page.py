"""refit-sheet.html: the refit for the person who builds from it; one self-contained page."""

from __future__ import annotations

from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.html.offcut_words import offcut_marks
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.papers.refit_tables import (
    axles_table,
    blanks_table,
    fits_table,
    measured_table,
    tried_table,
)
from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.words.phrases import Phrase, phrase
from platewheel.cli.words.plates import plate_words
from platewheel.cli.words.refit import (
    choices_table,
    choices_words,
    limits_table,
    shrinkage_words,
    summary_words,
    welded_table,
)
from platewheel.cli.words.values import Length
from platewheel.parts.base.so_many import so_many


def refit_page(job: Job, report: RefitReport, folder: Path) -> str:
    """The page; pictures are drawn from the cutting files that `folder` already holds."""
    return render(
        "refit-sheet.html",
        job.paper.units,
        title=f"{report.job}: refit to {so_many(report.sums.rings, 'ring')} as rolled",
        summary=" ".join(summary_words(report)),
        warnings=report.warnings,
        on_all=_on_all(job),
        blanks=blanks_table(report),
        fits=fits_table(report),
        choices=choices_table(report),
        choices_words=choices_words(report),
        tried=tried_table(report),
        loose=job.axle.wheels_on_axle == "loose",
        axles=axles_table(report),
        shrinkage=shrinkage_words(report),
        shrinkage_source=report.shrinkage.source,
        welded=welded_table(report),
        measured=measured_table(report),
        limits=limits_table(report),
        sheets=[
            (
                drawn(dxf_picture(folder / s.file, s.file, offcut_marks(s), job.file_layers)),
                f"{s.file}: {plate_words(s).told(job.paper.units)}, cut {s.repeat} off",
            )
            for s in report.sheets or ()
        ],
    )


def _on_all(job: Job) -> Phrase:
    """What is the same on every blank."""
    wheel = job.wheel
    vents = phrase(
        f", {so_many(wheel.vent_count, 'vent')} of ",
        Length(wheel.vent_diameter_mm, "g"),
        " on a circle of ",
        Length(wheel.vent_circle_mm, "g"),
    )
    return phrase(
        "All discs: hub hole ",
        Length(wheel.hub_hole_diameter_mm),
        vents if wheel.vent_count else "",
        ", openings as drawn, the rim alone fitted to the rings" if job.own_disc else "",
        f". Flanges: {so_many(wheel.flange_segments, 'piece')} each. Every ",
        f"{'flange' if job.own_disc else 'blank'}'s name is marked on it.",
    )
