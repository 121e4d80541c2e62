"""Values that are allowed and yet odd: asked about, never refused."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from platewheel.cli.job.job import Job
from platewheel.cli.job.usual import odd_units
from platewheel.cli.schema.job_sections import KINDS, REPEATED, SINGLE
from platewheel.parts.base.meant import across, alike
from platewheel.parts.base.so_many import so_many
from platewheel.parts.wheel.spec import WheelSpec


def questions(job: Job) -> list[str]:
    """A line for each value that was hardly meant so, with what may have been meant."""
    found = [*_other_units(job), *_odd_wheels(job), *_circumferences(job)]
    lines = [
        f"{job.places.words(key)}{key}: found {value:g}; did you mean {asked}"
        for key, value, asked in found
    ]
    if job.drawing_layers and not job.has_drawings:  # rows may stay while their drawing is out
        lines.append(
            f"{job.places.words('drawing_layer[0]')}drawing_layer: nothing is made of it; did you "
            "mean to have an [[extra]] or a [disc], whose drawing has the layer?"
        )
    return lines


Asked = tuple[str, float, str]  # key, value, what is asked


def _other_units(job: Job) -> Iterator[Asked]:
    table: dict[str, Any] = {name: job.rows(name) for name in REPEATED}
    single = {name: getattr(job, name) for name in SINGLE if name != "job"}
    table |= {name: [section] for name, section in single.items() if section is not None}
    plain = {name: [row.model_dump() for row in rows] for name, rows in table.items()}
    for one in odd_units(plain, KINDS, REPEATED):
        yield one.key, one.value, one.near + "?"


def _odd_wheels(job: Job) -> Iterator[Asked]:
    wheels, each = job.head.wheels, 2 * job.wagon.axles
    if wheels % 2 and wheels > 1:  # whole axles may be spares, one wheel a trial
        below, above = wheels // each * each, (wheels // each + 1) * each
        some = f"{below} or {above}" if below else f"{above}"
        axles = so_many(job.wagon.axles, "axle")
        yield "job.wheels", wheels, f"{some}? A wagon of {axles} has {each}"


def _circumferences(job: Job) -> Iterator[Asked]:
    """Diameters that are pi times what goes with the rest."""
    wheel = job.wheel
    size = wheel.tread_diameter_mm
    if _taped(wheel, job):
        yield (
            "wheel.tread_diameter_mm",
            size,
            f"{across(size):.1f}? {size:g} would suit the rest as a circumference",
        )
    pairs = [(f"pipe[{i}].outside_mm", pipe.outside_mm, size) for i, pipe in enumerate(job.pipes)]
    pairs += [
        (f"round[{i}].diameter_mm", one.diameter_mm, wheel.hub_bore_mm)
        for i, one in enumerate(job.rounds)
    ]
    for key, value, wanted in pairs:
        if alike(across(value), wanted):
            yield key, value, f"{across(value):.1f}? {value:g} is its circumference"


def _taped(wheel: WheelSpec, job: Job) -> bool:
    size = wheel.tread_diameter_mm
    if any(alike(pipe.outside_mm, size) for pipe in job.pipes):
        return False
    if any(alike(pipe.outside_mm, across(size)) for pipe in job.pipes):
        return True
    if wheel.vent_count and wheel.vent_circle_mm:  # vents lie near the rim
        vents = wheel.vent_circle_mm
        return vents < 0.36 * size and 0.6 < vents / across(size) < 0.97
    gauge = job.track.gauge_mm
    return size > 1.3 * gauge and 0.4 < across(size) / gauge < 0.9
