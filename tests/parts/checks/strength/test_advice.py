"""What the checks of strength advise, followed: the check then passes."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.parts.base.plates import plate_from
from platewheel.parts.checks.strength.contact import crane_wheel_pressure, tread_pressure
from platewheel.parts.checks.strength.corner_contact import corner_flat
from platewheel.parts.checks.strength.disc_buckling import disc_buckling, disc_rim_stress
from platewheel.parts.checks.strength.flange_strength import flange_bending, root_weld_strength
from platewheel.parts.checks.strength.hub_strength import bore_pressure, hub_tube_bending
from platewheel.parts.checks.strength.weld_size import throat_least, throat_most
from platewheel.parts.checks.strength.weld_strength import rim_weld, tube_weld
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.advice import (
    Advice,
    Keys,
    assert_heeded,
    assert_no_more_than_needed,
    now,
    to,
)
from tests.parts.checks.running.settings import running_setting


def less_load(setting: Setting, percent: float) -> Keys:
    """Taken off the wagon, empty and loaded alike."""
    left = 1 - percent / 100
    return {key: left * now(setting, key) for key in ("tare_kg", "payload_kg")}


def root_and_plates(setting: Setting, leg_mm: float) -> Keys:
    """Ring and flange at least as thick as the bead's leg, as the sentence asks."""
    plates = ("tread_thickness_mm", "flange_thickness_mm")
    thick = {key: now(setting, key) for key in plates}
    return {"root_weld_mm": leg_mm} | {
        key: mm if mm >= leg_mm else plate_from(leg_mm, mm) for key, mm in thick.items()
    }


def throat_with_room(setting: Setting, throat_mm: float) -> Keys:
    """The insets and the tube leave room for the legs, throat x sqrt 2."""
    leg, wheel = math.ceil(throat_mm * math.sqrt(2)), setting.wheel
    field, gauge = max(leg, wheel.disc_field_inset_mm), max(leg, wheel.disc_gauge_inset_mm)
    box = wheel.tread_width_mm - field - gauge
    return {
        "weld_throat_mm": throat_mm,
        "disc_field_inset_mm": field,
        "disc_gauge_inset_mm": gauge,
        "hub_tube_length_mm": max(wheel.hub_tube_length_mm, box + 2 * leg),
    }


def tube_wall(setting: Setting, wall_mm: float) -> Keys:
    return {"hub_tube_outside_mm": setting.wheel.hub_bore_mm + 2 * wall_mm}


ADVICE: dict[str, Advice] = {
    "tread-pressure: load": Advice(tread_pressure, "payload_kg = #", to("payload_kg"), 40.0),
    "crane-wheel: head": Advice(
        crane_wheel_pressure, "head_width_mm = #", to("rail_head_width_mm"), 6.0
    ),
    "crane-wheel: wheel": Advice(
        crane_wheel_pressure, "tread_diameter_mm = #", to("tread_diameter_mm"), 60.0
    ),
    "throat-least: throat": Advice(throat_least, "throat_mm = #", to("weld_throat_mm")),
    "throat-most: throat": Advice(throat_most, "throat_mm = # or less", to("weld_throat_mm")),
    "throat-most: disc": Advice(throat_most, "disc_thickness_mm = #", to("disc_thickness_mm")),
    "throat-most: ring": Advice(throat_most, "tread_thickness_mm = #", to("tread_thickness_mm")),
    "throat-most: tube": Advice(throat_most, "tube wall of # mm", tube_wall, 0.4),
    "weld-rim: throat": Advice(rim_weld, "throat_mm = #.*or less load", throat_with_room, None),
    "weld-rim: room": Advice(rim_weld, "lack room, .*throat_mm = #", throat_with_room, None),
    "weld-tube: throat": Advice(tube_weld, "throat_mm = #.*or less load", throat_with_room, None),
    "weld-tube: room": Advice(tube_weld, "lack room, .*throat_mm = #", throat_with_room, None),
    "flange-bending: plate": Advice(flange_bending, "mm = # or more", to("flange_thickness_mm")),
    "weld-root: leg": Advice(root_weld_strength, "root_weld_mm = #", root_and_plates, None),
    "disc-rim-stress: disc": Advice(disc_rim_stress, "_mm = #", to("disc_thickness_mm")),
    "disc-buckling: disc": Advice(disc_buckling, "_mm = #", to("disc_thickness_mm"), 0.6),
    "hub-tube: outside": Advice(hub_tube_bending, "_mm = #", to("hub_tube_outside_mm"), 1.1),
    "bore-pressure: tube": Advice(bore_pressure, "length_mm = #", to("hub_tube_length_mm"), 7.0),
    "corner-flat: push": Advice(corner_flat, "payload_kg = #", to("payload_kg"), 40.0),
    "bore-pressure: disc": Advice(bore_pressure, "thickness_mm = #", to("disc_thickness_mm"), 0.6),
}
HEAVY = {"payload_kg": 7600.0}
BARE = {"hub_tube_length_mm": 0.0}

