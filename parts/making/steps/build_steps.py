"""The steps to build a job's wheels, in order, with what the checks say where it bites."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.making.steps import (
    axle,
    bore,
    finish,
    flange,
    hub,
    inside,
    mark_out,
    plate,
    prove,
    ring,
    strip,
    weld,
    wheelset,
    wheelset_gauge,
)
from platewheel.parts.making.steps.step import Judged, Step, Work

TOLD_IN = {  # step -> checks that are told there unless they pass
    "buy": ("axle-in-shop", "retention-in-shop"),
    "deburr": ("seam-gap",),
    "roll": ("ring-curvature", "roll-diameter", "roll-thickness", "seam-peak"),
    "close": ("weld-current",),
    "cut": ("fit-allowance", "hole-by-process"),
    "fit": ("fillet-gap",),
    "inside": ("inside-access",),
    "weld": ("torch-access", "weld-room", "throat-least", "throat-most"),
    "root": ("root-groove", "root-room"),
    "vents": ("vent-number", "vent-size", "vent-place", "sealed-hollow"),
    "coat": ("coating-life", "overlap"),
    "axle": ("axle-fatigue", "axle-bending", "axle-in-shop"),
    "holes": ("key-wall", "retention-in-shop"),
    "wheelset": ("wheel-held", "press-hub", "retention-in-shop"),
    "gauge": ("play-least", "play-most", "tread-bearing"),
}


def build_steps(work: Work, checks: Sequence[Judged], units: Units) -> list[Step]:
    """All steps of this wheel in the order of the work; those that it does not need are left out.
    Lengths in `units`.

    No disc is cut before its ring is measured; every hole, keyway and thread comes before the
    coat, and so does the weld of a wheel to its axle.
    """
    body = [
        plate.buy(work, units),
        strip.strip(work, units),
        plate.deburr(work, units),
        ring.roll(work, units),
        ring.close(work, units),
        ring.measure(work, units),
        mark_out.mark_out(work, units),
        plate.cut(work, units),
        plate.clean(work, units),
        hub.hub(work, units),
        inside.inside(work, units),
        weld.fit(work, units),
        weld.true(work, units),
        weld.tack(work, units),
        weld.weld(work, units),
        weld.dress(work, units),
        flange.flange(work, units),
        finish.root(work, units),
        finish.vents(work, units),
        axle.axle(work, units),
        bore.holes(work, units),
    ]
    coat, clear = finish.coat(work, units), bore.bore(work, units)
    set_on = [wheelset.wheelset(work, units), wheelset_gauge.gauge(work, units)]
    if wheelset.welded_on(work):
        after = [clear, *set_on, coat, wheelset.bearings(work, units)]
    else:
        after = [coat, clear, *set_on]
    last = prove.prove(work, units)
    fails = [row.title.lower() for row in checks if row.verdict == "fail"]
    if fails:
        many = so_many(len(fails), "check fails", "checks fail")
        told = f"{many}: {'; '.join(fails)}. No wagon runs before that is mended."
        last = replace(last, cautions=[told, *last.cautions])
    return [_with_checks(step, checks) for step in [*body, *after, last] if step]


def _with_checks(step: Step, checks: Sequence[Judged]) -> Step:
    """The step with what its checks say; one sentence of many checks stands once."""
    named: dict[tuple[str, str], list[str]] = {}
    for row in checks:
        if row.id in TOLD_IN.get(step.id, ()) and row.verdict != "pass":
            word = row.verdict.replace("-", " ").upper()
            named.setdefault((word, row.says), []).append(row.title.lower())
    told = [f"{word}, {'; '.join(titles)}: {says}" for (word, says), titles in named.items()]
    return replace(step, cautions=[*told, *step.cautions]) if told else step
