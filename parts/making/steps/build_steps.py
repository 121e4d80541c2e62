"""The steps to build a job's wheels, in order, with what the checks say where it bites."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.schema.report import CheckRow, NestingRow, RatingRow
from platewheel.cli.schema.shop import StepRow
from platewheel.parts.making.steps import axle as steps_axle
from platewheel.parts.making.steps import finish as steps_finish
from platewheel.parts.making.steps import form as steps_form
from platewheel.parts.making.steps import weld as steps_weld

TOLD_IN = {  # step -> checks that are told there unless they pass
    "deburr": ("seam-gap",),
    "roll": ("ring-curvature", "roll-diameter", "roll-thickness", "seam-peak"),
    "fit": ("fit-allowance", "fillet-gap"),
    "weld": ("torch-access", "weld-room", "root-room", "throat-least", "throat-most"),
    "root": ("root-groove",),
    "vents": ("vent-number", "vent-size", "vent-place", "sealed-hollow"),
    "coat": ("coating-life", "overlap"),
    "axle": ("wheel-held", "key-wall", "press-hub", "axle-fatigue", "axle-bending"),
    "gauge": ("play-least", "play-most", "tread-bearing"),
}


def build_steps(
    job: Job, nesting: NestingRow, checks: Sequence[CheckRow], rating: RatingRow | None
) -> list[StepRow]:
    """All steps of this wheel; those that it does not need are left out."""
    units = job.paper.units
    steps = [
        steps_form.cut(job, nesting, units),
        steps_form.deburr(job, units),
        steps_form.roll(job, units),
        steps_form.close(job, units),
        steps_form.measure(job, units),
        steps_weld.fit(job, units),
        steps_weld.true(job, units),
        steps_weld.tack(job, units),
        steps_weld.weld(job, units),
        steps_weld.dress(job, units),
        steps_finish.flange(job, units),
        steps_finish.root(job, units),
        steps_finish.vents(job, units),
        steps_finish.coat(job, units),
        steps_axle.axle(job, units),
        steps_finish.gauge(job, units),
        steps_finish.prove(job, rating, units),
    ]
    return [_with_checks(step, checks) for step in steps if step]


def _with_checks(step: StepRow, checks: Sequence[CheckRow]) -> StepRow:
    told = [
        f"{row.verdict.upper()}, {row.title.lower()}: {row.says}"
        for row in checks
        if row.id in TOLD_IN.get(step.id, ()) and row.verdict != "pass"
    ]
    return step.model_copy(update={"cautions": [*told, *step.cautions]}) if told else step
