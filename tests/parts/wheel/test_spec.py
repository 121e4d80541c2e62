"""Keys and values of a wheel are taken as they are or refused in words."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.refused import LINE, faults_of, only_fault
from tests.parts.wheels import PLAIN, plain_wheel

NUMBERS = sorted(
    key for key, field in WheelSpec.model_fields.items() if field.annotation in (float, int)
)


@pytest.mark.parametrize("key", NUMBERS)
@pytest.mark.parametrize(
    "value",
    [math.nan, math.inf, -math.inf, -1.0, "6 mm", "6", True, False, None, [6.0], 1e9, 10**400],
    ids=repr,
)
def test_no_number_key_takes_nonsense(key: str, value: object) -> None:
    fault = faults_of(**{key: value})[key]
    assert fault.allowed.startswith(("a number", "a whole number"))
    assert fault.advice


ABOVE_ZERO = [
    "tread_diameter_mm",
    "tread_width_mm",
    "tread_thickness_mm",
    "flange_depth_mm",
    "flange_angle_deg",
    "flange_thickness_mm",
    "disc_thickness_mm",
    "hub_bore_mm",
    "weld_throat_mm",
    "root_weld_mm",
]


@pytest.mark.parametrize("key", ABOVE_ZERO)
def test_zero_is_refused_where_it_leaves_nothing(key: str) -> None:
    assert faults_of(**{key: 0.0})[key].value == 0.0


def test_a_number_in_quotes_is_told_so() -> None:
    fault = only_fault("flange_depth_mm", flange_depth_mm="15 mm")
    assert "without quotes or unit" in fault.advice


@pytest.mark.parametrize("key", ["flange_segments", "vent_count"])
def test_a_count_is_whole(key: str) -> None:
    assert "a whole number" in only_fault(key, **{key: 2.5}).allowed


@pytest.mark.parametrize("value", [70, 90])
def test_a_whole_number_does_for_a_length(value: int) -> None:
    assert plain_wheel(flange_angle_deg=value).flange_angle == pytest.approx(math.radians(value))


@pytest.mark.parametrize(
    ("key", "nearest"),
    [
        ("flange_dept_mm", "flange_depth_mm"),
        ("tread_diametre_mm", "tread_diameter_mm"),
        ("vents_count", "vent_count"),
        ("steal", "steel"),
    ],
)
def test_an_unknown_key_names_the_nearest(key: str, nearest: str) -> None:
    fault = only_fault(key, **{key: 5.0})
    assert fault.advice == f"did you mean {nearest}?"
    assert nearest in fault.allowed


def test_an_unknown_key_like_none_is_to_be_removed() -> None:
    assert only_fault("qqq", qqq=1.0).advice == "remove it"


@pytest.mark.parametrize(
    ("key", "right", "unit"),
    [
        ("tread_diameter_in", "tread_diameter_mm", "mm"),
        ("tread_diameter_inch", "tread_diameter_mm", "mm"),
        ("tread_width_cm", "tread_width_mm", "mm"),
        ("flange_angle_rad", "flange_angle_deg", "degrees"),
        ("hub_bore", "hub_bore_mm", "mm"),
    ],
)
def test_a_wrong_unit_is_told_the_right_one(key: str, right: str, unit: str) -> None:
    fault = only_fault(key, **{key: 12.0})
    assert fault.allowed == f"{right}, in {unit}"
    assert right in fault.advice


@pytest.mark.parametrize("key", sorted(PLAIN))
def test_a_key_without_default_must_be_given(key: str) -> None:
    values = {name: value for name, value in PLAIN.items() if name != key}
    if not WheelSpec.model_fields[key].is_required() and key != "vent_circle_mm":
        values["hub_tube_length_mm"] = 0.0
        assert not WheelSpec(**values).has_tube
        return
    with pytest.raises(SpecError) as caught:
        WheelSpec(**values)
    assert [(fault.key, fault.value) for fault in caught.value.faults] == [(key, None)]
    assert "found nothing" in str(caught.value)


def test_a_wheel_without_vents_needs_no_circle_of_them() -> None:
    values = {name: value for name, value in PLAIN.items() if name != "vent_circle_mm"}
    assert WheelSpec(**values | {"vent_count": 0}).vent_circle_mm == 0.0
    with pytest.raises(SpecError) as caught:  # told beside a fault of another key
        WheelSpec(**values | {"disc_thickness_mm": -1.0})
    assert {fault.key for fault in caught.value.faults} == {"disc_thickness_mm", "vent_circle_mm"}


def test_several_faults_are_told_at_once() -> None:
    faults = faults_of(
        flange_angle_deg=30.0,
        vent_circle_mm=60.0,
        hub_tube_length_mm=10.0,
        steel="mild",
        flange_dept_mm=15.0,
    )
    assert set(faults) == {
        "flange_angle_deg",
        "vent_circle_mm",
        "hub_tube_length_mm",
        "steel",
        "flange_dept_mm",
    }


def test_a_rule_on_bad_input_is_not_run() -> None:
    """Vents cannot be judged against a diameter that is no number: no fault invented."""
    assert list(faults_of(tread_diameter_mm="big", vent_circle_mm=5.0)) == ["tread_diameter_mm"]


def test_rules_on_good_input_are_still_run() -> None:
    faults = faults_of(tread_diameter_mm="big", hub_tube_length_mm=10.0)
    assert set(faults) == {"tread_diameter_mm", "hub_tube_length_mm"}


JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    st.lists(st.integers(), max_size=2),
    st.sampled_from(["sheet", "bar", "pipe", "S235", 0.0, 5e-324, 1e-300, 1e300]),
)


@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.dictionaries(st.sampled_from(sorted(WheelSpec.model_fields)), JUNK, max_size=6))
def test_whatever_is_given_is_taken_or_refused_in_words(changes: dict[str, Any]) -> None:
    spec: WheelSpec | None = None
    faults: tuple[Fault, ...] = ()
    try:
        spec = plain_wheel(**changes)
    except SpecError as refused:
        faults = refused.faults
    if spec is None:
        assert faults
        assert all(LINE.match(str(fault).replace("\n", " ")) for fault in faults)
        return
    for key, value in changes.items():  # nothing clamped or replaced in silence
        assert getattr(spec, key) == value


EDGES: dict[str, dict[str, Any]] = {
    "flat washer without a gap": {"flange_angle_deg": 90.0, "seam_gap_mm": 0.0},
    "least flange angle": {"flange_angle_deg": 45.0},
    "no tube": {"hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0},
    "no vents": {"vent_count": 0, "vent_diameter_mm": 0.0, "vent_circle_mm": 0.0},
    "tube flush with the discs": {"hub_tube_length_mm": 44.0},
    "discs flush with the edges": {"disc_field_inset_mm": 0.0, "disc_gauge_inset_mm": 0.0},
    "no clearance": {"fit_clearance_mm": 0.0},
    "twelve segments": {"flange_segments": 12},
    "bar": {"tread_from": "bar"},
    "tapered pipe down to half the wall": {"tread_from": "pipe", "tread_taper_1_in": 15.0},
    "steepest taper": {"tread_taper_1_in": 5.0, "vent_circle_mm": 200.0},
    "slightest taper": {"tread_taper_1_in": 1000.0},
}


@pytest.mark.parametrize("changes", EDGES.values(), ids=EDGES.keys())
def test_good_edge_cases_are_taken(changes: dict[str, Any]) -> None:
    spec = plain_wheel(**changes)
    for key, value in changes.items():
        assert getattr(spec, key) == value


def test_a_spec_is_frozen() -> None:
    spec = plain_wheel()
    with pytest.raises(ValueError, match="frozen"):
        spec.tread_diameter_mm = 400.0  # type: ignore[misc]


@pytest.mark.parametrize(
    "changes",
    [
        {"vent_circle_mm": 70.0},
        {"vent_circle_mm": 270.0},
        {"hub_tube_length_mm": 20.0},
    ],
    ids=repr,
)
def test_the_advice_with_a_number_works(changes: dict[str, Any]) -> None:
    ((key, fault),) = faults_of(**changes).items()
    advised = re.match(rf"{key} = ([\d.]+)", fault.advice)
    assert advised
    plain_wheel(**{key: float(advised[1])})


def test_a_vent_without_diameter_is_told_of_the_diameter() -> None:
    """The circle is good; what is wrong is a hole of 0 mm."""
    assert only_fault("vent_diameter_mm", vent_diameter_mm=0.0).value == 0.0


def test_a_fraction_for_a_count_shows_that_it_is_one() -> None:
    """'found 2; allowed: a whole number' would be a riddle."""
    assert "found 2.0" in str(only_fault("flange_segments", flange_segments=2.0))


@pytest.mark.parametrize("taper", [0.001, 1.0, 4.99])
def test_a_taper_out_of_range_is_one_fault(taper: float) -> None:
    """No follow-up faults with absurd limits computed from the taper that is refused."""
    only_fault("tread_taper_1_in", tread_taper_1_in=taper)


@pytest.mark.parametrize("clearance", [0.0, 0.01, 0.5])
def test_a_clearance_that_can_be_made(clearance: float) -> None:
    assert plain_wheel(fit_clearance_mm=clearance).fit_clearance_mm == clearance


@pytest.mark.parametrize("clearance", [5e-324, 1e-5, 0.0099])
def test_a_clearance_that_nobody_can_measure(clearance: float) -> None:
    """Discs and ring so near that the stress mesh took their edges for one."""
    with pytest.raises(SpecError, match=r"0, edges touching, or 0\.01 mm and more"):
        plain_wheel(fit_clearance_mm=clearance)
