"""What a wheel is made of and no stock of the job has, told before anything is laid."""

from __future__ import annotations

from collections.abc import Iterable

from platewheel.cli.job.job import Job
from platewheel.parts.wheel.kinds import kinds_of


def without_stock(job: Job) -> list[str]:
    """A line for each plate, bar or pipe that the job has none of, however large."""
    wheel = job.wheel
    plates = {(row.thickness_mm, row.steel) for row in job.stock}
    plates |= {(row.thickness_mm, row.steel) for row in job.offcuts}
    wanted = [
        (kind.thickness_key, kind.thickness_mm(wheel))
        for kind in kinds_of(wheel)
        if kind.cut_from(wheel) == "sheet"
    ]
    to_hand = sorted({mm for mm, steel in plates if steel == wheel.steel})
    plates_here = _listed(f"{mm:g} mm" for mm in to_hand)
    lines = [
        f"{_key(job, key)}: found {mm:g}; [[stock]] and [[offcut]] of {wheel.steel} to hand: "
        f"{plates_here}; add one for a build"
        for key, mm in wanted
        if (mm, wheel.steel) not in plates
    ]
    wall = wheel.tread_thickness_mm
    if wheel.tread_from == "bar":
        first, rows = wheel.tread_width_mm, [(b.width_mm, b.thickness_mm) for b in job.bars]
    elif wheel.tread_from == "pipe":
        first, rows = wheel.tread_diameter_mm, [(p.outside_mm, p.wall_mm) for p in job.pipes]
    else:
        return lines
    if (first, wall) not in rows:
        here = _listed(f"{a:g} x {b:g} mm" for a, b in dict.fromkeys(rows))
        kind = wheel.tread_from
        lines.append(
            f"{_key(job, 'tread_from')}: found {kind} of {first:g} x {wall:g}; "
            f"[[{kind}]] to hand: {here}; add one for a build"
        )
    return lines


def _key(job: Job, key: str) -> str:
    return f"{job.places.words(f'wheel.{key}')}wheel.{key}"


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words) or "none"
