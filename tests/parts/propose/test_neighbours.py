"""One step away: only what is named moves, and what must follow it."""

from __future__ import annotations

import pytest

from platewheel.parts.propose.choices import wheel_values
from platewheel.parts.propose.neighbours import foretold, neighbours
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.propose.test_sifting import SMALL
from tests.parts.settings import demo_setting

WHEEL = demo_setting().wheel


def test_steps_take_the_next_choice_either_way() -> None:
    steps = {(step.key, step.becomes): step.wheel for step in neighbours(WHEEL, SMALL, WHEEL)}
    assert ("tread_diameter_mm", "280") in steps  # 300 is the largest
    assert ("flange_depth_mm", "12") in steps
    assert ("root_weld_mm", "6") in steps
    assert not any(key == "disc_thickness_mm" for key, _ in steps)  # one choice alone
    for (key, becomes), wheel in steps.items():
        for name in key.split(" and "):
            assert getattr(wheel, name) == float(becomes)


def test_vents_and_tube_follow_as_in_all_choices() -> None:
    """A step gives the wheel that the search has for these choices, so that their costs agree."""
    places = {"diameter": 2, "ring": 0, "flange": 1, "depth": 1, "throat": 1, "root": 1}
    base = WHEEL.model_dump()
    one = WheelSpec(**wheel_values(base, SMALL, places))
    steps = {(step.key, step.becomes): step.wheel for step in neighbours(one, SMALL, WHEEL)}
    for axis, at, key in (
        ("diameter", 1, ("tread_diameter_mm", "280")),
        ("throat", 0, ("weld_throat_mm", "3")),
        ("inset", 1, ("disc_field_inset_mm and disc_gauge_inset_mm", "12")),
        ("root", 0, ("root_weld_mm", "6")),
    ):
        other = WheelSpec(**wheel_values(base, SMALL, places | {axis: at}))
        assert steps[key] == other
    smaller = steps["tread_diameter_mm", "280"]
    assert smaller.vent_circle_mm == pytest.approx(one.vent_circle_mm - 20)
    thinner = steps["tread_thickness_mm", "6"]
    assert thinner.vent_circle_mm == pytest.approx(one.vent_circle_mm + 4)


def test_steps_together_are_foretold_by_their_product() -> None:
    assert foretold(1000.0, 20.0, -10.0) == pytest.approx(1000 * 1.2 * 0.9)
    assert foretold(1000.0, -10.0, 20.0) == pytest.approx(1000 * 1.2 * 0.9)
    assert foretold(1000.0, 20.0, None) == foretold(1000.0, None, 20.0) == 0.0
