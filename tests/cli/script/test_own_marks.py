"""Marks of a script's own blanks are proved before they come onto steel."""

from __future__ import annotations

import math
from typing import Any

import pytest

import platewheel
from platewheel import Arc, Blank, Circle, Line
from platewheel.parts.geometry.blank import MarkPoint, MarkText

EDGE = Circle((0.0, 0.0), 40.0)
AT = (0.0, 0.0)
SOUND = (MarkPoint(AT), MarkText(AT, "lid", 5.0), Line(AT, (9.0, 0.0)), Arc(AT, 9.0, 0.0, 360.0))
ODD: list[tuple[Any, str]] = [
    (5, ""),
    (None, ""),
    (EDGE, ""),
    (MarkPoint((math.nan, 0.0)), ".at"),
    (MarkPoint(None), ".at"),  # type: ignore[arg-type]
    (MarkText((math.inf, 0.0), "lid", 5.0), ".at"),
    (MarkText(AT, None, 5.0), ".text"),  # type: ignore[arg-type]
    (MarkText(AT, " ", 5.0), ".text"),
    (MarkText(AT, "lid", math.nan), ".height_mm"),
    (MarkText(AT, "lid", -5.0), ".height_mm"),
    (MarkText(AT, "lid", 0.0), ".height_mm"),
    (MarkText(AT, "lid", 5.0, math.nan), ".turn_deg"),
    (Line(AT, (math.nan, 1.0)), ".end"),
    (Line((1.0, 1.0), (1.0, 1.0)), ""),
    (Arc(AT, -10.0, 0.0, 90.0), ".radius_mm"),
    (Arc(AT, 10.0, math.inf, 90.0), ".start_deg"),
    (Arc(AT, 10.0, 0.0, 0.0), ""),
    (Arc(AT, 10.0, 0.0, 361.0), ".sweep_deg"),
]


@pytest.fixture(scope="module")
def job() -> platewheel.JobFile:
    return platewheel.demo()


@pytest.mark.parametrize(("mark", "key"), ODD)
def test_a_mark_that_cannot_be_made_is_named(mark: Any, key: str, job: platewheel.JobFile) -> None:
    with pytest.raises(platewheel.SpecError) as told:
        job.with_part(Blank("lid", "extra", 6.0, EDGE, (), (*SOUND, mark)), 1)
    assert [fault.key for fault in told.value.faults] == [f"lid.marks[4]{key}"]


def test_every_one_is_told_at_once(job: platewheel.JobFile) -> None:
    lid = Blank("lid", "extra", 6.0, EDGE, (), tuple(mark for mark, _ in ODD))
    with pytest.raises(platewheel.SpecError) as told:
        job.with_part(lid, 0)
    keys = [fault.key for fault in told.value.faults]
    assert keys[:-1] == [f"lid.marks[{i}]{key}" for i, (_, key) in enumerate(ODD)]
    assert keys[-1] == "count"


def test_sound_marks_stay(job: platewheel.JobFile) -> None:
    lid = Blank("lid", "extra", 6.0, EDGE, (), SOUND)
    assert job.with_part(lid, 1).parts[-1].blank.marks == SOUND


def test_so_are_those_of_a_disc(job: platewheel.JobFile) -> None:
    plain = platewheel.disc_blank(job.job.wheel)
    mine = Blank("mine", "disc", plain.thickness_mm, plain.outline, plain.holes[-1:], (5,))  # type: ignore[arg-type]
    with pytest.raises(platewheel.SpecError, match=r"mine\.marks\[0\]: found 5; allowed: a Mark"):
        job.with_disc(mine)


OFF = [
    MarkPoint((500.0, 0.0)),
    MarkText((0.0, -41.0), "lid", 5.0),
    Line(AT, (0.0, 900.0)),
    Arc((30.0, 0.0), 20.0, 0.0, 360.0),
]


@pytest.mark.parametrize("mark", OFF)
def test_a_mark_beside_the_part_is_refused(job: platewheel.JobFile, mark: Any) -> None:
    """Cutting files leave it out, and a script would not be told."""
    with pytest.raises(platewheel.SpecError, match=r"lid\.marks\[1\]: found .*a mark on the part"):
        job.with_part(Blank("lid", "extra", 6.0, EDGE, marks=(MarkPoint(AT), mark)), 1)
    edge = Line((-40.0, 0.0), (40.0, 0.0))
    assert job.with_part(Blank("lid", "extra", 6.0, EDGE, marks=(edge,)), 1).parts
