"""Every flat blank of a job, the wheel's and all others: how many, and what its files are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.cli.job.job import Job
from platewheel.nesting.stock.layout import Turns
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.hub_disc import DISC
from platewheel.parts.wheel.part import Part


@dataclass(frozen=True)
class JobBlank:
    """A blank with its count for the whole job; `stem` is its files' name without the end."""

    blank: Blank
    count: int
    stem: str
    steel: str
    drawing: str | None = None  # of a part or a disc of the user's own
    turns: Turns = "any"


def job_blanks(job: Job, parts: Sequence[Part]) -> tuple[JobBlank, ...]:
    """The wheel's blanks, then the others."""
    own = job.disc.file if job.disc else None
    wheel = [
        JobBlank(
            part.blank,
            part.count_per_wheel * job.head.wheels,
            part.name,
            job.wheel.steel,
            own if part.blank.kind == DISC.name else None,
        )
        for part in parts
        if part.blank
    ]
    return (*wheel, *other_blanks(job))


def other_blanks(job: Job) -> tuple[JobBlank, ...]:
    """What is cut from plate besides the wheel: the extras, whose files begin with `extra-`, then
    the gauges. Raises: SpecError where a changed wheel can have no such gauge."""
    extras = [
        JobBlank(
            extra.blank,
            extra.spec.count,
            f"extra-{extra.blank.name}",
            extra.steel,
            extra.spec.file,
            extra.spec.turns,
        )
        for extra in job.extras
    ]
    steel = job.gauges.steel or job.wheel.steel
    gauges = [
        JobBlank(gauge.blank, job.gauges.number, gauge.blank.name, steel)
        for gauge in job.made_gauges
    ]
    return (*extras, *gauges)
