"""Every check has a working, and it gives the numbers of the check: to the last digit, as both
come from the same lines."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import Any

import pytest

from platewheel.cli.job.job import read_job
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.checks.run_wheelset import CHECKS as OF_WHEELSET
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset
from platewheel.parts.workings.of_checks import Working, workings
from platewheel.parts.workings.reader import IN_WORDS
from platewheel.parts.workings.terms import Quantity, all_below
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.test_advice_at_random import keys_at_random
from tests.places import DEMO, TRACKS

JOBS = (DEMO, TRACKS / "garden.toml", TRACKS / "quarry.toml", TRACKS / "twisted.toml")


def made_of(setting: Setting) -> Wheelset | None:
    try:
        return wheelset(setting)
    except SpecError:
        return None


def judged_of(setting: Setting, made: Wheelset | None) -> dict[str, CheckResult]:
    """What the checks themselves say."""
    found = [check(setting) for check in CHECKS]
    found += [check(setting, made) for check in OF_WHEELSET if made]
    return {one.id: one for one in found if one is not None}


def same(one: float | None, other: Quantity | None) -> bool:
    return one is None if other is None else other.value == one or math.isnan(other.value)


def faults(setting: Setting) -> list[str]:
    """What is wrong with the workings of a setting."""
    made = made_of(setting)
    results, found = judged_of(setting, made), workings(setting, made)
    wrong = [f"{one}: without" for one in set(results) ^ {one.result.id for one in found}]
    for one in found:
        result = results[one.result.id]
        if not (same(result.value, one.value) and same(result.limit, one.limit)):
            wrong.append(f"{result.id}: {result.value}, {result.limit}")
        wrong += [f"{result.id}: nothing said of {quantity.name}" for quantity in untold(one)]
    return wrong


def untold(one: Working) -> list[Quantity]:
    """Value or limit that neither a term nor words explain."""
    sides = [side for side in (one.value, one.limit) if side is not None]
    return [side for side in sides if side.kind == "found" and not side.says]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_every_check_of_a_job_has_its_working(file: Any) -> None:
    setting = read_job(file).setting
    assert made_of(setting) is not None
    assert len(judged_of(setting, made_of(setting))) > 60
    assert faults(setting) == []


def test_workings_of_settings_at_random() -> None:
    dice, count = random.Random(7), 0
    while count < 6:
        try:
            setting = running_setting(**keys_at_random(dice))
            axle = setting.axle.model_dump() | {
                "frames": dice.choice(["inside", "outside"]),
                "bearing": dice.choice(["deep-groove", "insert", "bush"]),
                "retention": dice.choice(["key", "weld", "press", "screws", "collar"]),
                "wheels_on_axle": dice.choice(["fixed", "loose"]),
            }
            setting = replace(setting, axle=AxleSpec(**axle))
        except SpecError:
            continue
        count += 1
        assert faults(setting) == []


def test_most_of_it_is_formulas() -> None:
    setting = read_job(DEMO).setting
    sides = [s for one in workings(setting, made_of(setting)) for s in (one.value, one.limit) if s]
    every = all_below(tuple(sides))
    worked = [one for one in every if one.kind == "worked"]
    assert len(worked) > 250
    words = {one.name for one in every if one.kind == "found" and one.says and one.inputs}
    assert len(words) < 25  # procedures, told in words


def test_what_two_checks_share_is_one_quantity() -> None:
    found = {one.result.id: one for one in workings(read_job(DEMO).setting)}
    pressure, buckling = found["tread-pressure"], found["disc-buckling"]
    assert pressure.value
    assert buckling.value
    loads = [
        next(one for one in all_below((side,)) if one.name == "struck_load_n")
        for side in (pressure.value, buckling.value)
    ]
    assert loads[0] is loads[1]


def test_procedures_told_in_words_are_there() -> None:
    """A name that is none any more would be followed line by line."""
    from tests.places import ROOT

    code = "".join(path.read_text("utf-8") for path in (ROOT / "parts").rglob("*.py"))
    assert [name for name in IN_WORDS if f"def {name}(" not in code] == []
