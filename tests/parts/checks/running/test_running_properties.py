"""What must hold for every setting: checks answer, and their margins move the right way."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import RUNNING
from platewheel.parts.checks.running import (
    climb,
    rough_track,
)
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.running.settings import ANY_SETTING_KEYS, running_setting


def results(setting: Setting) -> dict[str, CheckResult]:
    """Every result of running, by its id; two of one name would hide one."""
    found = [result for check in RUNNING if (result := check(setting))]
    by_id = {result.id: result for result in found}
    assert len(by_id) == len(found)
    return by_id


@settings(deadline=None, max_examples=100)
@given(ANY_SETTING_KEYS)
def test_every_check_answers(keys: dict[str, Any]) -> None:
    """No setting that the specs take makes a check break; each result can be written down."""
    for result in results(running_setting(**keys)).values():
        json.dumps([result.value, result.limit, result.margin], allow_nan=False)
        if result.verdict == "not-assessed":
            assert result.value is None
            assert "give " in result.says
        elif result.margin is not None:
            assert (result.verdict == "pass") == (result.margin >= -1e-9)
        for part in ("nan", "inf ", "None"):
            assert part not in result.says


@settings(deadline=None, max_examples=60)
@given(ANY_SETTING_KEYS, st.floats(0.1, 60))
def test_more_speed_raises_no_margin(keys: dict[str, Any], other: float) -> None:
    slow, fast = sorted([keys["max_speed_km_h"], other])
    before = results(running_setting(**keys | {"max_speed_km_h": slow}))
    after = results(running_setting(**keys | {"max_speed_km_h": fast}))
    assert before.keys() == after.keys()
    for id, result in before.items():
        if id == "shock-factor":  # over a wheel that leans heavier the faster it runs
            continue
        margin, then = result.margin, after[id].margin
        assert (margin is None) == (then is None)
        if margin is not None and then is not None:
            assert then <= margin + 1e-9 * max(1, abs(margin))


@settings(deadline=None, max_examples=60)
@given(ANY_SETTING_KEYS, st.floats(2, 100))
def test_a_deeper_flange_never_lowers_the_lift_margin(keys: dict[str, Any], other: float) -> None:
    margins = []
    for depth in sorted([keys["flange_depth_mm"], other]):
        changes = keys | {"flange_depth_mm": depth, "axles": 2}
        result = rough_track.twist_lift(running_setting(**changes))
        assert result is not None
        margins.append(result.margin or 0.0)
    assert margins[0] <= margins[1] + 1e-9 * max(1, abs(margins[0]))


@settings(deadline=None, max_examples=60)
@given(ANY_SETTING_KEYS, st.floats(45, 90))
def test_a_steeper_flange_never_lowers_the_climb_margin(keys: dict[str, Any], other: float) -> None:
    margins = []
    for angle in sorted([keys["flange_angle_deg"], other]):
        changes = keys | {"flange_angle_deg": angle, "wheelbase_mm": 900.0}
        margin = climb.flange_climb(running_setting(**changes)).margin
        assert margin is not None
        margins.append(margin)
    assert margins[0] <= margins[1] + 1e-9 * max(1, abs(margins[0]))
