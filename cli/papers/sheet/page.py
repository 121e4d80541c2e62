"""job-sheet.html: the job for a person, one self-contained page that prints."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.papers.html.offcut_words import offcuts_table
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.papers.sheet.drawings import Drawings
from platewheel.cli.papers.sheet.gauges import gauges_table
from platewheel.cli.papers.sheet.rating import (
    blocks_table,
    limits_table,
    loads_table,
    rating_words,
)
from platewheel.cli.papers.sheet.record import record_form
from platewheel.cli.papers.sheet.shop import buying_section, cost_section, time_section
from platewheel.cli.papers.sheet.sizes import blanks_table, full_size, parts_table, wheel_table
from platewheel.cli.papers.sheet.steps import steps_section
from platewheel.cli.papers.sheet.summary import (
    facts_table,
    look_at,
    not_assessed_words,
    not_passed,
    passed,
    passed_words,
    read_first,
    wheels_words,
)
from platewheel.cli.papers.sheet.wagon import wagon_section
from platewheel.cli.papers.sheet.wheel_pictures import wheel_pictures
from platewheel.cli.papers.sheet.wheelset import wheelset_section
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.schema.report import Report
from platewheel.cli.words.checks import checks_table
from platewheel.cli.words.plates import lengths_table, plates_table
from platewheel.parts.gauges.wanted import HOW_TO_MAKE


def job_sheet(
    job: Job, report: Report, drawings: Drawings, wheels: Sequence[WheelRecord] = ()
) -> str:
    """The page; `wheels` fill its record."""
    units, rating = job.paper.units, report.rating
    plates = plates_table(report.sheets)
    lengths = lengths_table(report.cutting_lists, units)
    return render(
        "job-sheet.html",
        units,
        title=f"{job.head.name}: {wheels_words(report)}",
        facts=facts_table(job, report),
        look_at=look_at(report),
        not_assessed=not_assessed_words(report),
        wheel=wheel_pictures(job, drawings.wheel),
        rating=rating
        and {
            "words": rating_words(rating),
            "limits": limits_table(rating),
            "loads": loads_table(rating),
            "blocks": blocks_table(rating),
        },
        checks={
            "open": checks_table(not_passed(report)),
            "folded": checks_table(passed(report)),
            "folded_words": passed_words(report),
        },
        pictures=[(drawn(svg), caption) for svg, caption in drawings.checks],
        wagon=wagon_section(job),
        wheelset=wheelset_section(job, report.wheelset, drawings.axle),
        turned_taper=job.wheel.tread_from == "pipe" and job.wheel.tread_taper_1_in,
        sizes=wheel_table(job.wheel, units),
        parts=parts_table(report.parts, job.head.wheels),
        blanks=blanks_table(report.blanks, units, full_size(report)),
        blank_pictures=[(drawn(svg), name) for name, svg in drawings.blanks.items()],
        gauges=gauges_table(report.gauges),
        gauges_made=HOW_TO_MAKE,
        gauges_held=drawn(drawings.gauges),
        plates=plates.only(
            "file", "stock", "thick", "repeat", "blanks", "scrap_percent", "minutes"
        ),
        plate_pictures=[(drawn(svg), caption) for svg, caption in drawings.plates],
        offcuts=offcuts_table(report.sheets),
        tube=tube_words(report),
        lengths=lengths.only("stock", "length", "repeat", "pieces_of", "rest"),
        buying=buying_section(report, units),
        time=time_section(report, units),
        cost=cost_section(report, units),
        cautions=read_first(job),
        steps=steps_section(report.steps, units),
        record=record_form(job, wheels),
        notes=report.warnings,
    )


def tube_words(report: Report) -> str:
    """Hub tubes to saw; empty for wheels without."""
    if not any(part.name == "hub-tube" for part in report.parts):
        return ""
    return f"Hub tubes: {report.job.wheels} off, {report.wheel.hub_tube}."
