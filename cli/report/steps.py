"""Steps to build as rows of the report: what a job gives to them, and what they say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from platewheel.cli.job.axles import axle_cuts, axles_of
from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.schema.rating import RatingRow
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.schema.shop import StepRow
from platewheel.parts.making.steps.build_steps import build_steps
from platewheel.parts.making.steps.step import Judged, Work


def step_rows(
    job: Job,
    nesting: NestingRow,
    checks: Sequence[Judged],
    rating: RatingRow | None,
    files: Sequence[str] = (),
) -> list[StepRow]:
    """All steps of this job's wheels, in the units of its paper; `files` are all that the build
    writes, as paths below the job folder."""
    made = job_wheelset(job).wheelset
    cuts = None if made is None else axle_cuts(job, made)
    work = Work(
        setting=job.setting,
        costs=job.costs,
        wheels=job.head.wheels,
        cut_length_mm=nesting.cut_length_mm,
        drilled=nesting.centre_marked_holes,
        wheelset=made,
        axles=axles_of(job),
        axle_piece_mm=cuts.piece_mm if cuts else 0.0,
        axle_bar_mm=cuts.least_bar_mm if cuts else 0.0,
        rated_n=rating.rated_n if rating else None,
        carries_kg=rating.payload_kg_per_wagon if rating else None,
        files=files,
    )
    steps = build_steps(work, checks, job.paper.units)
    return [StepRow.model_validate(asdict(step)) for step in steps]
