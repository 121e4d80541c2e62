"""The record as a file of its own, for the shop; not among the files of the job folder."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.papers.record_pdf import record_pdf
from platewheel.cli.refit.rows import wheel_records
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.plan import plan_refit


def write_record_pdf(job: Job, rings: Sequence[MeasuredRing], file: Path) -> None:
    """Write the record, filled from `rings` where there are any; all of it or nothing.

    Raises: OSError; NotFinished where the template is broken.
    """
    wheels = wheel_records(job, plan_refit(job.setting, rings)) if rings else []
    made = record_pdf(job, wheels)
    aside = file.with_name(f".{file.name}-{os.getpid()}")
    try:
        with aside.open("xb") as target:
            target.write(made)
        aside.replace(file)
    finally:
        aside.unlink(missing_ok=True)
