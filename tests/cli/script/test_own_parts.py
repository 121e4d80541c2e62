"""Parts of a script are held to what drawings of a job file are held to, whatever is changed."""

from __future__ import annotations

import cmath
import math
from dataclasses import replace

import pytest

import platewheel
from platewheel import Blank, Circle, JobFile, SpecError, polygon
from platewheel.cli.job.own_parts import MOST_PARTS
from platewheel.parts.geometry.outline import Loop, Point

LID = Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0))


def slit(wide_mm: float) -> Blank:
    """A plate of 100 x 60 with a slit from its upper edge."""
    left, right = 50 - wide_mm / 2, 50 + wide_mm / 2
    run: list[Point] = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (right, 60.0), (right, 10.0)]
    return Blank("slit", "extra", 6.0, polygon([*run, (left, 10.0), (left, 60.0), (0.0, 60.0)]))


@pytest.fixture(scope="module")
def job() -> JobFile:
    return platewheel.demo()


def refused(error: pytest.ExceptionInfo[SpecError]) -> list[tuple[str, object]]:
    return [(fault.key, fault.value) for fault in error.value.faults]


@pytest.mark.parametrize("name", ["Lid", "LID", "DISC"])
def test_names_differ_by_more_than_capitals(job: JobFile, name: str) -> None:
    with pytest.raises(SpecError) as told:
        job.with_part(LID, 1).with_part(Blank(name, "extra", 6.0, Circle((0.0, 0.0), 9.0)), 1)
    assert refused(told) == [("name", name)]


@pytest.mark.parametrize("in_path", [False, True])
def test_a_slit_finer_than_the_kerf_is_refused_or_filled_and_told(
    job: JobFile, in_path: bool
) -> None:
    """It was laid as drawn; with the kerf in the path no plan could be made of it, later."""
    cut = job.changed(kerf_in_path=in_path, kerf_mm=1.7)
    assert cut.with_part(slit(2.0), 1).parts[0].notes == ()
    with pytest.raises(SpecError, match=r"slit has a hollow 0\.40 mm wide .*finer_than_kerf=True"):
        cut.with_part(slit(0.4), 1)
    filled = cut.with_part(slit(0.4), 1, finer_than_kerf=True)
    (part,) = filled._whole.extras
    assert part.blank.area_mm2 == pytest.approx(100 * 60, abs=1)  # steel where the slit was
    assert "a hollow 0.40 mm wide" in part.warnings[0]
    assert filled.parts[0].blank == slit(0.4)  # as given, for another kerf
    assert filled.changed(kerf_mm=0.2)._whole.extras[0].blank == slit(0.4)


def test_other_values_are_held_against_the_parts(job: JobFile) -> None:
    with pytest.raises(SpecError) as told:
        job.with_part(slit(1.9), 1).changed(kerf_mm=2.5)
    assert refused(told) == [("blank", "slit")]
    other = job.with_part(LID, 1).changed({"wheel.steel": "S355"})
    assert [one.steel for one in other._whole.extras] == ["S355"]


def test_a_disc_finer_than_the_kerf_is_refused(job: JobFile) -> None:
    plain = platewheel.disc_blank(job.job.wheel)
    fine: Loop = polygon([(80.0, 0.0), (81.0, 0.0), (81.0, 20.0), (80.0, 20.0)])
    disc = Blank("mine", "disc", plain.thickness_mm, plain.outline, (plain.holes[-1], fine))
    with pytest.raises(
        SpecError, match=r"narrower than the kerf of 1\.7 mm; .*a hole 1\.00"
    ) as told:
        job.with_disc(disc)
    assert not told.value.faults[0].advice.count("finer_than_kerf")


def test_very_many_parts_and_lines_are_refused(job: JobFile) -> None:
    rows = job.with_part(LID, 1).parts * (MOST_PARTS + 1)
    with pytest.raises(SpecError, match=f"parts: found {MOST_PARTS + 1}"):
        replace(job, parts=rows)
    run = [cmath.rect(200.0, 2 * math.pi * i / 15_000) for i in range(15_000)]
    fine = Blank("fine", "extra", 6.0, polygon([(at.real, at.imag) for at in run]))
    with pytest.raises(SpecError, match=r"fine\.count: found 5000; allowed: at most 1000000 lines"):
        job.with_part(fine, 5000)


def test_a_thickness_without_cutting_speed_is_refused_as_a_drawing_s(job: JobFile) -> None:
    speeds = [
        {"process": "plasma", "thickness_mm": mm, "speed_mm_per_min": 2000.0, "pierce_s": 1.0}
        for mm in (6.0, 8.0)
    ]
    alone = {"cutting.cut_speed_mm_per_min": None, "cutting.pierce_s": None}
    told = job.changed(alone, cut_speed=speeds)
    with pytest.raises(SpecError) as caught:
        told.with_part(Blank("thick", "extra", 25.0, LID.outline), 1)
    assert "25" in str(caught.value)
