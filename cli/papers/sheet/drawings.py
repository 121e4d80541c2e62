"""The drawings of a job sheet, each made once for the page and for the paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.papers.drawings.exploded import exploded_picture
from platewheel.cli.papers.drawings.gauges import gauge_picture
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.drawings.turning_scene import turning_scene
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.html.offcut_words import offcut_marks
from platewheel.cli.schema.report import Report, SheetRow
from platewheel.cli.words.figures import over_words
from platewheel.cli.words.plates import plate_words
from platewheel.parts.wheelset.bodies.hub import finished_solids


@dataclass(frozen=True)
class WheelDrawings:
    """Section, parts pulled apart (SVG), and the numbers of the view that turns."""

    section: str
    apart: str
    scene: Mapping[str, Any]


@dataclass(frozen=True)
class Drawings:
    """SVG elements; `axle` and `gauges` are empty for a job without."""

    wheel: WheelDrawings
    axle: str
    blanks: Mapping[str, str]  # by the blank's name
    gauges: str
    plates: Sequence[tuple[str, str]]  # with what stands below
    checks: Sequence[tuple[str, str]]


def drawings_of(
    job: Job,
    report: Report,
    folder: Path,
    plates: Sequence[tuple[str, str]],
    checks: Sequence[tuple[str, str]] = (),
) -> Drawings:
    """All of a job, blanks drawn from the files that `folder` already holds; `plates` are drawn
    by who wrote them, `checks` by who has the analysis.

    Raises: GeometryError naming a part that the modeller cannot build.
    """
    units = job.paper.units
    made = job_wheelset(job).wheelset
    return Drawings(
        wheel=wheel_drawings(job),
        axle=wheelset_picture(job.setting, made, units) if made and report.wheelset else "",
        blanks={
            row.name: dxf_picture(folder / row.file, row.name, layers=job.file_layers)
            for row in report.blanks
        },
        gauges=gauge_picture(job.setting, job.made_gauges, units),
        plates=plates,
        checks=checks,
    )


def wheel_drawings(job: Job) -> WheelDrawings:
    """Of the wheel, lengths in the units of the paper.

    Raises: GeometryError naming a part that the modeller cannot build.
    """
    units = job.paper.units
    solids = dict(finished_solids(job.setting, job_wheelset(job).wheelset))
    return WheelDrawings(
        section_picture(job.wheel, units, job.own_disc),
        exploded_picture(job.wheel, solids, units, job.own_disc),
        turning_scene(job.wheel, solids),
    )


def plate_drawing(job: Job, sheet: SheetRow, folder: Path, drawing: Any = None) -> tuple[str, str]:
    """A layout drawn from its file in `folder`, or from what was read of it, and its caption."""
    plate = plate_words(sheet).told(job.paper.units)
    over = over_words(sheet.travels_over_cut_parts)
    caption = f"{sheet.file}: {plate}, cut {sheet.repeat} off" + (f"; {over}" if over else "")
    path, kept = folder / sheet.file, offcut_marks(sheet)
    return dxf_picture(path, caption, kept, job.file_layers, drawing), caption
