"""A circle of vents that is advised asks for no other one: neither by the wall nor by the web."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.galvanizing.plate_webs import vent_beside_weld, vent_web
from platewheel.parts.checks.galvanizing.vents import vent_place
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import plain_wheel, valid_wheels

CIRCLE = re.compile(r"vent_circle_mm = ([0-9.]+)")


def asked_of_rim(setting: Setting) -> list[str]:
    """What is said against a web to the rim; that to the hub hole is no matter of the wall."""
    found = [check(setting) for check in (vent_web, vent_beside_weld)]
    wheel = setting.wheel
    outer = (disc_diameter_mm(wheel, "field") - wheel.vent_circle_mm - wheel.vent_diameter_mm) / 2
    return [
        one.says
        for one in found
        if one and one.verdict != "pass" and one.value is not None and one.value >= outer - 1e-9
    ]


@given(valid_wheels(), st.sampled_from(["plasma", "laser", "oxy-fuel", "hand"]))
def test_a_circle_near_the_wall_leaves_the_web(wheel: WheelSpec, process: str) -> None:
    setting = replace(setting_of(), wheel=wheel, process=process)
    with advice_tried():
        result = vent_place(setting)
    told = CIRCLE.search(result.says) if result else None
    if not told:
        return
    other = WheelSpec(**(wheel.model_dump() | {"vent_circle_mm": float(told[1])}))
    then = replace(setting, wheel=other)
    after = vent_place(then)
    assert after is not None
    assert after.verdict == "pass"
    assert not asked_of_rim(then)


@pytest.mark.parametrize("thick", [3.0, 6.0, 8.0, 12.0])
@pytest.mark.parametrize("throat", [3.0, 7.5])
@pytest.mark.parametrize("circle", [20.0, 290.0])
def test_the_circle_of_the_refusal_warns_of_nothing(
    thick: float, throat: float, circle: float
) -> None:
    keys = {"disc_thickness_mm": thick, "weld_throat_mm": throat}
    with pytest.raises(SpecError) as caught:
        plain_wheel(**keys, vent_circle_mm=circle)
    (fault,) = (one for one in caught.value.faults if one.key == "vent_circle_mm")
    told = CIRCLE.search(fault.advice)
    assert told
    setting = setting_of(wheel=keys | {"vent_circle_mm": float(told[1])})
    for check in (vent_place, vent_web, vent_beside_weld):
        result = check(setting)
        assert result is not None
        assert result.verdict == "pass", result.says


def test_a_narrow_disc_has_its_vents_midway() -> None:
    """Too narrow for a web to the rim that the wall's rule would have: the circle can be made."""
    keys = {"tread_diameter_mm": 100.0, "vent_diameter_mm": 8.0, "hub_tube_outside_mm": 57.0}
    with pytest.raises(SpecError) as caught:
        plain_wheel(**keys, vent_circle_mm=90.0)
    (fault,) = (one for one in caught.value.faults if one.key == "vent_circle_mm")
    told = CIRCLE.search(fault.advice)
    assert told
    assert plain_wheel(**keys, vent_circle_mm=float(told[1])).vent_circle_mm == float(told[1])
