"""A copy of a spec with other values is judged like a new one."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import unchecked
from tests.parts.settings import demo_setting

WHEEL = demo_setting().wheel


def test_a_copy_goes_by_all_rules() -> None:
    with pytest.raises(SpecError) as told:
        WHEEL.model_copy(update={"tread_diameter_mm": math.nan, "hub_bore": 35.0})
    assert {fault.key for fault in told.value.faults} == {"tread_diameter_mm", "hub_bore"}
    with pytest.raises(SpecError, match="vent_circle_mm"):  # a rule between keys
        WHEEL.model_copy(update={"vent_circle_mm": WHEEL.tread_diameter_mm - 1.0})
    with pytest.raises(SpecError, match="tread_diameter_mm"):
        WHEEL.copy(update={"tread_diameter_mm": -1.0})


def test_a_copy_has_the_new_values_and_the_first_its_own() -> None:
    other = WHEEL.model_copy(update={"vent_count": 6})
    assert (other.vent_count, other.tread_diameter_mm) == (6, WHEEL.tread_diameter_mm)
    assert other != WHEEL
    assert other.model_copy(update={"vent_count": WHEEL.vent_count}) == WHEEL
    assert WHEEL.model_copy() == WHEEL


def test_keys_left_out_keep_to_their_defaults() -> None:
    other = Cutting(process="plasma").model_copy(update={"process": "laser"})
    assert other == Cutting(process="laser")


def test_a_step_of_a_calculation_asks_no_rule() -> None:
    assert unchecked(WHEEL, {"hub_bore_mm": -1.0}).hub_bore_mm == -1.0
