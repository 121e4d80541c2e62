"""What holds the wheels, and the axle, against the tools of the shop."""

from __future__ import annotations

import re
from typing import Any

import pytest

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.checks.wheelset.axle_crack import axle_fatigue_safety
from platewheel.parts.checks.wheelset.shop_tools import axle_in_shop, retention_in_shop
from platewheel.parts.wheelset.assembly import wheelset
from tests.parts.checks.running.settings import running_setting

POOR = {
    "lathe": False,
    "drill_press": False,
    "press_t": 0.0,
    "keyway_cutter": False,
    "reamer": False,
    "measures_with": "caliper",
}


def retained(**keys: Any) -> CheckResult | None:
    setting = running_setting(**keys)
    return retention_in_shop(setting, wheelset(setting))


def test_a_shop_with_all_tools_is_not_asked() -> None:
    setting = running_setting()
    assert retained() is None
    assert axle_in_shop(setting, wheelset(setting)) is None


@pytest.mark.parametrize(
    ("way", "shop", "verdict", "named"),
    [
        ("key", {"keyway_cutter": False}, "fail", "shop.keyway_cutter = false"),
        ("key", {"lathe": False}, "pass", ""),
        ("screws", {"drill_press": False}, "warn", "shop.drill_press = false"),
        ("press", {"press_t": 0.0}, "fail", "shop.press_t = 0"),
        ("press", {"measures_with": "caliper"}, "fail", 'shop.measures_with = "caliper"'),
        ("weld", POOR, "pass", ""),
    ],
)
def test_each_way_asks_for_its_tools(
    way: str, shop: dict[str, Any], verdict: str, named: str
) -> None:
    result = retained(retention=way, **shop)
    assert result is not None
    assert result.verdict == verdict
    assert named in result.says


@pytest.mark.parametrize("way", ["key", "press"])
def test_the_way_that_is_advised_can_be_made(way: str) -> None:
    keys = {"retention": way, **POOR}
    result = retained(**keys)
    assert result is not None
    assert result.verdict == "fail"
    found = re.search(r'axle\.retention = "(\w+)"$', result.says)
    assert found
    assert found[1] != way
    then = retained(**(keys | {"retention": found[1]}))
    assert then is not None
    assert then.verdict == "pass"


def test_where_a_weld_cracks_the_axle_the_thicker_one_advised_does_not() -> None:
    """Followed: each set of keys that is advised, on a line where a weld on 35 mm would crack."""
    keys = {"retention": "key", "payload_kg": 400.0, **POOR}
    result = retained(**keys)
    assert result is not None
    ways = [
        dict(re.findall(r"\w+\.(\w+) = \"?([\w.]+)\"?", part))
        for part in result.says.split("): ")[1].split("; or ")
    ]
    assert any(way.get("retention") == "weld" and "hub_bore_mm" in way for way in ways)
    for way in ways:
        numbers = {k: float(v) if k.endswith("_mm") else v for k, v in way.items()}
        if "wheels_on_axle" in numbers:
            numbers["retention"] = None  # type: ignore[assignment]
        setting = running_setting(**(keys | numbers))
        made = wheelset(setting)
        after = retention_in_shop(setting, made)
        assert after is not None
        assert after.verdict == "pass"
        assert axle_fatigue_safety(setting, made).verdict == "pass"


def test_loose_wheels_have_bought_collars() -> None:
    result = retained(wheels_on_axle="loose", **POOR)
    assert result is not None
    assert result.verdict == "pass"
    assert "bought" in result.says


def test_an_axle_with_shoulders_needs_a_lathe_or_one_diameter() -> None:
    keys = {"lathe": False, "journal_diameter_mm": 30.0}
    setting = running_setting(**keys)
    result = axle_in_shop(setting, wheelset(setting))
    assert result is not None
    assert result.verdict == "fail"
    told = dict(re.findall(r"axle\.(\w+) = ([\d.]+)", result.says))
    assert told == {"journal_diameter_mm": "35", "body_diameter_mm": "35"}
    plain = with_keys(setting, {f"axle.{key}": float(value) for key, value in told.items()})
    assert plain is not None
    after = axle_in_shop(plain, wheelset(plain))
    assert after is not None
    assert after.verdict == "pass"


def test_a_weak_welder_warms_the_axle() -> None:
    result = retained(retention="weld", welder_most_a=140.0, **POOR)
    assert result is not None
    assert "140 A fuse into 35 mm once it is warmed" in result.says
