"""The record on the job sheet: a line a wheel, to be written on in the shop."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.papers.sheet.shop import stacked
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.words.inches import in_inches

HEADS = ("Wheel", "Axle", "Wagon", "Ring", "Tape", "Run-out", "Vents open", "Back to back")
EMPTY = (
    "Stamp the numbers. When the rings are rolled, platewheel rings and platewheel refit say which "
    "ring goes to which wheel, axle and wagon; platewheel build --rings fills this record with it."
)
FILLED = (
    "Filled from the rings as measured and paired; the sizes of their discs and flanges are on the "
    "refit's own sheet. Stamp the numbers, write in the rest."
)


def record_form(job: Job, wheels: Sequence[WheelRecord] = ()) -> str:
    """Serial numbers by wheel, axle and wagon, rings and tapes of `wheels`; without those the
    numbers that a refit would give, what is over as spare, and the rest left empty."""
    words, rows = (FILLED, _filled(job, wheels)) if wheels else (EMPTY, _numbered(job))
    return f"<h2>Record</h2><p>{words}</p><div class=wide>{stacked(HEADS, rows)}</div>"


def _filled(job: Job, wheels: Sequence[WheelRecord]) -> list[list[str]]:
    rows = []
    for wheel in wheels:
        tape = f"{wheel.outside_circumference_mm:.1f} mm"
        if job.paper.units == "inch":
            tape = in_inches(tape)
        place = [wheel.axle or "", wheel.wagon or "spare"]
        rows.append([str(wheel.wheel), *place, wheel.ring, tape, *[""] * (len(HEADS) - 5)])
    return rows


def _numbered(job: Job) -> list[list[str]]:
    each, pairs = job.wagon.axles, job.head.wheels // 2
    rows = []
    for k in range(job.head.wheels):
        axle = f"A{k // 2 + 1}" if k // 2 < pairs else ""
        wagon = f"W{k // 2 // each + 1}" if k // 2 < pairs // each * each else "spare"
        rows.append([str(k + 1), axle, wagon, *[""] * (len(HEADS) - 3)])
    return rows
