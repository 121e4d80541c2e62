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
from platewheel.parts.checks.making.tolerance import limit_deviation_mm
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.checks.run_wheelset import CHECKS as OF_WHEELSET
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset
from platewheel.parts.workings import of_checks, source
from platewheel.parts.workings.of_checks import Working, workings
from platewheel.parts.workings.reader import IN_WORDS
from platewheel.parts.workings.terms import Quantity, all_below
from platewheel.parts.workings.units import AT, UNKNOWN
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.test_advice_at_random import keys_at_random
from tests.parts.workings.names import lost_names
from tests.places import DEMO, ROOT, TRACKS

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
    lost = [one.result.id for one in found if not one.followed]
    if lost:
        return [f"{one}: not followed" for one in lost]
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
    sides = [s for one in workings(setting, made_of(setting)) for s in (one.value, one.limit) if s]
    lines = [one for one in all_below(tuple(sides)) if one.home]
    assert {(one.home, one.name) for one in lines if one.unit == UNKNOWN} == set()


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


def test_checks_of_a_shop_with_few_tools_have_theirs() -> None:
    setting = read_job(DEMO).setting
    few = {"lathe": False, "keyway_cutter": False, "welder_most_a": 90.0}
    setting = replace(setting, shop=type(setting.shop)(**(setting.shop.model_dump() | few)))
    assert faults(setting) == []
    found = {one.result.id: one for one in workings(setting, made_of(setting))}
    assert {"retention-in-shop", "axle-in-shop", "weld-current"} <= set(found)
    assert found["retention-in-shop"].result.verdict == "fail"
    current = found["weld-current"]
    assert (current.value is not None, current.at_most) == (True, False)
    assert current.limit is not None
    assert current.limit.unit == "A"
    assert current.limit.term is not None or current.limit.inputs


def unreadable(setting: Setting) -> CheckResult:
    """A check in a form of the language that the reader does not know."""
    gauges = [first for first, *_ in [(setting.track.gauge_mm, 2, 3)]]
    return judged(
        "unreadable", "Unreadable", 3 * gauges[0], 1.0, "mm", "no source", at_most=False,
        good="good", bad="bad",
    )  # fmt: skip


def otherwise(setting: Setting) -> CheckResult:
    """A check that gives another number each time that it is asked."""
    global _asked
    _asked += 1
    return judged(
        "otherwise", "Otherwise", _asked * setting.track.gauge_mm, 1.0, "mm", "no source",
        at_most=False, good="good", bad="bad",
    )  # fmt: skip


_asked = 0


@pytest.mark.parametrize("check", [unreadable, otherwise])
def test_a_check_that_cannot_be_followed_stands_alone(
    check: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its numbers are its own, and no line pretends to lead to them."""
    monkeypatch.setattr(of_checks, "ROOMS", (("making", (check,)),))
    monkeypatch.setattr(source, "OURS", "tests")
    source.function_tree.cache_clear()
    (one,) = workings(read_job(DEMO).setting)
    source.function_tree.cache_clear()
    assert (one.value, one.limit, one.followed) == (None, None, False)
    assert one.result.value is not None
    assert one.result.value % 457 == 0
    assert one.result.limit == 1.0


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


def test_names_with_a_unit_of_their_own_are_there() -> None:
    assert [*lost_names(AT)] == []
    assert [*lost_names({"twist": {"soft": "", "soft_2": "", "gone": ""}})] == [("twist", "gone")]


def test_procedures_told_in_words_are_there() -> None:
    """A name that is none any more would be followed line by line."""
    code = "".join(path.read_text("utf-8") for path in (ROOT / "parts").rglob("*.py"))
    assert [name for name in IN_WORDS if f"def {name}(" not in code] == []


def test_what_is_said_for_tools_or_of_none_is_no_source() -> None:
    said = source.constant("platewheel.parts.checks.strength.contact", "SPEED_FACTORS")
    assert said is not None
    assert (
        said.says
        == "turns a minute -> factor; FEM 1.001, speed factor c1 of rail wheels, from memory"
    )
    assert source.says(limit_deviation_mm).whole == "+- deviation of a thermally cut size"
