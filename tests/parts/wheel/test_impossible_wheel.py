"""Wheels that cannot be made are refused, in words that tell how to put them right."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.parts.refused import faults_of, only_fault
from tests.parts.wheels import plain_wheel

IMPOSSIBLE: list[tuple[str, dict[str, Any], object, str, str]] = [
    # key at fault, changes to the plain wheel, value told, words of what is allowed, of the advice
    ("flange_angle_deg", {"flange_angle_deg": 44.9}, 44.9, "from 45 up to 90 deg", "70"),
    ("flange_angle_deg", {"flange_angle_deg": 90.1}, 90.1, "from 45 up to 90 deg", "70"),
    ("vent_circle_mm", {"vent_circle_mm": 70.0}, 70.0, "above 74 and below 267", "249"),
    ("vent_circle_mm", {"vent_circle_mm": 270.0}, 270.0, "above 74 and below 267", "249"),
    (
        "disc_field_inset_mm + disc_gauge_inset_mm",
        {"disc_field_inset_mm": 24.0, "disc_gauge_inset_mm": 24.0},
        48.0,
        "below 48 mm",
        "smaller insets",
    ),
    ("hub_tube_length_mm", {"hub_tube_length_mm": 43.9}, 43.9, "at least 44 mm", "= 56"),
    ("hub_tube_outside_mm", {"hub_tube_outside_mm": 35.0}, 35.0, "above hub_bore_mm, 35", "larger"),
    ("hub_tube_outside_mm", {"hub_tube_outside_mm": 30.0}, 30.0, "above hub_bore_mm, 35", "larger"),
    (
        "vent_count",
        {"vent_count": 24, "vent_diameter_mm": 32.0},
        24,
        "do not meet",
        "fewer or smaller",
    ),
    (
        "tread_taper_1_in",
        {"tread_taper_1_in": 20.0, "tread_from": "bar"},
        20.0,
        "0 with tread_from",
        'tread_from = "sheet"',
    ),
    (
        "tread_taper_1_in",
        {"tread_taper_1_in": 14.0, "tread_from": "pipe"},
        14.0,
        "at least 15",  # 2 W / t = 2 x 60 / 8
        "thicker pipe",
    ),
    ("tread_taper_1_in", {"tread_taper_1_in": 4.0}, 4.0, "from 5 (steep) to 1000", "20"),
    ("seam_gap_mm", {"seam_gap_mm": 10.5}, 10.5, "from 0 up to 10 mm", "2"),
    ("flange_segments", {"flange_segments": 13}, 13, "a whole number from 1 up to 12", "3"),
    ("flange_segments", {"flange_segments": 0}, 0, "a whole number from 1 up to 12", "3"),
    ("vent_count", {"vent_count": -1}, -1, "a whole number from 0 up to 24", "4"),
    ("tread_from", {"tread_from": "casting"}, "casting", '"sheet" | "bar" | "pipe"', '"sheet"'),
    ("steel", {"steel": "S460"}, "S460", '"S235" | "S275" | "S355"', '"S235"'),
    ("hub_bore_mm", {"hub_bore_mm": 0.0}, 0.0, "above 0 up to 500 mm", "35"),
]


@pytest.mark.parametrize(("key", "changes", "value", "allowed", "advice"), IMPOSSIBLE)
def test_an_impossible_wheel_is_refused(
    key: str, changes: dict[str, Any], value: object, allowed: str, advice: str
) -> None:
    fault = only_fault(key, **changes)
    assert fault.value == value
    assert allowed in fault.allowed
    assert advice in fault.advice


def test_a_wall_too_thick_for_discs() -> None:
    fault = faults_of(tread_diameter_mm=100.0, tread_thickness_mm=20.0)["tread_thickness_mm"]
    assert fault.value == 20.0
    assert "below 20 mm" in fault.allowed  # 0.4 x radius 50
    assert "thinner wall" in fault.advice


def test_a_hub_larger_than_the_disc() -> None:
    # disc: 300 - 2 x 8 - 2 x 0.5
    fault = faults_of(hub_bore_mm=283.0, hub_tube_length_mm=0.0, vent_count=0)["hub_bore_mm"]
    assert "below the disc's 283 mm" in fault.allowed


def test_vents_wider_than_their_room_say_how_wide() -> None:
    """Disc 300 - 2 x 8 - 2 x 0.5 = 283 and hub hole 250: no 16.5 mm hole fits on any circle."""
    wide = {"hub_bore_mm": 230.0, "hub_tube_outside_mm": 249.0, "vent_diameter_mm": 18.0}
    fault = faults_of(**wide)["vent_diameter_mm"]
    assert "below 16.5 mm" in fault.allowed
    assert "vent_circle_mm" not in faults_of(**wide)


def test_a_tapered_ring_has_smaller_discs() -> None:
    """The field disc sits where the bore is least: 1 in 20 over 52 mm takes 2.6 mm of radius."""
    bore_mm = 2 * (150 - 52 / 20 - 8 / math.cos(math.atan(1 / 20)) - 0.5)
    plain_wheel(tread_taper_1_in=20.0, vent_circle_mm=bore_mm - 16 - 0.01)
    assert only_fault("vent_circle_mm", tread_taper_1_in=20.0, vent_circle_mm=bore_mm - 16 + 0.01)


def test_a_flange_gap_that_eats_its_segments() -> None:
    """60 mm wheel, 12 segments: 15.7 mm a segment, a quarter is 3.93 mm."""
    small: dict[str, Any] = {
        "tread_diameter_mm": 60.0,
        "tread_thickness_mm": 3.0,
        "hub_bore_mm": 10.0,
        "hub_tube_outside_mm": 15.0,
        "vent_count": 0,
        "flange_segments": 12,
    }
    plain_wheel(**small, seam_gap_mm=3.9)
    fault = only_fault("seam_gap_mm", **small, seam_gap_mm=4.0)
    assert "below 3.927 mm" in fault.allowed
