"""The record on the job sheet: a line a wheel, to be written on in the shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.papers.html.render import render
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Count, Length

if TYPE_CHECKING:
    from markupsafe import Markup

COLUMNS = (
    Column("wheel", "Wheel", Count),
    Column("axle", "Axle", Name),
    Column("wagon", "Wagon", Name),
    Column("ring", "Ring", Name),
    Column("tape", "Tape", Length),
    Column("run_out", "Run-out", Length),
    Column("vents", "Vents open", Name),
    Column("back_to_back", "Back to back", Length),
)
EMPTY = (
    "Stamp the numbers. When the rings are rolled, platewheel rings and platewheel refit say which "
    "ring goes to which wheel, axle and wagon; platewheel {command} --rings fills this record with "
    "it."
)
FILLED = (
    "Filled from the rings as measured and paired; the sizes of their discs and flanges are on the "
    "refit's own sheet. Stamp the numbers, write in the rest."
)
BY_HAND: Cells = {"run_out": None, "vents": None, "back_to_back": None}


def record_words(wheels: Sequence[WheelRecord], command: str = "build") -> str:
    """What to do with the record, which `command` wrote."""
    return FILLED if wheels else EMPTY.format(command=command)


def record_table(job: Job, wheels: Sequence[WheelRecord] = ()) -> Table:
    """Serial numbers by wheel, axle and wagon, rings and tapes of `wheels`; without those the
    numbers that a refit would give, what is over as spare, and the rest left empty."""
    return table(COLUMNS, _filled(wheels) if wheels else _numbered(job))


def record_form(job: Job, wheels: Sequence[WheelRecord] = ()) -> Markup:
    """The record as a section of the job sheet."""
    lines = record_table(job, wheels)
    return render("record.html", job.paper.units, words=record_words(wheels), lines=lines)


def _filled(wheels: Sequence[WheelRecord]) -> Iterator[Cells]:
    for wheel in wheels:
        yield {
            "wheel": Count(wheel.wheel),
            "axle": Name(wheel.axle or ""),
            "wagon": Name(wheel.wagon or "spare"),
            "ring": Name(wheel.ring),
            "tape": Length(wheel.outside_circumference_mm),
            **BY_HAND,
        }


def _numbered(job: Job) -> Iterator[Cells]:
    each, pairs = job.wagon.axles, job.head.wheels // 2
    for k in range(job.head.wheels):
        yield {
            "wheel": Count(k + 1),
            "axle": Name(f"A{k // 2 + 1}" if k // 2 < pairs else ""),
            "wagon": Name(f"W{k // 2 // each + 1}" if k // 2 < pairs // each * each else "spare"),
            "ring": None,
            "tape": None,
            **BY_HAND,
        }
