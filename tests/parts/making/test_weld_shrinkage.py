"""What welding takes off a ring, against published allowances and by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.making.weld_shrinkage import (
    butt_mm,
    closed_ring_mm,
    seam_mm,
    weld_shrinkage,
)
from tests.parts.wheels import WHEELS, plain_wheel


# TWI, allowances for shrinkage, from memory: butt welds 1.5 to 3 mm a weld for a 60 degree V.
# Blodgett, Design of Welded Structures, from memory: 0.1 A / t, about half of it.
@pytest.mark.parametrize("thickness_mm", [10.0, 12.0, 15.0, 20.0])
def test_a_full_v_shrinks_as_published(thickness_mm: float) -> None:
    gap = 2.0
    weld = thickness_mm**2 * math.tan(math.radians(30)) + gap * thickness_mm
    found = butt_mm(weld, thickness_mm, gap)
    assert 1.5 <= found <= 3.0
    assert found - 0.05 * gap == pytest.approx(2 * 0.1 * weld / thickness_mm)


def test_a_seam_by_hand() -> None:
    # 8 mm, gap 2: 16 mm2 of gap, a V of 60 degrees 4 mm deep 9.2376 mm2: 0.2 x 25.24 / 8 + 0.1
    assert seam_mm(8.0, 2.0) == pytest.approx(0.730940, abs=1e-5)
    # 4 mm is not bevelled: 0.2 x 8 / 4 + 0.1
    assert seam_mm(4.0, 2.0) == pytest.approx(0.5)
    # three seams of 1 mm make a ring 3 mm shorter round
    assert closed_ring_mm(3, 1.0) * math.pi == pytest.approx(3.0)


def test_a_wheel_by_hand() -> None:
    """300 mm: a fillet round it is 942.5 mm long, 0.8 mm in 3 m of it: 0.2513 round, 0.08 across
    (TWI, from memory). The flange of 5 mm follows with its share of the section."""
    wheel = plain_wheel(
        tread_thickness_mm=8.0, seam_gap_mm=2.0, flange_segments=3, root_backed=False
    )
    found = weld_shrinkage(wheel)
    assert found.ring_seam_mm == pytest.approx(0.730940 / math.pi, abs=1e-5)
    assert found.ring_seam_round_mm == pytest.approx(0.730940, abs=1e-5)  # by tape: the seam's own
    fillets = 3 if wheel.first_disc_both_sides else 2
    assert found.discs_mm == pytest.approx(fillets * 0.08)
    assert found.root_mm == pytest.approx(0.08)
    plate, slant = wheel.flange_thickness_mm, wheel.flange_depth_mm / math.sin(wheel.flange_angle)
    flange, ring = plate * slant, 8.0 * wheel.tread_width_mm
    free = 3 * seam_mm(plate, 2.0) / math.pi
    assert found.flange_seams_mm == pytest.approx(free * flange / (flange + ring))
    assert found.after_mm == pytest.approx(found.discs_mm + found.root_mm + found.flange_seams_mm)
    assert found.range_mm == pytest.approx((found.after_mm / 2, 2 * found.after_mm))


def test_what_is_not_welded_shrinks_nothing() -> None:
    assert weld_shrinkage(plain_wheel(tread_from="pipe")).ring_seam_mm == 0.0
    assert weld_shrinkage(WHEELS["washer"]).flange_seams_mm == 0.0
    bare, backed = (
        weld_shrinkage(plain_wheel(root_backed=backed)).root_mm for backed in (False, True)
    )
    assert backed == pytest.approx(2 * bare)


@pytest.mark.parametrize("name", WHEELS)
def test_every_wheel_shrinks_by_less_than_is_refused_as_nonsense(name: str) -> None:
    wheel = WHEELS[name]
    assert weld_shrinkage(wheel).after_mm > 0
    assert weld_shrinkage(wheel).range_mm[1] < 0.01 * wheel.tread_diameter_mm
