"""A script's own disc of very many corners is refused by name, before the modeller has it."""

from __future__ import annotations

import math

import pytest

import platewheel
from platewheel import Blank, JobFile, Line, polygon
from platewheel.parts.wheel.disc_lines import MOST_LINES, too_many_lines

TRY = "draw curves as Arc, not as many short lines"


@pytest.fixture(scope="module")
def job() -> JobFile:
    return platewheel.demo()


def slotted(job: JobFile, slots: int, corners: int) -> Blank:
    """The job's plain disc with slots of so many corners round the hub."""
    plain = platewheel.disc_blank(job.job.wheel)
    holes = tuple(slot(2 * math.pi * k / slots, corners) for k in range(slots))
    hub = plain.holes[-1]
    return Blank("mine", "disc", plain.thickness_mm, plain.outline, (hub, *holes))


def slot(turn: float, corners: int) -> tuple[Line, ...]:
    x, y = 80 * math.cos(turn), 80 * math.sin(turn)
    ways = (2 * math.pi * i / corners for i in range(corners))
    return polygon([(x + 6 * math.cos(way), y + 6 * math.sin(way)) for way in ways])


def test_lines_and_arcs_are_counted_a_circle_as_one(job: JobFile) -> None:
    most = slotted(job, 2, (MOST_LINES - 2) // 2)  # rim and hub are the two others
    assert [*too_many_lines(most)] == []
    (fault,) = too_many_lines(slotted(job, 2, MOST_LINES // 2))
    assert (fault.key, fault.value, fault.advice) == ("mine", MOST_LINES + 2, TRY)


def test_job_and_wheel_refuse_it(job: JobFile) -> None:
    disc = slotted(job, 2, MOST_LINES // 2)
    with pytest.raises(platewheel.SpecError, match=f"mine: found 4002; allowed: .*{TRY}"):
        job.with_disc(disc)
    for ask in (platewheel.wheel, platewheel.wheel_solids, platewheel.wheel_mass_kg):
        with pytest.raises(platewheel.SpecError, match="mine: found 4002"):
            ask(job.job.wheel, disc=disc)
    assert job.with_disc(slotted(job, 2, 40)).disc is not None
