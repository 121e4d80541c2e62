"""A job's axles: how many, and how they are sawn from its round bars."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.nesting.sawing.axle_lengths import AxleCuts, axle_cut_list
from platewheel.nesting.stock.round_bar import Round
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_bar import least_bar_mm


def axles_of(job: Job) -> int:
    """Axles for all wheels of a job; an odd wheel needs one too."""
    return -(-job.head.wheels // 2)


def axle_cuts(job: Job, made: Wheelset) -> AxleCuts:
    """How the job's axles are sawn from its [[round]] bars."""
    return axle_cut_list(
        made.axle_length_mm, least_bar_mm(made), axles_of(job), job.rounds, job.cutting.kerf_mm
    )


def axle_rests(job: Job) -> tuple[Round, ...]:
    """Ends of round bar that are left when the job's axles are sawn; none without [axle]."""
    made = job_wheelset(job).wheelset
    return axle_cuts(job, made).rests if made else ()
