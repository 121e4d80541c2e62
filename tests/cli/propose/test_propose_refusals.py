"""Why no wheel is proposed, and what to try."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose import why_none as why_none_module
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.cli.propose.why_none import too_weak, why_none
from platewheel.cli.schema.propose import SieveRow
from platewheel.parts.propose.rate_until_known import Found
from platewheel.parts.propose.screening import Wheels
from platewheel.parts.propose.sifting import sifted
from platewheel.parts.rating.endurance import BlockDamage
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.conftest import _rate_once
from tests.places import DEMO

JOB = read_job(DEMO)
WANTED = Wanted(260, 300, analyses=48, reserve=0.0)
NEED_N = JOB.setting.static_wheel_load_n


@pytest.fixture(autouse=True, scope="module")
def rated_once(module_patch: pytest.MonkeyPatch) -> None:
    """What limits the strongest is asked of one wheel, on a coarse mesh."""
    module_patch.setattr(why_none_module, "assess", _rate_once)


class One:
    """One row, with the values of a wheel."""

    def __init__(self, wheel: WheelSpec) -> None:
        self.wheel = wheel

    def values(self, row: int) -> dict[str, object]:
        return self.wheel.model_dump()

    def play_mm(self, row: int) -> None:
        """As the job has it."""


def found(load_n: float, analyses: int = 30) -> Found:
    return Found(
        wheels=cast(Wheels, One(JOB.wheel)),
        analyses=analyses,
        rows=(0,),
        loads_n=(load_n,),
        passes=(False,),
        stopped=False,
        needed_n=NEED_N,
        cost=np.array([100.0]),
        family=np.array([0]),
    )


def test_too_weak_tells_how_far_off_and_what_to_try() -> None:
    lines = too_weak(JOB, found(0.8 * NEED_N), WANTED)
    assert "80 % of it" in lines[0]
    assert "the strongest is limited by" in lines[1]
    assert len(lines) == 2


@pytest.mark.parametrize("share", [0.8, 1.1])
def test_a_search_that_ran_out_says_so(share: float) -> None:
    lines = too_weak(JOB, found(share * NEED_N, analyses=48), WANTED)
    assert lines[-1] == "or raise --analyses: the search ended at 48"


def test_what_was_held_back_for_a_warning_is_told() -> None:
    lines = too_weak(JOB, found(0.8 * NEED_N), WANTED, ["A", "B"])
    assert lines[-1].endswith("most by: A, B")


def test_strong_wheels_that_fail_tell_their_check() -> None:
    thin = JOB.wheel.model_copy(update={"hub_bore_mm": 25.0})
    job: Job = replace(JOB, wheel=thin)
    weak = replace(found(1.1 * NEED_N), wheels=cast(Wheels, One(thin)))
    lines = too_weak(job, weak, WANTED)
    assert "those that carry the load fail another check" in lines[0]
    assert any(line.startswith("Safety of the axle against fatigue") for line in lines)


@pytest.mark.usefixtures("few_choices")
def test_a_load_for_other_stock_names_the_check_by_its_title() -> None:
    heavy = replace(JOB, wagon=JOB.wagon.model_copy(update={"payload_kg": 5000.0}))
    choices, checks = job_choices(heavy, Wanted(360, 400)), asked_checks(heavy)
    sift = sifted(heavy.setting, choices, checks)
    assert sift.wheels.count == 0
    sieves = [SieveRow(check=s.check, came=s.came, passed=s.passed) for s in sift.sieves]
    lines = why_none(heavy, choices, checks, sieves)
    assert "passes Bending stress of the flange at its root" in lines[0]
    assert "less load" in lines[0]
    assert lines[1].startswith("the wheel of the job file: the flange bends")


def test_what_eats_the_life_of_the_strongest_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """0.6 + 0.3 of the damage and joints of 1.5 in all come from the curve; 15 years of 300 km."""
    curve = BlockDamage("curve of 12 m", "loaded", 1e5, 2e3, 9e2, 0.6, 0.3)
    straight = BlockDamage("straight", "loaded", 3e5, 2e3, 0.0, 0.4, 0.2)
    limit = SimpleNamespace(name="weld roots", where="rim")
    least = SimpleNamespace(governs=limit)
    rated = SimpleNamespace(life_km=3000.0, least=least, by_block=(curve, straight))
    monkeypatch.setattr(why_none_module, "assess", lambda setting: rated)
    assert why_none_module.eaten(JOB) == [
        "the strongest is limited by weld roots: rim; it lasts 3000 km of 4500, and 60 % of the "
        "harm comes from the curve of 12 m, loaded"
    ]
    rated.by_block = ()
    assert why_none_module.eaten(JOB) == ["the strongest is limited by weld roots: rim"]
    monkeypatch.setattr(why_none_module, "assess", lambda setting: None)
    assert why_none_module.eaten(JOB) == []
