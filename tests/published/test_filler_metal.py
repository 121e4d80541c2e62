"""Weld metal and filler against welding handbooks' tables.

Sources, all from memory: weight of fillet weld metal (theoretical, equal legs) and length of wire
to the pound, as printed in welding handbooks and guides to gas-shielded welding; yield and
operating factor by process, the same.
"""

from __future__ import annotations

import math

import pytest

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.setting.costs import PROCESSES, Costs
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads

LB_KG, INCH_MM = 0.45359237, 25.4


def rim_beads_kg_per_m(leg_mm: float) -> float:
    """Mass of the two rim beads over the length of their centroids."""
    wheel = WheelSpec(
        tread_diameter_mm=600.0,
        tread_width_mm=120.0,
        tread_thickness_mm=16.0,
        flange_depth_mm=20.0,
        flange_angle_deg=70.0,
        flange_thickness_mm=12.0,
        disc_thickness_mm=16.0,
        disc_field_inset_mm=20.0,
        disc_gauge_inset_mm=20.0,
        hub_bore_mm=60.0,
        vent_circle_mm=500.0,
        fit_clearance_mm=0.0,
        weld_throat_mm=leg_mm / math.sqrt(2),
    )
    beads = [bead for bead in weld_beads(wheel) if bead.name.startswith("weld-disc")]
    assert len(beads) == 2
    metres = 2 * 2 * math.pi * (300 - 16 - leg_mm / 3) / 1000
    return sum(bead.volume_mm3 for bead in beads) * DENSITY_KG_MM3 / metres


@pytest.mark.parametrize(
    ("leg_in", "lb_per_ft"), [(3 / 16, 0.060), (1 / 4, 0.106), (5 / 16, 0.166), (3 / 8, 0.239)]
)
def test_weight_of_fillets(leg_in: float, lb_per_ft: float) -> None:
    expected = lb_per_ft * LB_KG / (12 * INCH_MM / 1000)
    assert rim_beads_kg_per_m(leg_in * INCH_MM) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(
    ("wire_in", "inches_per_lb"), [(0.030, 5050), (0.035, 3650), (0.045, 2210)]
)
def test_length_of_wire_to_the_pound(wire_in: float, inches_per_lb: float) -> None:
    area = math.pi / 4 * (wire_in * INCH_MM) ** 2
    kg = area * inches_per_lb * INCH_MM * DENSITY_KG_MM3
    assert kg == pytest.approx(LB_KG, rel=0.02)


def test_the_wire_speed_told_gives_the_deposition_told() -> None:
    told = Costs.model_fields["deposition_kg_per_h"].description or ""
    assert "wire 2 (1 mm at 5.7 m/min)" in told
    melted = math.pi / 4 * 1.0**2 * 5700 * 60 * DENSITY_KG_MM3
    wire = PROCESSES["wire"]
    assert wire.deposition_kg_per_h == pytest.approx(melted * wire.yield_percent / 100, rel=0.01)


def test_yields_and_operating_factors_lie_in_the_handbooks_ranges() -> None:
    rod, wire = PROCESSES["rod"], PROCESSES["wire"]
    assert 55 <= rod.yield_percent <= 65
    assert 92 <= wire.yield_percent <= 98
    assert 15 <= rod.arc_on_percent <= 30
    assert 25 <= wire.arc_on_percent <= 50
