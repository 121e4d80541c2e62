"""What is not of the kind that a function takes is refused by name."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

import platewheel

LID = platewheel.Circle((0.0, 0.0), 40.0)
OF_A_WHEEL = [
    name
    for name, home in platewheel._HOMES.items()
    if home.startswith("parts.wheel.") and name not in ("WheelSpec", "hub_disc")
]


@pytest.fixture(scope="module")
def job() -> platewheel.JobFile:
    return platewheel.demo()


def refused(ask: Callable[..., Any], *given: Any) -> str:
    with pytest.raises(platewheel.SpecError) as told:
        ask(*given)
    return str(told.value)


@pytest.mark.parametrize("odd", [None, 5, b"x", 1.5, True, [], {}, object()])
def test_a_path_is_text_or_a_path(odd: Any, job: platewheel.JobFile) -> None:
    assert refused(platewheel.load, odd).startswith("path: found")
    assert refused(job.build, odd).startswith("folder: found")


@pytest.mark.parametrize("odd", [None, "my-wheels.toml", {}, 5])
def test_wheels_are_proposed_for_a_job_that_is_loaded(odd: Any) -> None:
    told = refused(platewheel.propose, odd)
    assert told.startswith("given: found")
    assert "load it first" in told


@pytest.mark.parametrize("name", OF_A_WHEEL)
def test_functions_of_a_wheel_take_its_spec(name: str, job: platewheel.JobFile) -> None:
    ask = getattr(platewheel, name)
    for odd in (None, {}, {"tread_diameter_mm": 300.0}, job, "x"):
        assert refused(ask, odd).startswith("spec: found")
    assert "job.job.wheel" in refused(ask, job)


def test_so_does_the_disc_of_a_side(job: platewheel.JobFile) -> None:
    assert refused(platewheel.hub_disc, job, "field").startswith("spec: found")


@pytest.mark.parametrize("odd", [None, 5, 1.5, True, object()])
def test_holes_and_marks_are_tuples(odd: Any) -> None:
    assert refused(platewheel.Blank, "lid", "extra", 6.0, LID, odd).startswith("lid.holes: found")
    told = refused(platewheel.Blank, "lid", "extra", 6.0, LID, (), odd)
    assert told.startswith("lid.marks: found")


@pytest.mark.parametrize("odd", [None, 5, [], {}])
def test_a_kind_is_text(odd: Any) -> None:
    assert refused(platewheel.Blank, "lid", odd, 6.0, LID).startswith("lid.kind: found")


@pytest.mark.parametrize("odd", [None, 5, [], (), {}, "", 1.5])
def test_a_polygon_goes_through_points(odd: Any) -> None:
    assert refused(platewheel.polygon, odd).startswith("points: found")
