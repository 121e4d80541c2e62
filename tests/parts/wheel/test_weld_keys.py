"""Keys that make the welds stronger: the beads they add, the wheels they are refused for."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.assembly import weld_mass_kg, wheel_mass_kg
from platewheel.parts.wheel.hub_disc import disc_z_mm
from platewheel.parts.wheel.welds import (
    Bead,
    backing_run_mm3,
    bead_words,
    inside_beads,
    missing_beads,
    weld_beads,
)
from tests.parts.wheels import WHEELS, plain_wheel

BOTH = plain_wheel(first_disc_both_sides=True)


def test_the_inside_beads_are_laid_first() -> None:
    names = [bead.name for bead in weld_beads(BOTH)]
    assert names[:2] == ["weld-disc-gauge-inside", "weld-tube-gauge-inside"]
    assert names[2:] == [bead.name for bead in weld_beads(plain_wheel())]
    assert missing_beads(BOTH) == ()
    assert bead_words(names[0]) == "inside rim bead of the gauge disc"
    assert bead_words(names[1]) == "inside tube bead at the gauge disc"


def test_without_a_tube_only_the_rim_has_a_bead_inside() -> None:
    bare: dict[str, Any] = {"hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0}
    spec = plain_wheel(first_disc_both_sides=True, **bare)
    assert [bead.name for bead in inside_beads(spec)] == ["weld-disc-gauge-inside"]


def test_an_inside_bead_is_the_outside_one_seen_in_the_disc_as_a_mirror() -> None:
    beads: dict[str, Bead] = {bead.name: bead for bead in weld_beads(BOTH)}
    middle = sum(disc_z_mm(BOTH, "gauge")) / 2
    for joint in ("disc", "tube"):
        outside, inside = (beads[f"weld-{joint}-gauge{end}"] for end in ("", "-inside"))
        assert max(z for _, z in inside.section) <= min(z for _, z in outside.section)
        mirrored = [(r, 2 * middle - z) for r, z in outside.section]
        assert inside.section == tuple(pytest.approx(corner) for corner in mirrored)
        assert inside.volume_mm3 == pytest.approx(outside.volume_mm3)


def test_it_weighs_what_its_beads_weigh_more() -> None:
    more = sum(bead.volume_mm3 for bead in inside_beads(BOTH)) * 7.85e-6
    assert wheel_mass_kg(BOTH) - wheel_mass_kg(plain_wheel()) == pytest.approx(more)
    assert weld_mass_kg(BOTH) - weld_mass_kg(plain_wheel()) == pytest.approx(more)


def test_a_backing_run_fills_what_was_ground_out() -> None:
    """Half a circle of 2 mm radius on the tread's circle (Pappus); the wheel weighs the same."""
    backed = plain_wheel(root_backed=True)
    assert backing_run_mm3(backed) == pytest.approx(2 * math.pi * 2 * 300 * math.pi / 2)
    assert backing_run_mm3(plain_wheel()) == 0.0
    assert wheel_mass_kg(backed) == wheel_mass_kg(plain_wheel())
    assert weld_beads(backed) == weld_beads(plain_wheel())


REFUSED: dict[str, tuple[str, dict[str, Any]]] = {
    "a thin flange has no root left": ("root_backed", {"flange_thickness_mm": 3.9}),
    "a thin ring has no root left": ("root_backed", {"tread_thickness_mm": 3.9}),
    "a small bead has no root left": ("root_backed", {"root_weld_mm": 3.9}),
    # 60 - 2 x 8 - 2 x 18 = 8 mm between the discs, fillets of 8.5 mm
    "discs too close": (
        "first_disc_both_sides",
        {"disc_thickness_mm": 18.0, "weld_throat_mm": 6.0},
    ),
    # the field edge is 8 / 10 = 0.8 mm narrower than the field disc's place, clearance 0.5 mm
    "second disc does not go in": ("first_disc_both_sides", {"tread_taper_1_in": 10.0}),
    "no seam at all": (
        "seam",
        {"tread_from": "pipe", "flange_angle_deg": 90.0, "seam_gap_mm": 0.0},
    ),
}
ON: dict[str, Any] = {"root_backed": True, "first_disc_both_sides": True, "seam": "dressed"}


@pytest.mark.parametrize(("key", "changes"), REFUSED.values(), ids=REFUSED.keys())
def test_a_key_that_the_wheel_cannot_have(key: str, changes: dict[str, Any]) -> None:
    with pytest.raises(SpecError) as caught:
        plain_wheel(**changes, **{key: ON[key]})
    assert [fault.key.rpartition(".")[2] for fault in caught.value.faults] == [key]
    plain_wheel(**changes)  # without the key it can be made


@pytest.mark.parametrize(
    ("key", "changes"),
    [
        ("root_backed", {"flange_thickness_mm": 4.0}),
        ("root_backed", {"root_weld_mm": 4.0}),
        ("first_disc_both_sides", {"tread_taper_1_in": 16.0}),  # 8 / 16 is the clearance
        ("first_disc_both_sides", {"tread_taper_1_in": 15.0, "tread_from": "pipe"}),
        ("first_disc_both_sides", {"disc_thickness_mm": 17.7, "weld_throat_mm": 6.0}),
        ("seam", {"tread_from": "pipe"}),
        ("seam", {"flange_angle_deg": 90.0, "seam_gap_mm": 0.0}),
    ],
)
def test_a_key_that_the_wheel_just_takes(key: str, changes: dict[str, Any]) -> None:
    assert getattr(plain_wheel(**changes, **{key: ON[key]}), key) == ON[key]


def test_the_shared_wheel_has_all_of_it() -> None:
    assert {key: getattr(WHEELS["both-sides"], key) for key in ON} == ON
