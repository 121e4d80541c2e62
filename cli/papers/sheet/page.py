"""job-sheet.html: the job for a person, one self-contained page that prints."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.gauges import gauge_picture
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.html.offcut_words import offcut_marks, offcuts_table
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.papers.sheet.gauges import gauges_table
from platewheel.cli.papers.sheet.rating import (
    blocks_table,
    limits_table,
    loads_table,
    rating_words,
)
from platewheel.cli.papers.sheet.record import record_form
from platewheel.cli.papers.sheet.shop import buying_section, cost_section, time_section
from platewheel.cli.papers.sheet.sizes import blanks_table, parts_table, wheel_table
from platewheel.cli.papers.sheet.steps import steps_section
from platewheel.cli.papers.sheet.wagon import wagon_section
from platewheel.cli.papers.sheet.wheel_pictures import wheel_pictures
from platewheel.cli.papers.sheet.wheelset import wheelset_section
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.schema.report import Report, SheetRow
from platewheel.cli.words.by_hand import hand_words
from platewheel.cli.words.checks import checks_table
from platewheel.cli.words.figures import over_words, web_words
from platewheel.cli.words.plates import lengths_table, plate_words, plates_table
from platewheel.cli.words.values import Count, Length, Mass, Percent, Quantity, Value
from platewheel.parts.gauges.wanted import HOW_TO_MAKE

CAUTIONS = (
    "A sealed hollow in a zinc bath explodes. Look through the vent holes of every wheel before "
    "it goes to the galvanizer, and tell them how the box is vented.",
    "Weld before galvanizing. Welding or cutting zinc-coated steel gives fume that makes ill; "
    "grind the zinc off well back from the joint, ventilate, wear a fitting respirator.",
    "Hot work: clear the ground of what burns, wear eye, ear and hand protection; grinder discs "
    "burst, cut edges are sharp.",
    "Plates, bars and finished wheels are heavy: lift with help or a hoist, never stand below.",
    "No people ride on wagons with wheels that have not been proof-loaded. Wagons need brakes "
    "or scotches wherever the track falls; they roll away on slopes that the eye does not see.",
    "These figures are an aid. Local codes, licensed welders and engineers, and the rules for "
    "railways on your land come first.",
)


def job_sheet(
    job: Job,
    report: Report,
    folder: Path,
    pictures: Sequence[tuple[str, str]] = (),
    wheels: Sequence[WheelRecord] = (),
) -> str:
    """The page, with pictures drawn from the files that `folder` already holds; `wheels` fill
    its record."""
    units, rating = job.paper.units, report.rating
    plates = plates_table(report.sheets)
    lengths = lengths_table(report.cutting_lists, units)
    return render(
        "job-sheet.html",
        units,
        title=f"{job.head.name}: {_wheels(report)} wheels",
        sum=_sum(job, report),
        wheel=wheel_pictures(job),
        rating=rating
        and {
            "words": rating_words(rating),
            "limits": limits_table(rating),
            "loads": loads_table(rating),
            "blocks": blocks_table(rating),
        },
        checks=checks_table(report.checks),
        pictures=[(drawn(svg), caption) for svg, caption in pictures],
        wagon=wagon_section(job),
        wheelset=wheelset_section(job, report.wheelset),
        turned_taper=job.wheel.tread_from == "pipe" and job.wheel.tread_taper_1_in,
        sizes=wheel_table(job.wheel, units),
        parts=parts_table(report.parts, job.head.wheels),
        blanks=blanks_table(report.blanks, units),
        blank_pictures=[
            (drawn(dxf_picture(folder / row.file, row.name, layers=job.file_layers)), row.name)
            for row in report.blanks
        ],
        gauges=gauges_table(report.gauges),
        gauges_made=HOW_TO_MAKE,
        gauges_held=drawn(gauge_picture(job.setting, job.made_gauges, units)),
        plates=plates.only(
            "file", "stock", "thick", "repeat", "blanks", "scrap_percent", "minutes"
        ),
        plate_pictures=[_plate(sheet, folder, job) for sheet in report.sheets],
        offcuts=offcuts_table(report.sheets),
        tube=_tube(report),
        lengths=lengths.only("stock", "length", "repeat", "pieces_of", "rest"),
        buying=buying_section(report, units),
        time=time_section(report, units),
        cost=cost_section(report, units),
        cautions=CAUTIONS,
        steps=steps_section(report.steps, units),
        record=record_form(job, wheels),
        notes=report.warnings,
    )


def _wheels(report: Report) -> str:
    made, asked = report.job.wheels, report.job.asked
    return f"{made}" if made == asked else f"{made} of {asked}"


def _sum(job: Job, report: Report) -> dict[str, Value | str]:
    """What the first lines tell."""
    wheel, nesting = report.wheel, report.nesting
    form = "g" if job.paper.units == "mm" else ".1f"
    return {
        "gauge": Length(job.track.gauge_mm, form, "rule"),
        "tread": Length(wheel.tread_diameter_mm, form, "rule"),
        "over_flange": Length(wheel.over_flange_diameter_mm, form, "rule"),
        "mass": Mass(wheel.mass_kg),
        "mass_in_all": Mass(wheel.mass_kg * job.head.wheels, ".0f"),
        "steel": job.wheel.steel,
        "coating": job.finish.coating,
        "plates": Count(nesting.sheets_used),
        "scrap": Percent(nesting.scrap_percent, ".0f"),
        "scrap_after": Percent(nesting.scrap_percent_after_offcuts, ".0f"),
        "cutting": Quantity(nesting.cutting_hours, ".1f", "h"),
        "setup": Quantity(nesting.setup_hours, ".1f", "h") if nesting.setup_hours else "",
        "cut": Quantity(nesting.cut_length_mm / 1000, ".1f", "m"),
        "pierces": "" if nesting.pierces is None else Count(nesting.pierces),
        "by_hand": hand_words(nesting.by_hand) if nesting.by_hand else "",
        "web": web_words(nesting.web_mm, nesting.edge_web_mm),
        "cost": report.cost.says,
    }


def _plate(sheet: SheetRow, folder: Path, job: Job) -> tuple[str, str]:
    """A layout drawn, and its caption."""
    plate = plate_words(sheet).told(job.paper.units)
    over = over_words(sheet.travels_over_cut_parts)
    caption = f"{sheet.file}: {plate}, cut {sheet.repeat} off" + (f"; {over}" if over else "")
    picture = dxf_picture(folder / sheet.file, caption, offcut_marks(sheet), job.file_layers)
    return drawn(picture), caption


def _tube(report: Report) -> str:
    if not any(part.name == "hub-tube" for part in report.parts):
        return ""
    return f"Hub tubes: {report.job.wheels} off, {report.wheel.hub_tube}."
