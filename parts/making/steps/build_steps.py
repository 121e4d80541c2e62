"""The steps to build a job's wheels, in order, with what the checks say where it bites."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from platewheel.parts.base.units import Units
from platewheel.parts.making.steps import axle, finish, form, inside, prove, weld, wheelset_gauge
from platewheel.parts.making.steps.step import Judged, Step, Work

TOLD_IN = {  # step -> checks that are told there unless they pass
    "deburr": ("seam-gap",),
    "roll": ("ring-curvature", "roll-diameter", "roll-thickness", "seam-peak"),
    "fit": ("fit-allowance", "fillet-gap"),
    "inside": ("inside-access",),
    "weld": ("torch-access", "weld-room", "root-room", "throat-least", "throat-most"),
    "root": ("root-groove",),
    "vents": ("vent-number", "vent-size", "vent-place", "sealed-hollow"),
    "coat": ("coating-life", "overlap"),
    "axle": ("wheel-held", "key-wall", "press-hub", "axle-fatigue", "axle-bending"),
    "gauge": ("play-least", "play-most", "tread-bearing"),
}


def build_steps(work: Work, checks: Sequence[Judged], units: Units) -> list[Step]:
    """All steps of this wheel; those that it does not need are left out. Lengths in `units`."""
    steps = [
        form.cut(work, units),
        form.deburr(work, units),
        form.roll(work, units),
        form.close(work, units),
        form.measure(work, units),
        inside.inside(work, units),
        weld.fit(work, units),
        weld.true(work, units),
        weld.tack(work, units),
        weld.weld(work, units),
        weld.dress(work, units),
        finish.flange(work, units),
        finish.root(work, units),
        finish.vents(work, units),
        finish.coat(work, units),
        axle.axle(work, units),
        wheelset_gauge.gauge(work, units),
        prove.prove(work, units),
    ]
    return [_with_checks(step, checks) for step in steps if step]


def _with_checks(step: Step, checks: Sequence[Judged]) -> Step:
    told = [
        f"{row.verdict.upper()}, {row.title.lower()}: {row.says}"
        for row in checks
        if row.id in TOLD_IN.get(step.id, ()) and row.verdict != "pass"
    ]
    return replace(step, cautions=[*told, *step.cautions]) if told else step
