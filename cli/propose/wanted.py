"""How far and how hard is searched, and for what: choices and checks of a job."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.cli.job.job import Job
from platewheel.parts.checks.axle_screening import CHECKS as AXLE_CHECKS
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.propose.choices import Choices, shop_choices
from platewheel.parts.propose.play import play_choices
from platewheel.parts.propose.screening import Check


@dataclass(frozen=True)
class Wanted:
    """How far and how hard is searched; counted work, never seconds."""

    least_diameter_mm: float
    most_diameter_mm: float
    step_mm: float = 20.0
    proposals: int = 4
    analyses: int = 72
    workers: int = 2
    reserve: float = 0.1  # of the rating over the load, for what drawings do not know


def job_choices(job: Job, wanted: Wanted) -> Choices:
    """What the job's stock and shop offer."""
    steel = job.wheel.steel
    rows = [(row.thickness_mm, row.steel) for row in job.stock]
    rows += [(row.thickness_mm, row.steel) for row in job.offcuts]
    return shop_choices(
        job.wheel,
        sheets_mm=tuple(sorted({mm for mm, grade in rows if grade == steel})),
        bars_mm=tuple((bar.width_mm, bar.thickness_mm) for bar in job.bars),
        pipes_mm=tuple((pipe.outside_mm, pipe.wall_mm) for pipe in job.pipes),
        roll_most_mm=job.shop.roll_most_thickness_mm,
        least_diameter_mm=wanted.least_diameter_mm,
        most_diameter_mm=wanted.most_diameter_mm,
        step_mm=wanted.step_mm,
        plays_mm=play_choices(job.setting) if job.has_axle else (None,),
    )


def asked_checks(job: Job) -> tuple[Check, ...]:
    """Every check of the wheel, and of the wheelset where the job has one."""
    return (*CHECKS, *AXLE_CHECKS) if job.has_axle else CHECKS
