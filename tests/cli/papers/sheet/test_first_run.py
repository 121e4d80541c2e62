"""The last step: what a wheel is pressed with, and how much a wagon then carries."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.parts.loads.wheel_load import flange_push_n, wheel_load_n
from platewheel.parts.making.steps.prove import prove
from platewheel.parts.making.steps.step import Work
from tests.cli.shop import steps as steps_of


def test_a_rated_wheel_is_pressed_both_ways() -> None:
    """1.5 times rating and the push in proportion, by hand; a piston of 30 mm has 706.9 mm2."""
    job = steps_of().job
    setting = job.setting
    work = Work(
        setting=setting, costs=job.costs, wheels=2, cut_length_mm=0, drilled=(), rated_n=4000.0
    )
    step = prove(work, "mm")
    figures = {row.name: row.value for row in step.figures}
    assert figures["press one wheel downwards with"] == 6000
    across = 6000 * flange_push_n(setting) / wheel_load_n(setting)
    assert figures["press its flange across with"] == pytest.approx(across)
    assert figures["on a jack with a piston of 30 mm"] == pytest.approx(60000 / 706.858, rel=1e-4)
    assert figures["on that piston of 30 mm"] == pytest.approx(across / 70.6858, rel=1e-4)
    assert any("the weight of 612 kg" in line for line in step.do)
    assert any(f"the weight of {across / 9.81:.0f} kg" in line for line in step.do)
    assert len(step.form) == 6
    assert len(step.cautions) == 4


def test_a_wheel_that_is_not_rated_is_not_pressed() -> None:
    step = steps_of().step("prove")
    assert "load none" in step.do[0]
    assert "not even empty" in step.do[-1]
    assert not any("payload" in row.name for row in step.figures)
    assert step.form == []


@pytest.mark.parametrize(
    ("carries", "told", "never"),
    [
        (90.0, "then half, then 60 kg, at", "not the"),  # the job's own 60 kg
        (41.7, "then 41 kg, not the 60 kg of this job", "then 60 kg"),
        (-3.0, "not even empty", "kg"),
    ],
)
def test_the_first_run_carries_no_more_than_the_rating(
    carries: float, told: str, never: str
) -> None:
    job = steps_of().job
    work = Work(
        setting=job.setting, costs=job.costs, wheels=2, cut_length_mm=0, drilled=(),
        rated_n=4000.0, carries_kg=carries,
    )  # fmt: skip
    step = prove(work, "mm")
    assert told in step.do[-1]
    assert never not in step.do[-1]
    most = [row.value for row in step.figures if row.name == "most payload of a wagon"]
    assert most == ([] if carries < 0 else [min(60, math.floor(carries))])


def test_what_fails_is_told_where_the_wagon_first_runs() -> None:
    found = steps_of({"shop.roll_diameter_mm": "160"})
    assert re.match(
        r"\d checks? fails?: .*smallest rolled ring.*No wagon", found.step("prove").cautions[0]
    )
    assert not any("No wagon runs" in line for line in steps_of().step("prove").cautions)
