"""A disc by its own drawing fits one wheel: what tries others refuses it by name."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.parts.base.faults import Fault, SpecError


def require_plain_disc(job: Job, what: str) -> None:
    """Whether other wheels of this job can be tried. Raises: SpecError for a disc of one's own:
    it fits one ring, and no rating knows it."""
    if job.own_disc is None:
        return
    file = job.disc.file if job.disc else "one of your own"
    allowed = f"plain discs where {what} tries other wheels: a drawn one fits one, and no rating "
    advice = "without [disc]; then draw your disc for the wheel that you take"
    if job.disc is None:
        advice = "the job without with_disc"
    fault = Fault("disc.file" if job.disc else "disc", file, f"{allowed}knows it", advice)
    raise SpecError([job.places.placed(fault) if job.disc else fault])
