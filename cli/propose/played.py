"""A job with another wheel on it, its axle set for a play."""

from __future__ import annotations

from dataclasses import replace

from platewheel.cli.job.job import Job
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.propose.play import axle_set
from platewheel.parts.propose.rate_until_known import Found
from platewheel.parts.wheel.spec import WheelSpec


def with_play(job: Job, wheel: WheelSpec, play_mm: float | None) -> Job:
    """The job with this wheel, set for this play; None leaves its axle as it is. Raises:
    SpecError where the flanges would meet."""
    return replace(job, wheel=wheel, axle=axle_set(job.setting, wheel, play_mm))


def found_job(job: Job, found: Found, row: int) -> Job:
    """The job with a wheel that was found. Raises: SpecError."""
    return with_play(job, WheelSpec(**found.wheels.values(row)), found.wheels.play_mm(row))


def proposed_job(job: Job, row: ProposalRow) -> Job:
    """The job with a proposal's wheel and back-to-back."""
    axle = unchecked(job.axle, {"back_to_back_mm": row.set_back_to_back_mm})
    return replace(job, wheel=WheelSpec(**row.wheel), axle=axle)


def beside(job: Job, wheel: WheelSpec) -> Job:
    """A job with another wheel that keeps the play where the axle is set for one."""
    play = None if job.axle.back_to_back_mm is None else job.setting.play_mm
    return with_play(job, wheel, play)
