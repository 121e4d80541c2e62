"""The record on the job sheet: a line a wheel, to be written on in the shop."""

from __future__ import annotations

from cli.job import Job
from cli.job_sheet_shop import stacked

HEADS = ("Wheel", "Axle", "Wagon", "Ring", "Tape, mm", "Run-out", "Vents open", "Back to back")
WORDS = (
    "Stamp the numbers. When the rings are rolled, platewheel rings and platewheel refit say which "
    "ring goes to which wheel, axle and wagon; the refit's record.csv and sheet then have it all."
)


def record_form(job: Job) -> str:
    """Serial numbers by wheel, axle and wagon as a refit gives them, what is over as spare; the
    rest is left empty."""
    each, pairs = job.wagon.axles, job.head.wheels // 2
    rows = []
    for k in range(job.head.wheels):
        axle = f"A{k // 2 + 1}" if k // 2 < pairs else ""
        wagon = f"W{k // 2 // each + 1}" if k // 2 < pairs // each * each else "spare"
        rows.append([str(k + 1), axle, wagon, *[""] * (len(HEADS) - 3)])
    return f"<h2>Record</h2><p>{WORDS}</p><div class=wide>{stacked(HEADS, rows)}</div>"
