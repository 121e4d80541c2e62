"""Parts of a script beside all else of its job: proved as the drawings of a job file are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from platewheel.cli.job.job import RESERVED, Job, cut_thicknesses_mm, drawn_copies
from platewheel.cli.job.own_parts import MOST_PARTS, unfollowed
from platewheel.cli.script.own_part import name_faults
from platewheel.nesting.cutting.cut_speed import speed_faults
from platewheel.nesting.drawings.all_lines import copies_of, copies_of_disc, too_many_lines
from platewheel.nesting.drawings.extra import ExtraPart, beside_kerf
from platewheel.nesting.drawings.read import Outline
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.faults import Fault, SpecError


def with_own_parts(job: Job, parts: Sequence[ExtraPart]) -> Job:
    """The job with a script's parts cut along, of the wheel's steel, as the kerf can follow them.

    Raises: SpecError with every name that is taken, place that is finer than the kerf, thickness
    without a cutting speed; for too many parts, or lines of them and of a script's disc.
    """
    faults = [*_name_faults(job, parts)]
    fitted = [fit_to_kerf(part, job.cutting) for part in parts]
    faults += [fault for _, wrong in fitted for fault in wrong]
    steel = job.wheel.steel
    cut = tuple(replace(part, steel=steel) for part, _ in fitted)
    whole = replace(job, extras=(*job.extras, *cut))
    faults += speed_faults(job.cutting, job.cut_speeds, cut_thicknesses_mm(whole))
    copies = [*drawn_copies(job)]
    copies += (replace(copies_of(one, 0), key=f"{one.blank.name}.count") for one in cut)
    if job.own_disc and not job.drawn_disc:
        of_disc = copies_of_disc("a Blank", job.own_disc, steel, job.head.wheels)
        copies.append(replace(of_disc, key="disc"))
    faults += too_many_lines(copies, job.stock, job.offcuts)
    if faults:
        raise SpecError(faults)
    return whole


@lru_cache(maxsize=MOST_PARTS)  # asked of all parts with each that is added
def fit_to_kerf(part: ExtraPart, cutting: Cutting) -> tuple[ExtraPart, tuple[Fault, ...]]:
    """The part as the kerf can follow it, what of it is too fine in its notes, and its faults."""
    blank = part.blank
    drawn, faults, _ = beside_kerf(
        part.spec, Outline(blank.outline, blank.holes, blank.marks, ()), cutting, 0
    )
    if cutting.kerf_in_path and not faults:
        faults = [*unfollowed(part.spec, drawn, cutting)]
    told = (
        Fault("blank", blank.name, one.allowed, one.advice.replace(" = true", "=True"))
        for one in faults
    )
    own = replace(blank, outline=drawn.outline, holes=drawn.holes) if drawn.notes else blank
    return replace(part, blank=own, notes=drawn.notes), tuple(told)


def _name_faults(job: Job, parts: Sequence[ExtraPart]) -> Iterator[Fault]:
    many = len(job.extras) + len(parts)
    if many > MOST_PARTS:
        allowed = f"at most {MOST_PARTS} parts of your own in one job"
        yield Fault("parts", many, allowed, "share them out over several jobs")
    taken = taken_names(job)
    for part in parts:
        yield from name_faults(part.blank.name, taken)
        taken.append(part.blank.name)


def taken_names(job: Job) -> list[str]:
    """Names that a script's parts may not have."""
    return [*RESERVED, *(one.blank.name for one in job.extras)]
