"""The job of a refit."""

from __future__ import annotations

from dataclasses import replace

from platewheel.cli.job.job import Job
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.gauges.spec import GaugesSpec


def refit_job(job: Job) -> Job:
    """The job as one that makes a single set: all blanks of the refit, and no parts of the user's
    own and no gauges, which were cut with the first job."""
    head = unchecked(job.head, {"name": f"{job.head.name}-refit", "wheels": 1})
    cut = replace(job, head=head, extras=(), gauges=GaugesSpec())
    if job.rack is None:
        return cut
    rows = job.rack.rows(head.name)  # not what the first job has reserved
    return replace(cut, stock=rows["stock"], offcuts=rows["offcut"])
