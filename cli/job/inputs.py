"""The files that a job is read from: no paper of it is written over one of them."""

from __future__ import annotations

from pathlib import Path

from platewheel.cli.job.job import Job


def read_for(job: Job, job_file: Path, *more: Path | None) -> list[Path]:
    """The job file, its ledger and drawings, and `more` that the command was given."""
    folder = job_file.parent
    named = [part.spec.file for part in job.extras] + ([job.disc.file] if job.disc else [])
    ledger = [job.rack.ledger.path] if job.rack else []
    return [job_file, *ledger, *(folder / name for name in named), *filter(None, more)]
