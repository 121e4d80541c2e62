"""What mends each check: told as keys of the job file, tried, and no other check gets worse."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

import pytest

from platewheel.parts.checks.advice import AXLE_WAYS, OWN_FACTORS, WAYS, with_cures
from platewheel.parts.checks.result import WORST_FIRST, CheckResult
from platewheel.parts.checks.run import run_checks
from platewheel.parts.checks.run_wheelset import run_wheelset_checks
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset, wheelset_faults
from tests.parts.checks.running.settings import running_setting

Keys = dict[str, Any]
LOOSE = {"wheels_on_axle": "loose", "bearing": "bush"}
IN_HUB = {"bearing": "deep-groove", "wheels_on_axle": "loose", "hub_bore_mm": 62.0}
IN_HUB |= {"hub_tube_outside_mm": 76.0}
BUSH, BALL = {"bearing": "bush"}, {"bearing": "deep-groove"}
SHORT = BUSH | {"bush_length_mm": 6.0}
HARD = {"payload_kg": 9000.0, "lateral_share": 1.7}
STEEP = {"steepest_gradient_percent": 20.0}
# the check, the plain wheel with keys with which it is not passed, and a key that mends it
CASES: list[tuple[str, Keys, str]] = [
    ("axle-bending", {"payload_kg": 1650.0}, "wheel.hub_bore_mm = 40"),
    ("axle-bending", {"body_diameter_mm": 18.0}, "axle.body_diameter_mm = "),
    ("axle-fatigue", {"payload_kg": 1400.0}, "wheel.hub_bore_mm = "),
    ("axle-fatigue", {"retention": "weld", "payload_kg": 300.0}, 'axle.retention = "key"'),
    ("axle-slope", BALL, "wheel.hub_bore_mm = "),
    ("axle-spread", {"payload_kg": 2500.0}, "wheel.hub_bore_mm = "),
    ("bearing-life", BALL | {"km_per_year": 2000.0, "payload_kg": 1500.0}, '= "6207"'),
    ("bearing-static", {"payload_kg": 2500.0}, "wheel.hub_bore_mm = 50"),
    ("bearing-static", IN_HUB | {"payload_kg": 4000.0}, "axle.bearing_name = "),
    ("bearing-axial", BALL | {"lateral_share": 1.0, "payload_kg": 1500.0}, '= "6207"'),
    ("bush-pressure", SHORT, "axle.bush_length_mm = "),
    ("bush-edge", LOOSE | {"payload_kg": 900.0}, "wheel.hub_tube_length_mm = "),
    ("bush-pv", SHORT | {"max_speed_km_h": 25.0}, "wagon.max_speed_km_h = "),
    ("bush-pv", BUSH | {"bush_material": "polymer"}, 'axle.bush_material = "bronze"'),
    ("wheel-held", {"retention": "screws"}, 'axle.retention = "key"'),
    (
        "wheel-held",  # no room for its set screw, and the axle too thin: both in one
        {"diameter_mm": 20.0, "hub_bore_mm": 20.0, "hub_tube_outside_mm": 30.0}
        | {"hub_tube_length_mm": 46.0, "payload_kg": 1000.0, "retention": "key"},
        "axle.diameter_mm = 25, wheel.hub_tube_length_mm = ",
    ),
    ("wheel-held", BALL | {"wheels_on_axle": "loose"}, "axle.body_diameter_mm = "),
    ("press-hub", {"retention": "press"}, "wheel.steel = "),
    ("brake-adhesion", STEEP, "track.steepest_gradient_percent = "),
    ("coating-life", {"site": "coast"}, "use.years = 8"),
    ("disc-rim-stress", HARD | {"disc_thickness_mm": 2.0}, "wagon.payload_kg = "),
    ("flange-wear", {}, "use.years = "),  # an easier curve that would do is more than twice this
    ("flange-wear", {"min_curve_radius_m": 30.0}, "track.min_curve_radius_m = 46"),
    ("flange-window", {"min_curve_radius_m": 3.0}, "track.min_curve_radius_m = 6"),
    ("flange-window", {"back_to_back_mm": 580.0}, "axle.back_to_back_mm = "),
    ("torch-access", {"hub_tube_length_mm": 241.0}, "wheel.hub_tube_length_mm = 235"),
    ("tread-pressure-crowned", {"rail_head_radius_mm": 100.0}, "track.rail_head_radius_mm = "),
    ("weld-rim", {"payload_kg": 9000.0, "tread_width_mm": 35.0}, "wagon.payload_kg = "),
    ("weld-root", HARD, "wagon.payload_kg = "),
    ("weld-room", {"disc_field_inset_mm": 0.0}, "wheel.disc_field_inset_mm = "),
]
# nothing that is tried does: it is told of which keys
NEVER: list[tuple[str, Keys]] = [
    ("curve-room", {"min_curve_radius_m": 1.0, "wheelbase_mm": 3000.0}),
    ("flange-climb", {"lateral_share": 1.7}),
    ("ring-curvature", {"tread_thickness_mm": 40.0, "vent_circle_mm": 120.0}),
]
# sentences without a key of a job, and why
NO_KEY = {
    "rating-new": "not rated: why, and what of the wheel to change, as `Assessment` has it",
}
KEY = re.compile(r"\b(track|wagon|wheel|finish|use|axle|shop)\.([a-z]\w*)\b")

SET = re.compile(r"([a-z]+\.\w+) = (\[.*?\]|[^,]+)")


@cache
def asked(case: int) -> tuple[Setting, dict[str, CheckResult]]:
    """A case's setting, and its results as `check` tells them."""
    setting = running_setting(**[*CASES, *((id, keys, "") for id, keys in NEVER)][case][1])
    made = None if wheelset_faults(setting) else wheelset(setting)
    results = run_checks(setting)
    results += [] if made is None else run_wheelset_checks(setting, made)
    return setting, {one.id: one for one in with_cures(results, setting, made)}


