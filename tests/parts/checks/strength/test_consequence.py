"""The consequence class: asked of those who run fast, and one factor in every fatigue verdict."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.strength.consequence import consequence
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.settings import setting_of


def at(speed_km_h: float, kind: str = "low") -> Setting:
    return setting_of(speed_km_h=speed_km_h, use={"consequence": kind})


@pytest.mark.parametrize(("speed", "verdict"), [(6.0, "pass"), (10.0, "pass"), (10.1, "warn")])
def test_a_low_consequence_is_for_walking_pace(speed: float, verdict: str) -> None:
    found = consequence(at(speed))
    assert found is not None
    assert (found.verdict, found.value, found.limit) == (verdict, speed, 10.0)
    assert '"high"' in found.says


def test_nothing_is_said_of_a_high_one() -> None:
    assert consequence(at(30.0, "high")) is None


def test_no_other_class_is_known() -> None:
    with pytest.raises(ValueError, match="consequence"):
        at(5.0, "middling")
