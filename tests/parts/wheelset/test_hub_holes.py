"""Keyways and screws: where they are, against hub, axle and handbook."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.wheelset.hub_holes import DRILL_MM, PITCH_MM, key_place, screw_place
from tests.parts.checks.running.settings import running_setting


# ISO 2306, drills for coarse threads (tables of workshop handbooks)
def test_drills_are_the_thread_less_its_pitch() -> None:
    for screw, pitch in PITCH_MM.items():
        assert DRILL_MM[screw] == pytest.approx(screw - pitch, abs=0.06)
    assert [DRILL_MM[size] for size in (5.0, 6.0, 8.0, 10.0, 12.0, 16.0)] == [
        4.2,
        5.0,
        6.8,
        8.5,
        10.2,
        14.0,
    ]


def test_the_key_of_35_mm_lies_under_the_hub() -> None:
    """ISO 773: 10 x 8, 5 deep in the axle, 3.3 in the hub. The axle's end to the hub's outer end
    is half the axle less where the hub ends."""
    setting = running_setting(retention="key")
    made = wheelset(setting)
    key = key_place(setting, made)
    assert key is not None
    assert (key.width_mm, key.height_mm, key.length_mm) == (10, 8, 70)
    assert (key.axle_over_mm, key.hub_over_mm) == (30, 38.3)
    assert key.from_axle_end_mm == pytest.approx(made.axle_length_mm / 2 - made.hub_z_mm[1])
    inner = key.from_axle_end_mm + key.length_mm
    assert inner == pytest.approx(made.axle_length_mm / 2 - made.hub_z_mm[0])


@given(
    st.sampled_from(["key", "screws", "collar"]),
    st.floats(60, 140),
    st.sampled_from(["inside", "outside"]),
    st.floats(2, 20),
)
def test_screws_lie_in_what_they_hold(way: str, tube: float, frames: str, inset: float) -> None:
    keys = {"hub_tube_length_mm": tube, "frames": frames, "disc_field_inset_mm": inset}
    keys |= {"wheels_on_axle": "loose"} if way == "collar" else {"retention": way}
    try:
        setting = running_setting(**keys)
        made = wheelset(setting)
    except SpecError:
        assume(False)
        raise
    screw = screw_place(setting, made)
    if screw is None:
        return
    z = made.axle_length_mm / 2 - screw.from_axle_end_mm
    if way == "collar":
        (middle,) = (row[4] for row in made.spacers if row[0] == "collar-right")
        assert z == pytest.approx(middle)
        return
    low, high = made.hub_z_mm
    assert low + screw.screw_mm / 2 <= z <= high - screw.screw_mm / 2
    nearest = high - z if "field" in screw.where else z - low
    assert nearest == pytest.approx(screw.from_end_mm)


def test_nothing_is_drilled_for_a_weld() -> None:
    setting = running_setting(retention="weld")
    made = wheelset(setting)
    assert key_place(setting, made) is None
    assert screw_place(setting, made) is None
