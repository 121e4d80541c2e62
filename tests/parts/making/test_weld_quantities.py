"""Weld metal and grinding that the keys for stronger welds ask for, by closed forms."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.making.quantities import backing_run_kg, ground_m, inside_beads_kg
from platewheel.parts.making.weld_metal import weld_metal
from platewheel.parts.setting.costs import Costs
from tests.parts.wheels import plain_wheel

BOTH = plain_wheel(first_disc_both_sides=True, fit_clearance_mm=0.0)
BARE = Costs(bead_excess_percent=0.0)


def test_inside_beads_are_two_triangles_turned() -> None:
    """Equal legs 3 sqrt 2 on the bore of 142 and on the tube of 28.5; Pappus."""
    leg = 3 * math.sqrt(2)
    swept = 2 * math.pi * (142 - leg / 3 + 28.5 + leg / 3) * leg**2 / 2
    assert inside_beads_kg(BOTH) == pytest.approx(swept * 7.85e-6)
    assert inside_beads_kg(plain_wheel()) == 0.0


def test_a_backing_run_is_weld_metal_to_buy_and_to_wait_for() -> None:
    backed, plain = plain_wheel(root_backed=True), plain_wheel()
    run = 2 * math.pi * 150 * math.pi * 2**2 / 2 * 7.85e-6  # half-round of 2 mm on the tread
    assert backing_run_kg(backed) == pytest.approx(run)
    more = weld_metal(backed, BARE).deposited_kg - weld_metal(plain, BARE).deposited_kg
    assert more == pytest.approx(run)
    more = weld_metal(BOTH, BARE).deposited_kg
    more -= weld_metal(plain_wheel(fit_clearance_mm=0.0), BARE).deposited_kg
    assert more == pytest.approx(inside_beads_kg(BOTH))


def test_metres_ground() -> None:
    """Root: 300 pi, twice. Seams: the ring's 60 mm inside; the flange's 15 / sin 70, both faces."""
    assert ground_m(plain_wheel()) == 0.0
    assert ground_m(plain_wheel(root_backed=True)) == pytest.approx(0.6 * math.pi)
    slant = 15 / math.sin(math.radians(70))
    dressed = plain_wheel(seam="dressed", flange_segments=3)
    assert ground_m(dressed) == pytest.approx((60 + 6 * slant) / 1000)
    pipe = plain_wheel(seam="dressed", tread_from="pipe")
    assert ground_m(pipe) == pytest.approx(2 * slant / 1000)
