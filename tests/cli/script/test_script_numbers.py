"""Numbers of numpy and points that are lists are taken wherever a script gives some."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import numpy as np
import pytest

import platewheel
from platewheel import Blank, Circle, SpecError, WheelSpec, polygon
from platewheel.cli.script.asked import PlanAsked

EDGE = Circle((0.0, 0.0), 40.0)


@pytest.mark.parametrize("six", [np.int64(6), np.float32(6.0), Fraction(6)])
def test_a_thickness_is_a_number_of_python(six: Any) -> None:
    made = Blank("lid", "extra", six, EDGE)
    assert made == Blank("lid", "extra", 6.0, EDGE)
    assert type(made.thickness_mm) in (int, float)


@pytest.mark.parametrize("odd", [np.bool_(True), np.nan, np.array([6.0]), np.int64(-6)])
def test_what_is_no_thickness_stays_none(odd: Any) -> None:
    with pytest.raises(SpecError, match="thickness_mm"):
        Blank("lid", "extra", odd, EDGE)


def test_counts_seeds_and_keys_of_a_wheel_may_be_of_numpy() -> None:
    job = platewheel.demo()
    (part,) = job.with_part(Blank("lid", "extra", 6.0, EDGE), np.int64(3)).parts  # type: ignore[arg-type]
    assert part.spec.count == 3
    assert PlanAsked(seed=np.int64(2)).seed == 2
    keys = job.job.wheel.model_dump(exclude_unset=True)
    size = np.int64(keys["tread_diameter_mm"])
    assert WheelSpec(**keys | {"tread_diameter_mm": size}) == job.job.wheel
    with pytest.raises(SpecError, match=r"count: found .*3\.5"):
        job.with_part(Blank("lid", "extra", 6.0, EDGE), np.float64(3.5))  # type: ignore[arg-type]


RUN = [[0, 0], [30, 0], [0, 40]]


@pytest.mark.parametrize("points", [RUN, np.array(RUN), np.array(RUN, dtype=float)])
def test_points_may_be_lists_or_rows(points: Any) -> None:
    made = polygon(points)
    assert made == polygon([(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)])
    assert Blank("rib", "extra", 6.0, made).area_mm2 == 600.0


@pytest.mark.parametrize(
    "points", [["ab", "cd", "ef"], [[0, 0, 0]] * 3, [[0, None], [1, 1], [2, 0]]]
)
def test_what_is_no_point_is_refused_by_its_place(points: Any) -> None:
    with pytest.raises(SpecError, match=r"rib.outline\[0\].start"):
        Blank("rib", "extra", 6.0, polygon(points))
