"""The record as a file of its own, for the shop; not among the files of the job folder."""

from __future__ import annotations

import os
import tempfile
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
    number, aside = tempfile.mkstemp(prefix=f".{file.name}-", dir=file.parent)
    try:
        with os.fdopen(number, "wb") as target:
            target.write(made)
        Path(aside).chmod(0o666 & ~_umask())
        Path(aside).replace(file)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise


def _umask() -> int:
    """Modes that this process leaves out of new files; mkstemp leaves out more."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
