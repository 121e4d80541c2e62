"""Axle and bearings against their limits: each check turns where its own sum says."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run_wheelset import run_wheelset_checks
from platewheel.parts.checks.wheelset.axle_bending import axle_bending
from platewheel.parts.checks.wheelset.axle_crack import axle_fatigue_safety
from platewheel.parts.checks.wheelset.axle_turning import axle_slope
from platewheel.parts.checks.wheelset.bearings import (
    bearing_axial,
    bearing_static,
    bush_heat,
    bush_pressure,
)
from platewheel.parts.loads.wheel_load import heavy_load_n, side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset
from tests.parts.settings import demo_setting


def with_axle(**keys: object) -> Setting:
    setting = demo_setting()
    return replace(setting, axle=type(setting.axle)(**(setting.axle.model_dump() | keys)))


def asked(
    check: Callable[[Setting, Wheelset], CheckResult | None], setting: Setting
) -> CheckResult | None:
    return check(setting, wheelset(setting))


BUSHED = {"bearing": "bush", "wheels_on_axle": "loose", "retention": "collar"}


def of(results: list[CheckResult], id: str) -> CheckResult:
    return next(result for result in results if result.id == id)


def test_every_check_answers_for_the_demo() -> None:
    ids = {result.id for result in run_wheelset_checks(demo_setting(), wheelset(demo_setting()))}
    assert ids == {
        *("axle-bending", "axle-fatigue", "axle-slope", "axle-spread"),
        *("wheel-held", "key-wall"),
        *("bearing-life", "bearing-static", "bearing-axial"),
    }


def test_a_thinner_axle_tires_sooner() -> None:
    """Safety goes with d^3 / size factor: 40 to 35 mm costs about 0.34 of it."""
    thick = asked(axle_fatigue_safety, demo_setting())
    small = demo_setting()
    keys = {"hub_bore_mm": 35.0}
    wheel = type(small.wheel)(**(small.wheel.model_dump() | keys))
    thin = asked(axle_fatigue_safety, replace(small, wheel=wheel))
    assert thick.value is not None
    assert thin.value is not None
    assert thin.value / thick.value == pytest.approx((35 / 40) ** 3, rel=0.08)
    assert thick.verdict == "pass"
    assert thin.verdict == "fail"


def test_a_thin_axle_between_the_wheels_is_seen() -> None:
    """Bending between the wheels and at their shoulders counts, not that at the seats alone."""
    whole = asked(axle_fatigue_safety, demo_setting())
    thin = asked(axle_fatigue_safety, with_axle(body_diameter_mm=22.0))
    assert whole.value is not None
    assert thin.value is not None
    assert thin.value < 0.7 * whole.value
    assert "at the shoulder from 40 to 22 mm" in thin.says
    bent = asked(axle_bending, with_axle(body_diameter_mm=18.0))
    assert bent.verdict == "fail"
    assert "where it has 18" in bent.says


def test_thinner_journals_bear_their_own_moment_alone() -> None:
    """Outside frames: at the bearing's shoulder the lever to it is short, so 40 mm seats on 35 mm
    journals are far from as weak as 35 mm all along."""
    stepped = with_axle(journal_diameter_mm=35.0)
    found = asked(axle_fatigue_safety, stepped)
    made = wheelset(stepped)
    assert {d for _, _, d in made.steps} == {35, 40}
    whole = asked(axle_fatigue_safety, demo_setting())
    assert found.value == pytest.approx(whole.value, rel=0.1)
    assert "held by key" in found.says


def test_static_safety_and_push_by_hand() -> None:
    """UC208 as UC inserts take 6208: C0 16.6 kN; the side force of the curve."""
    setting = demo_setting()
    push = side_force_n(setting)
    axial = asked(bearing_axial, setting)
    assert axial is not None
    assert axial.value == pytest.approx(push)
    assert axial.limit == pytest.approx(16600 / 4)  # less than a fifth of C, 25.7 kN or more
    static = asked(bearing_static, setting)
    assert static is not None
    assert static.value is not None
    assert 16600 / static.value > wheel_load_n(setting)
    assert asked(bush_pressure, setting) is None


def test_bush_by_hand() -> None:
    """30 mm bore (40 less two walls of 5), 50 mm long: F / (d L), p v = F n pi / L."""
    setting = with_axle(**BUSHED, bush_length_mm=50.0)
    pressure, heat = asked(bush_pressure, setting), asked(bush_heat, setting)
    assert pressure is not None
    assert pressure.value == pytest.approx(wheel_load_n(setting) / (30 * 50))
    mean = heavy_load_n(setting) / (30 * 50)
    speed = 5 / 3.6 * 30 / 300
    assert heat is not None
    assert heat.value == pytest.approx(mean * speed)
    assert asked(bearing_static, setting) is None


def test_oiled_wood_is_crushed_before_bronze() -> None:
    wood = asked(bush_heat, with_axle(**BUSHED, bush_material="hardwood"))
    bronze = asked(bush_heat, with_axle(**BUSHED, bush_material="bronze"))
    assert wood is not None
    assert bronze is not None
    assert (wood.margin or 0) < (bronze.margin or 0)


def test_lean_of_the_axle_falls_with_the_fourth_power() -> None:
    wide = with_axle(bearing_centres_mm=700.0)
    lean = asked(axle_slope, wide).value
    bore = {"hub_bore_mm": 45.0, "hub_tube_outside_mm": 63.0}
    wheel = type(wide.wheel)(**(wide.wheel.model_dump() | bore))
    stiff = asked(axle_slope, replace(wide, wheel=wheel)).value
    assert lean is not None
    assert stiff is not None
    assert lean / stiff == pytest.approx((45 / 40) ** 4, rel=0.02)
    assert math.isfinite(lean)
