"""The calculation as a file of its own; a build has it among its files."""

from __future__ import annotations

from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import checks_with_advice
from platewheel.cli.papers.calculation_pdf import calculation_pdf
from platewheel.cli.papers.charts.stress import stress_picture
from platewheel.cli.work.whole_file import write_whole
from platewheel.parts.rating.assess import assess


def write_calculation(job: Job, file: Path, *, rated: bool, over: bool) -> None:
    """Write it, with the load rating or without; all of it or nothing.

    Raises: OSError, also where the file is there and not to be written `over`; NotFinished where
    the template is broken.
    """
    found = assess(job.setting) if rated else None
    stress = "" if found is None else stress_picture(found.response, job.setting)
    results = checks_with_advice(job, found)
    write_whole(file, calculation_pdf(job, results, found, stress), over=over)