# Sound advice, by name of its line above; the plain wheel with these keys.
SOUND: list[tuple[str, Keys]] = [
    ("tread-pressure: load", {"payload_kg": 7650.0}),
    ("crane-wheel: head", HEAVY),
    ("crane-wheel: wheel", HEAVY),
    ("corner-flat: push", HEAVY),
    ("throat-least: throat", {"weld_throat_mm": 2.0}),
    ("throat-most: throat", {"weld_throat_mm": 10.0}),
    ("throat-most: disc", {"disc_thickness_mm": 3.0}),
    ("throat-most: ring", {"weld_throat_mm": 4.0, "tread_thickness_mm": 5.0}),
    ("throat-most: tube", {"hub_tube_outside_mm": 40.0}),
    ("weld-rim: throat", {"tare_kg": 1600.0}),
    ("weld-rim: room", {"disc_field_inset_mm": 0.0}),
    ("weld-tube: throat", HEAVY),
    ("weld-tube: room", {"tread_width_mm": 86.0}),
    ("flange-bending: plate", HEAVY),
    ("weld-root: leg", {"root_weld_mm": 3.0}),
    ("weld-root: leg", HEAVY),
    ("disc-rim-stress: disc", {"payload_kg": 4000.0}),
    ("disc-buckling: disc", {"tare_kg": 1600.0, "disc_thickness_mm": 1.5}),
    ("hub-tube: outside", {"hub_tube_outside_mm": 37.0, "lateral_share": 0.8}),
    ("bore-pressure: tube", {"axles": 1, "payload_kg": 6300.0, "lateral_share": 0.75}),
    (
        "bore-pressure: disc",
        BARE | {"rail_head_width_mm": 30.0, "lateral_share": 1.2, "disc_thickness_mm": 2.0},
    ),
]
WRONG = [
    ("tread-pressure: load", {"payload_kg": 4800.0, "shock_factor": 2.0}),
    ("throat-most: throat", {"hub_tube_outside_mm": 40.0}),
    ("crane-wheel: head", {"payload_kg": 5700.0}),
    ("crane-wheel: wheel", {"payload_kg": 5700.0}),
    (
        "weld-tube: throat",
        {"payload_kg": 6370.0, "disc_gauge_inset_mm": 2.0, "lateral_share": 0.75},
    ),
    (
        "weld-tube: room",
        {"payload_kg": 5000.0, "tread_width_mm": 48.0, "disc_gauge_inset_mm": 0.0}
        | {"hub_tube_length_mm": 46.0, "lateral_share": 0.75},
    ),
    ("flange-bending: plate", HEAVY | {"lateral_share": 0.85}),
    ("disc-buckling: disc", {"axles": 1, "payload_kg": 6300.0}),
    (
        "hub-tube: outside",
        {"payload_kg": 7600.0, "tread_diameter_mm": 400.0, "lateral_share": 1.55},
    ),
    ("bore-pressure: tube", {"axles": 1, "payload_kg": 6100.0, "lateral_share": 0.75}),
    ("bore-pressure: disc", BARE | {"payload_kg": 4500.0}),
]


@pytest.mark.parametrize(("name", "keys"), [*SOUND, *WRONG])
def test_advice_followed_passes(name: str, keys: Keys) -> None:
    assert_heeded(ADVICE[name], keys)


@pytest.mark.parametrize(
    ("name", "keys"), [case for case in SOUND if ADVICE[case[0]].slack is not None]
)
def test_advice_asks_for_no_more_than_needed(name: str, keys: Keys) -> None:
    assert_no_more_than_needed(ADVICE[name], keys)


def test_each_line_of_the_table_is_followed() -> None:
    assert {name for name, _ in SOUND} == set(ADVICE)


def test_each_plate_too_thin_for_the_throat_is_named() -> None:
    setting = running_setting(weld_throat_mm=10.0)
    result = throat_most(setting)
    told = re.findall(
        r"(?:wheel\.(\w+) = |hub tube wall of )([\d.]+)", result.says.split("or less")[1]
    )
    assert [key for key, _ in told] == ["tread_thickness_mm", "disc_thickness_mm", ""]
    assert len({mm for _, mm in told}) == 1
    plate = float(told[0][1])  # 10 / 0.7
    assert plate == pytest.approx(14.3)
    tube = {"hub_tube_outside_mm": setting.wheel.hub_bore_mm + 2 * plate}
    keys = dict.fromkeys(("tread_thickness_mm", "disc_thickness_mm"), plate) | tube
    assert throat_most(running_setting(weld_throat_mm=10.0, **keys)).verdict == "pass"


def test_no_thickness_is_advised_where_none_helps() -> None:
    """Thicker discs lie nearer to each other: the lever rule gives one of them more."""
    with advice_tried():
        result = disc_rim_stress(running_setting(**HEAVY))
    assert result.verdict == "fail"
    assert result.says.endswith("crushed at its rim: a thicker ring")


@pytest.mark.parametrize("keys", [HEAVY, {"disc_field_inset_mm": 0.0, "payload_kg": 7300.0}])
def test_no_throat_is_advised_where_none_helps(keys: Keys) -> None:
    """Insets for larger legs move the discs together: the lever rule gives one of them more."""
    with advice_tried():
        result = rim_weld(running_setting(**keys))
    assert result.verdict == "fail"
    assert result.says.endswith("less load, or a wider tread with the discs further apart")


def test_a_tube_flush_with_the_discs_is_told_the_throat_that_needs_room() -> None:
    """The tube is tried longer too: flush, it has no room for any throat."""
    setting = running_setting(payload_kg=5000.0, hub_tube_length_mm=44.0)
    with advice_tried():
        result = tube_weld(setting)
    assert result is not None
    assert "lack room, wheel.weld_throat_mm = 3 and wheel.hub_tube_length_mm = " in result.says
    assert result.says.endswith(
        "hub_tube_length_mm = 54"
    )  # the least that counts, EN 1993-1-8, 4.5.2
    keys = throat_with_room(setting, 3.0)
    found = tube_weld(running_setting(payload_kg=5000.0, **keys))
    assert found is not None
    assert found.verdict == "pass"
