"""Weld beads: size, room, and that a wheel without room for them is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import Bead, missing_beads, weld_beads
from tests.parts.wheels import WHEELS, plain_wheel

every_wheel = pytest.mark.parametrize("spec", WHEELS.values(), ids=WHEELS.keys())


def beads_of(spec: WheelSpec) -> dict[str, Bead]:
    return {bead.name: bead for bead in weld_beads(spec)}


def test_every_joint_of_the_plain_wheel_has_its_bead() -> None:
    assert list(beads_of(plain_wheel())) == [
        "weld-disc-field",
        "weld-disc-gauge",
        "weld-tube-field",
        "weld-tube-gauge",
        "weld-root",
        "weld-seam-tread",
        "weld-seam-flange-1",
    ]
    assert missing_beads(plain_wheel()) == ()
    assert all(bead.fits for bead in weld_beads(plain_wheel()))


def test_a_pipe_has_no_seam_and_a_wheel_without_gaps_none_at_all() -> None:
    assert "weld-seam-tread" not in beads_of(WHEELS["pipe"])
    assert not [name for name in beads_of(WHEELS["washer"]) if name.startswith("weld-seam")]


@pytest.mark.parametrize("throat_mm", [3.0, 4.0, 5.0])
def test_the_throat_is_the_height_of_the_fillet(throat_mm: float) -> None:
    """Equal legs a sqrt 2 stand at right angles; their triangle is a high over its long side."""
    spec = plain_wheel(weld_throat_mm=throat_mm, fit_clearance_mm=0.0)
    for name in ("weld-disc-field", "weld-disc-gauge", "weld-tube-field", "weld-tube-gauge"):
        corners = beads_of(spec)[name].section
        sides = sorted(
            math.dist(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
        )
        assert sides[0] == pytest.approx(sides[1])
        area = sides[0] * sides[1] / 2
        assert 2 * area / sides[2] == pytest.approx(throat_mm)


def test_a_fillet_bridges_the_fit_clearance() -> None:
    """Its leg on the disc counts from the disc's rim, so the bead is wider by the gap."""
    tight, loose = (beads_of(plain_wheel(fit_clearance_mm=gap)) for gap in (0.0, 2.0))
    for name in ("weld-disc-field", "weld-tube-gauge"):
        spans = [
            max(r for r, _ in b[name].section) - min(r for r, _ in b[name].section)
            for b in (tight, loose)
        ]
        assert spans[1] - spans[0] == pytest.approx(2.0)


def test_short_room_shortens_the_leg_and_says_so() -> None:
    beads = beads_of(WHEELS["short-weld-room"])  # field inset 2 mm, gauge disc flush
    field = beads["weld-disc-field"]
    assert field.legs_mm[0] == pytest.approx(2.0)
    assert not field.fits
    assert min(z for _, z in field.section) == pytest.approx(0.0)
    assert [bead.name for bead in missing_beads(WHEELS["short-weld-room"])] == ["weld-disc-gauge"]
    assert "weld-disc-gauge" not in beads


def test_the_root_bead_stays_on_the_plates_it_joins() -> None:
    bead = beads_of(plain_wheel(root_weld_mm=20.0))["weld-root"]
    assert bead.legs_mm == (8.0, 6.0)  # wall of the ring, flange plate
    assert not bead.fits
    (r, z), (flange_r, flange_z), (ring_r, ring_z) = bead.section
    assert (r, z) == (150.0, 60.0)
    # flange edge: square to a plate at 70 degrees to the axle
    turn = math.radians(70)
    assert (flange_r, flange_z) == pytest.approx(
        (150 - 6 * math.cos(turn), 60 + 6 * math.sin(turn))
    )
    assert (ring_r, ring_z) == pytest.approx((142.0, 60.0))


@every_wheel
def test_bead_solids_have_the_volume_told(spec: WheelSpec) -> None:
    for bead in weld_beads(spec):
        solid = bead.solid()
        assert solid.isValid()
        assert solid.Volume() == pytest.approx(bead.volume_mm3, rel=1e-9)


SMALL: dict[str, Any] = {
    "tread_diameter_mm": 100.0,
    "tread_thickness_mm": 4.0,
    "vent_count": 0,
    "hub_bore_mm": 30.0,
    "hub_tube_outside_mm": 40.0,
}
NO_ROOM: dict[str, dict[str, Any]] = {
    # fillets of 14.1 mm on a disc with a land of 25 mm between tube and ring
    "fillets run into one another": {"weld_throat_mm": 10.0},
    # fillets of 28.3 mm on that land: the ring's reaches the tube, the tube's reaches the ring
    "ring's fillet runs into the tube": {"weld_throat_mm": 20.0},
    # no tube: fillets of 8.5 mm on a land of 5.5 mm between hub hole and rim
    "fillet closes the hub hole": {
        "hub_tube_length_mm": 0.0,
        "hub_bore_mm": 80.0,
        "weld_throat_mm": 6.0,
    },
    # 40 mm flange plate at 45 degrees reaches 28 mm inwards, to r = 32; the tube to r = 35
    "tube runs into the flange": {
        "tread_diameter_mm": 120.0,
        "flange_angle_deg": 45.0,
        "flange_thickness_mm": 40.0,
        "hub_tube_outside_mm": 70.0,
        "hub_tube_length_mm": 120.0,
        "weld_throat_mm": 2.0,
    },
}


@pytest.mark.parametrize("changes", NO_ROOM.values(), ids=NO_ROOM.keys())
def test_a_wheel_whose_hub_leaves_no_room_is_refused(changes: dict[str, Any]) -> None:
    """No two bodies may overlap, so such a wheel is impossible, not merely hard to weld."""
    with pytest.raises(SpecError):
        plain_wheel(**(SMALL | changes))
