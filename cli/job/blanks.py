"""Every flat blank of a job, the wheel's and the user's own: how many, and what its files are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.cli.job.job import Job
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.part import Part


@dataclass(frozen=True)
class JobBlank:
    """A blank with its count for the whole job; `stem` is its files' name without the end."""

    blank: Blank
    count: int
    stem: str
    steel: str
    drawing: str | None = None  # of a part of the user's own


def job_blanks(job: Job, parts: Sequence[Part]) -> tuple[JobBlank, ...]:
    """The wheel's blanks, then the extras; an extra's files begin with `extra-`."""
    wheel = [
        JobBlank(part.blank, part.count_per_wheel * job.head.wheels, part.name, job.wheel.steel)
        for part in parts
        if part.blank
    ]
    extras = [
        JobBlank(
            extra.blank,
            extra.spec.count,
            f"extra-{extra.blank.name}",
            extra.steel,
            extra.spec.file,
        )
        for extra in job.extras
    ]
    return (*wheel, *extras)
