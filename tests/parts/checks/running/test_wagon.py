"""The wagon pushed, let go and braked: verdicts, and that what is advised is enough."""

from __future__ import annotations

import re

from hypothesis import given, reject, settings

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.running.wagon import CHECKS, brake_adhesion, pushers, roll_away
from tests.parts.checks.running.settings import ANY_SETTING_KEYS, running_setting


def _told(says: str, pattern: str) -> float:
    found = re.search(pattern, says)
    assert found is not None, says
    return float(found[1])


def test_pushers_and_what_is_advised() -> None:
    loose = {"wheels_on_axle": "loose"}
    assert pushers(running_setting(**loose, bearing="deep-groove")).verdict == "pass"
    assert pushers(running_setting(**loose, bearing="bush")).verdict == "warn"  # they drag
    steep = {"steepest_gradient_percent": 4.0}
    result = pushers(running_setting(**steep))
    # 800 kg: 54 + 313.6 N to keep moving is 3.68 people by the figures for men; two are there
    assert (result.verdict, round(result.value or 0, 2)) == ("warn", 3.68)
    assert "4 needed" in result.says
    load = _told(result.says, r"payload_kg = (\d+)")
    assert pushers(running_setting(**steep, payload_kg=load)).verdict == "pass"
    assert pushers(running_setting(**steep, payload_kg=load + 2)).verdict == "warn"
    force = _told(result.says, r"push_force_n = (\d+)")
    assert pushers(running_setting(**steep, push_force_n=force)).verdict == "pass"


def test_wagon_too_heavy_even_empty_is_not_told_to_load_less() -> None:
    result = pushers(running_setting(steepest_gradient_percent=25.0))
    assert result.verdict == "warn"
    assert "payload" not in result.says


def test_roll_away_on_the_gradient_that_it_tells() -> None:
    level = roll_away(running_setting())
    assert level.verdict == "pass"
    fall = _told(level.says, r"a fall of ([\d.]+) mm in 1 m") / 10
    assert roll_away(running_setting(steepest_gradient_percent=fall + 0.01)).verdict == "warn"
    assert roll_away(running_setting(steepest_gradient_percent=fall - 0.01)).verdict == "pass"


def test_brakes_and_the_speed_that_is_advised() -> None:
    fast = {"max_speed_km_h": 60.0, "steepest_gradient_percent": 5.0}
    result = brake_adhesion(running_setting(**fast))
    assert result.verdict == "warn"
    advised = _told(result.says, r"max_speed_km_h = ([\d.]+)")
    slower = fast | {"max_speed_km_h": advised}
    assert brake_adhesion(running_setting(**slower)).verdict == "pass"
    faster = fast | {"max_speed_km_h": advised + 0.2}
    assert brake_adhesion(running_setting(**faster)).verdict == "warn"


def test_slope_that_no_brake_holds_fails_and_names_one_that_is_held() -> None:
    result = brake_adhesion(running_setting(steepest_gradient_percent=20.0))
    assert result.verdict == "fail"
    held = _told(result.says, r"no more than ([\d.]+) %")
    assert brake_adhesion(running_setting(steepest_gradient_percent=held)).verdict == "warn"


@settings(max_examples=30)
@given(keys=ANY_SETTING_KEYS)
def test_any_setting_gets_a_result(keys: dict[str, object]) -> None:
    """Steeper never widens a margin, and no sentence holds a number that is none."""
    try:
        flat = running_setting(**keys)
    except SpecError:
        reject()
    steep = running_setting(**keys, steepest_gradient_percent=10.0)
    for check in CHECKS:
        before, after = check(flat).margin, check(steep).margin
        assert before is not None
        assert after is not None
        assert after <= before + 1e-9
        assert not re.search(r"\b(nan|inf|None)\b", check(steep).says)
