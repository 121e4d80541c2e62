"""standards.pdf: the sheet of track and wheel standards of one railway."""

from __future__ import annotations

from itertools import groupby

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.on_the_rail import on_the_rail
from platewheel.cli.papers.drawings.turnout import turnout
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.words.standards import setting_out_words, standards_table, widening_words
from platewheel.parts.base.units import length
from platewheel.parts.checks.running.points import gap_length_mm
from platewheel.parts.standards.published import beside
from platewheel.parts.standards.rows import Standard, standards
from platewheel.parts.standards.turnout import setting_out
from platewheel.parts.standards.widening import widening_table

NOTES = (
    "Measure between running edges, as far below the rail's top as the corner is round. A size is "
    "good from its least to its most as long as all others are as they stand here: where two "
    "change, change the job file and print the sheet again. Where least is above most, track and "
    "wheel do not go together: change one of those that it follows from.",
    "Flangeways have room for the yaw of the wheelbase in the tightest curve, an open tongue also "
    "for the skew that play allows; every least and most is for the tightest or the widest gauge.",
    "Published standards are of other gauges, rails and wheels, for comparison alone: they go "
    "together among themselves, not with these. Tread widths of field and main lines have the "
    "flange in them.",
    "Write on this sheet what is agreed, gauge every wheelset and every turnout against it, and "
    "scrap what is outside. The rules for railways on your land come first; people may ride only "
    "where they allow it.",
)
IN_PICTURE = {
    "check_flangeway": "Fc",
    "crossing_flangeway": "Fx",
    "check_gauge": "C",
    "span": "S",
    "switch_opening": "opening",
    "heel_gap": "heel",
    "nose": "nose",
    "gauge": "G",
}


def standards_pdf(job: Job) -> bytes:
    """The sheet on the job's paper. Raises: NotFinished where the template is broken."""
    setting, paper = job.setting, job.paper
    units = paper.units
    rows, outside = standards(setting), beside(setting.track.gauge_mm)
    whole = standards_table(rows, outside)
    parts = []
    for name, some in groupby(rows, key=lambda row: row.part):
        lines = standards_table(tuple(some), outside)
        parts.append({"name": name, "rows": list(lines.cells(units))})
    widening = widening_words(widening_table(setting))
    out = setting_out_words(setting_out(setting))
    return typeset(
        "standards.typ",
        {
            "font": paper.font,
            "title": f"{job.head.name}: standards of track and wheel",
            "unit": "Lengths in mm." if units == "mm" else "Lengths in inches, mm in brackets.",
            "page": {
                "width_mm": paper.height_mm,  # the long side across: ten columns
                "height_mm": paper.width_mm,
                "margin_mm": paper.margin_mm,
            },
            "heads": [{"head": one.head, "align": one.align} for one in whole.columns],
            "parts": parts,
            "setting_out": {"heads": out.heads(), "rows": list(out.cells(units))},
            "widening": {"heads": widening.heads(), "rows": list(widening.cells(units))},
            "points": _points(job),
            "notes": list(NOTES),
        },
        {
            "wheel.svg": on_the_rail(setting, units),
            "turnout.svg": turnout(_sizes(rows, job), "mm" if units == "mm" else "inches"),
        },
    )


def _sizes(rows: tuple[Standard, ...], job: Job) -> dict[str, str]:
    """What the picture of the turnout prints."""
    sizes = {}
    for row in rows:
        if row.key in IN_PICTURE and row.has is not None:
            told = length(row.has, job.paper.units)
            sizes[IN_PICTURE[row.key]] = told.removesuffix(" mm").removesuffix(" in")
    return sizes


def _points(job: Job) -> str:
    gap = gap_length_mm(job.setting)
    if gap is None:
        return ""
    told = length(gap, job.paper.units, 0)
    number = job.track.crossing_1_in
    return (
        f"A crossing of 1 in {number:g} leaves {told} without guide at its nose: the straight part "
        "of the check rail covers that, and its ends flare."
    )
