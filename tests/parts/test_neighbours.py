"""One step away: only what is named moves, and what must follow it."""

from __future__ import annotations

import pytest

from parts.neighbours import neighbours

from .settings import demo_setting
from .test_sifting import SMALL

WHEEL = demo_setting().wheel


def test_steps_take_the_next_choice_either_way() -> None:
    steps = {(step.key, step.becomes): step.wheel for step in neighbours(WHEEL, SMALL)}
    assert ("tread_diameter_mm", "280") in steps  # 300 is the largest
    assert ("flange_depth_mm", "12") in steps
    assert ("root_weld_mm", "6") in steps
    assert not any(key == "disc_thickness_mm" for key, _ in steps)  # one choice alone
    for (key, becomes), wheel in steps.items():
        for name in key.split(" and "):
            assert getattr(wheel, name) == float(becomes)


def test_vents_follow_ring_and_bead() -> None:
    wheels = {(step.key, step.becomes): step.wheel for step in neighbours(WHEEL, SMALL)}
    smaller = wheels["tread_diameter_mm", "280"]
    assert smaller.vent_circle_mm == pytest.approx(WHEEL.vent_circle_mm - 20)
    thinner = wheels["tread_thickness_mm", "6"]
    assert thinner.vent_circle_mm == pytest.approx(WHEEL.vent_circle_mm + 4)
    wider = wheels["disc_field_inset_mm and disc_gauge_inset_mm", "12"]
    # 8 mm less over the discs, so that the tube stands out as far as before
    assert wider.hub_tube_length_mm == pytest.approx(WHEEL.hub_tube_length_mm - 8)
