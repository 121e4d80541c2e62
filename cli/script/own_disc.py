"""Hub discs of the script's own put into a job."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from os import PathLike

from platewheel.cli.job.job import Job
from platewheel.cli.script.own_part import own_part, unmarkable
from platewheel.cli.script.own_parts import fit_to_kerf
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.disc_lines import too_many_lines
from platewheel.parts.wheel.own_disc import as_disc, fit_faults, require_blank, without_vents


def with_own_disc(job: Job, disc: Blank | None) -> Job:
    """The job with a script's disc in place of its own. Raises: SpecError where it does not fit,
    has too many lines, a place finer than the kerf, or a mark that cannot be made."""
    if disc is None:
        return job
    if isinstance(disc, str | PathLike):
        advice = f'changed({{"disc.file": "{disc}", "wheel.vent_count": 0}})'
        raise SpecError(
            [Fault("disc", str(disc), "a Blank; a drawing is a key of the job", advice)]
        )
    require_blank(disc)
    faults = [*too_many_lines(disc), *fit_faults(job.wheel, disc), *unmarkable(disc)]
    wheel, own = without_vents(job.wheel), as_disc(disc)
    faults = faults or [*_too_fine(job, own)]
    if faults:
        raise SpecError(faults)
    return replace(job, wheel=wheel, disc=None, drawn_disc=None, own_disc=own)


def _too_fine(job: Job, disc: Blank) -> Iterator[Fault]:
    part = own_part(disc, 1, "any", job.wheel.steel)
    for fault in fit_to_kerf(part, job.cutting)[1]:
        yield replace(fault, advice=fault.advice.partition(", or finer_than_kerf")[0])
