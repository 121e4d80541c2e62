"""The last step: one wheel pressed as hard as it will ever be, and harder; then the first run."""

from __future__ import annotations

import math

from platewheel.parts.base.units import Units, length
from platewheel.parts.loads.wheel_load import flange_push_n, wheel_load_n
from platewheel.parts.making.lever import SHORT_MM, proof_lever
from platewheel.parts.making.lever import SOURCE as LEVER
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.step import Figure, Step, Work, used
from platewheel.parts.setting.setting import GRAVITY
from platewheel.parts.setting.wagon import WagonSpec

PROOF = 1.5  # over the load: static proof of hand-operated lifting machines, LEEA 052 (2015)
HOLD_MIN = 10.0  # as cranes are held, ISO 4310, from memory
LASTING_MM = 0.2  # of any reading; what a tape and a pointer tell for sure, common practice
PISTON_MM = 30.0  # of a small bottle jack; read yours off its plate
ONE_IN = 12  # wheels of a batch that are pressed; common practice, no source
SOURCE = "1.5 times the load: LEEA 052 (2015), hand-operated lifting machines"
FORM = (
    "tread diameter, over the place pressed",
    "tread diameter, square to it",
    "run-out of the tread, greatest less least",
    "run-out of the rim along the axle",
    "flange's tip from a straightedge over the rim, at the place pressed",
    "cracks in beads and at vents, by eye, brush and penetrant",
)


def prove(work: Work, units: Units) -> Step:
    """One wheel pressed along and across, measured before and after; then the first run."""
    wagon, setting = work.setting.wagon, work.setting
    figures = [figure("wheel load to be carried", wheel_load_n(setting), "N", "", "at a joint")]
    do: list[str] = []
    if work.rated_n is None:
        do.append("This wheel could not be rated: see the checks, and load none before they pass.")
    else:
        down, across = PROOF * work.rated_n, PROOF * _push_n(work)
        do += _pressing(down, across, units)
        figures += _forces(down, across)
        if not work.setting.shop.press_t:
            words, more = _levered(down, across, units)
            do.insert(-1, words)
            figures += more
    most_kg = _most_kg(work)
    do.append(_first_run(most_kg, wagon))
    if most_kg is not None:
        source = "this job" if most_kg == wagon.payload_kg else "load rating"
        figures.append(figure("most payload of a wagon", most_kg, "kg", "at most", source))
    cautions = [
        "No people ride on wagons with wheels that have not been proof-loaded; children never.",
        "A jack that slips shoots: nobody in line with it, the wheel chained, a plate between. "
        "What holds the jack down carries as much as it presses.",
        "Brakes or scotches wherever the track falls: wagons roll away on slopes that the eye "
        "does not see. Nobody stands below a wagon on a slope.",
        "These figures are an aid. Local codes, licensed welders and engineers, and the rules "
        "for railways on your land come first.",
    ]
    return Step(
        id="prove",
        title="Prove and run in",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        form=[] if work.rated_n is None else FORM,
        uses=used(work, "job-sheet.pdf"),
    )


def _most_kg(work: Work) -> float | None:
    """Payload of the first runs: the job's, or the less that the rating allows; None where the
    wheels may not even carry the empty wagon, or nobody knows."""
    asked, carries = work.setting.wagon.payload_kg, work.carries_kg
    if work.rated_n is None or (carries is not None and carries < 0):
        return None
    return asked if carries is None or carries >= asked else float(math.floor(carries))


def _first_run(most_kg: float | None, wagon: WagonSpec) -> str:
    if most_kg is None:
        return "No wagon runs on these wheels, not even empty: change them until the rating passes."
    less = (
        ""
        if most_kg == wagon.payload_kg
        else f", not the {wagon.payload_kg:g} kg of this job: these wheels are rated for no more"
    )
    return (
        f"First run without load, then half, then {most_kg:g} kg{less}, at walking pace; "
        f"never above {wagon.max_speed_km_h:.3g} km/h. Look at beads and treads after a day, a "
        "week, then each season."
    )


def _push_n(work: Work) -> float:
    """The push on the flange that goes with the rated load, N."""
    setting = work.setting
    return flange_push_n(setting) / wheel_load_n(setting) * (work.rated_n or 0.0)


def _pressing(down_n: float, across_n: float, units: Units) -> list[str]:
    lasting = length(LASTING_MM, units)
    lines = [
        f"Prove the first wheel, then one in {ONE_IN} and each one that was mended ({PRACTICE}). "
        "Read all lines of the form below before, under the load and after it.",
        f"Downwards: the tread on a piece of your rail, a bar through the hub, the jack on the "
        f"bar under a chained beam: {down_n:.0f} N, the weight of {down_n / GRAVITY:.0f} kg, for "
        f"{HOLD_MIN:g} minutes; at the ring's seam, over a vent and between two vents.",
    ]
    if across_n:
        lines.append(
            "Across: the wheel flat, gauge side down, its hub on a short pipe, the jack on the "
            f"flange's rail-side face at half its depth: {across_n:.0f} N, the weight of "
            f"{across_n / GRAVITY:.0f} kg, for {HOLD_MIN:g} minutes; at a flange seam and between."
        )
    lines.append(
        f"Good: no reading has changed by more than {lasting} when the load is off, and no bead "
        "shows a line. Else scrap that wheel, find why, and prove the next three."
    )
    return lines


def _forces(down_n: float, across_n: float) -> list[Figure]:
    found = [
        figure("press one wheel downwards with", down_n, "N", "no change", SOURCE),
        figure(f"on a jack with a piston of {PISTON_MM:g} mm", _bar(down_n), "bar"),
    ]
    if across_n:
        found += [
            figure("press its flange across with", across_n, "N", "no change", SOURCE),
            figure(f"on that piston of {PISTON_MM:g} mm", _bar(across_n), "bar"),
        ]
    return [
        *found,
        figure("hold each for", HOLD_MIN, "min", "at least", "ISO 4310, cranes, from memory"),
        figure("change that stays", LASTING_MM, "mm", "at most", PRACTICE),
    ]


def _levered(down_n: float, across_n: float, units: Units) -> tuple[str, list[Figure]]:
    """Both loads by weights, for who has no jack that tells its force."""
    figures = []
    words = []
    for name, force in (("downwards", down_n), ("across", across_n)):
        if not force:
            continue
        lever = proof_lever(force)
        words.append(f"{name} {lever.weight_kg:.0f} kg at {length(lever.long_mm, units, 0)}")
        figures += [
            figure(f"lever {name}: weight at its end", lever.weight_kg, "kg", "", LEVER),
            figure(f"lever {name}: hinge to weight", lever.long_mm),
            figure(f"lever {name}: section modulus", lever.section_mm3 / 1000, "cm3",
                   "at least", LEVER),
            figure(f"lever {name}: pull on its anchor", lever.anchor_n / 1000, "kN", "", LEVER),
        ]  # fmt: skip
    return (
        "No jack that tells its force: a lever, hinged at one end under an anchor in the ground "
        f"or a beam, pressing on the wheel {length(SHORT_MM, units)} from the hinge, weights hung "
        f"on its far end: {'; '.join(words)} from the hinge; half of the lever's own weight counts "
        "as hung there. Sacks of sand on the kitchen scales, set on one by one; a block a hand "
        "below the lever catches it.",
        figures,
    )


def _bar(force_n: float) -> float:
    """Pressure on the gauge of the jack: 1 bar is 0.1 N/mm2."""
    return force_n / (math.pi * PISTON_MM**2 / 4) * 10
