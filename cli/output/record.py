"""The record as a file of its own, for the shop; not among the files of the job folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.record_pdf import record_pdf
from platewheel.cli.refit.rows import wheel_records
from platewheel.cli.work.whole_file import write_whole
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.plan import plan_refit


def write_record_pdf(job: Job, rings: Sequence[MeasuredRing], file: Path, *, over: bool) -> None:
    """Write the record, filled from `rings` where there are any; all of it or nothing.

    Raises: OSError, also where the file is there and not to be written `over`; NotFinished where
    the template is broken.
    """
    wheels = wheel_records(job, plan_refit(job.setting, rings)) if rings else []
    write_whole(file, record_pdf(job, wheels), over=over)