def value(text: str) -> Any:
    """As the job file has it."""
    if text.startswith("["):
        return tuple(map(float, text.strip("[]").split(",")))
    return text.strip('"') if text.startswith('"') else float(text)


def badness(result: CheckResult) -> int:
    return len(WORST_FIRST) - 1 - WORST_FIRST.index(result.verdict)


@pytest.mark.parametrize("case", range(len(CASES)), ids=[one[0] for one in CASES])
def test_what_would_do_does_and_no_other_check_is_the_worse_for_it(case: int) -> None:
    id, _, named = CASES[case]
    setting, before = asked(case)
    assert before[id].verdict in ("warn", "fail")
    told = re.split("this would do: |ask for less and ", before[id].says, maxsplit=1)[1]
    assert named in told
    for way in told.split("; or "):
        keys = {key: value(said) for key, said in SET.findall(way)}
        other = with_keys(setting, keys)
        assert other is not None, way
        after = [*run_checks(other), *run_wheelset_checks(other, wheelset(other))]
        assert next((one.verdict for one in after if one.id == id), "pass") == "pass", way
        both = ((one, before[one.id]) for one in after if one.id in before.keys() - OWN_FACTORS)
        assert [one.id for one, was in both if badness(one) > badness(was)] == [], way


@pytest.mark.parametrize("case", range(len(NEVER)), ids=[one[0] for one in NEVER])
def test_where_no_value_does_the_keys_that_were_tried_are_told(case: int) -> None:
    id = NEVER[case][0]
    says = asked(len(CASES) + case)[1][id].says
    assert "; no value was found of " in says
    assert "this would do" not in says


def test_every_advice_names_a_key_of_the_job_file() -> None:
    """Over all checks of all these settings: `section.key`, one that there is."""
    seen: set[str] = set()
    for case in range(len(CASES) + len(NEVER)):
        setting, results = asked(case)
        for one in results.values():
            if one.verdict not in ("warn", "fail") or one.id in NO_KEY:
                continue
            seen.add(one.id)
            keys = KEY.findall(one.says)
            assert keys, (one.id, one.says)
            for section, name in keys:
                assert name in type(getattr(setting, section)).model_fields, (one.id, one.says)
    assert {*AXLE_WAYS} <= seen
    assert len(seen) > 40


def test_each_way_is_of_a_check_that_there_is() -> None:
    there = {id for case in range(len(CASES)) for id in asked(case)[1]}
    assert (WAYS.keys() | AXLE_WAYS.keys()) - there == {"middle-axle"}  # of three axles
