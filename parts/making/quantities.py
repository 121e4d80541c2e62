"""What goes into one wheel, counted piece by piece: plate, edges, lengths, beads, tacks.

Each is a small function that reads only the dimensions it needs, so that many wheels are priced
by pricing each different piece once. Lengths mm, areas mm2, masses kg.
"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.making.tacks import tacks_of
from platewheel.parts.wheel.flange import blank_sweep_deg, flange_volume_mm3, slant_radii_mm
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_volume_mm3
from platewheel.parts.wheel.hub_tube import tube_volume_mm3
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank, tread_volume_mm3
from platewheel.parts.wheel.welds import (
    LEAST_LEG_MM,
    Bead,
    disc_fillet,
    root_bead,
    seam_beads,
    tube_fillet,
)

Plate = tuple[float, float, int]  # area, cut edge, pierces


def tread_kg(wheel: WheelSpec) -> float:
    """Steel of the ring."""
    return tread_volume_mm3(wheel) * DENSITY_KG_MM3


def tread_length_mm(wheel: WheelSpec) -> float:
    """Length of bar that is rolled, or of pipe that is sawn off."""
    blank = tread_blank(wheel)
    return blank.sizes["length_mm"] if blank else wheel.tread_width_mm


def tread_plate(wheel: WheelSpec) -> Plate:
    """A strip cut from sheet."""
    area = tread_volume_mm3(wheel) / wheel.tread_thickness_mm
    return area, 2 * (area / wheel.tread_width_mm + wheel.tread_width_mm), 1


def disc_plate(wheel: WheelSpec) -> Plate:
    """One disc with its holes, the larger of the two."""
    side = max(SIDES, key=lambda one: disc_diameter_mm(wheel, one))
    around = disc_diameter_mm(wheel, side) + wheel.hub_hole_diameter_mm
    edge = math.pi * (around + wheel.vent_count * wheel.vent_diameter_mm)
    area = disc_volume_mm3(wheel, side) / wheel.disc_thickness_mm
    return area, edge, 2 + wheel.vent_count


def segment_plate(wheel: WheelSpec) -> Plate:
    """One segment of the flange: two arcs and two ends."""
    inner, outer = slant_radii_mm(wheel)
    edge = math.radians(blank_sweep_deg(wheel)) * (inner + outer) + 2 * (outer - inner)
    return flange_volume_mm3(wheel) / wheel.flange_thickness_mm, edge, 1


def disc_room_mm2(wheel: WheelSpec, spacing_mm: float) -> float:
    """Plate that a disc takes among its like: a cell of the densest packing of circles, sqrt(3)/2
    of its square (Source: Thue, Fejes Toth), spacing between."""
    side = max(SIDES, key=lambda one: disc_diameter_mm(wheel, one))
    return math.sqrt(0.75) * (disc_diameter_mm(wheel, side) + spacing_mm) ** 2


def segment_room_mm2(wheel: WheelSpec, spacing_mm: float) -> float:
    """Plate that a flange segment takes among its like.

    Short segments are stacked along their middle line: chord x shift, where a shift p leaves
    p cos(half sweep) between the ends of two arcs. Long ones take a cell of packed circles, or
    that share of it; a disc as thick as the flange lies inside one that is nearly a ring, and is
    taken off. Source: plain geometry.
    """
    inner, outer = slant_radii_mm(wheel)
    half = math.radians(blank_sweep_deg(wheel)) / 2
    whole = math.sqrt(0.75) * (2 * outer + spacing_mm) ** 2
    share = whole / min(wheel.flange_segments, 2)
    if wheel.flange_segments == 1 and wheel.flange_thickness_mm == wheel.disc_thickness_mm:
        share -= disc_room_mm2(wheel, spacing_mm)
    if half >= math.pi / 2:
        return share
    stacked = 2 * outer * math.sin(half) * (outer - inner + spacing_mm) / math.cos(half)
    return min(share, stacked)


def tube_kg(wheel: WheelSpec) -> float:
    """Hub tube; 0 for none."""
    return tube_volume_mm3(wheel) * DENSITY_KG_MM3 if wheel.has_tube else 0.0


def tacks(wheel: WheelSpec) -> float:
    """Tacks of a wheel."""
    return float(tacks_of(wheel).all)


def _kg(beads: list[Bead]) -> float:
    there = [bead for bead in beads if min(bead.legs_mm) > LEAST_LEG_MM]
    return sum(bead.volume_mm3 for bead in there) * DENSITY_KG_MM3


def rim_beads_kg(wheel: WheelSpec) -> float:
    """Both discs' fillets at the ring."""
    return _kg([disc_fillet(wheel, side) for side in SIDES])


def tube_beads_kg(wheel: WheelSpec) -> float:
    """Both discs' fillets at the hub tube."""
    return _kg([tube_fillet(wheel, side) for side in SIDES]) if wheel.has_tube else 0.0


def root_bead_kg(wheel: WheelSpec) -> float:
    """The bead between ring and flange."""
    return _kg([root_bead(wheel)])


def seams_kg(wheel: WheelSpec) -> float:
    """Butt welds of ring and flange."""
    return _kg(seam_beads(wheel))
