"""What goes into one wheel, counted piece by piece: plate, edges, lengths, beads, tacks.

Each is a small function that reads only the dimensions it needs, so that many wheels are priced
by pricing each different piece once. Lengths mm, areas mm2, masses kg.
"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.making.tacks import tacks_of
from platewheel.parts.wheel.flange import seam_length_mm
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.hub_tube import tube_volume_mm3
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank, tread_volume_mm3
from platewheel.parts.wheel.welds import (
    LEAST_LEG_MM,
    Bead,
    backing_run_mm3,
    disc_fillet,
    inside_beads,
    root_bead,
    seam_beads,
    tube_fillet,
)


def tread_kg(wheel: WheelSpec) -> float:
    """Steel of the ring."""
    return tread_volume_mm3(wheel) * DENSITY_KG_MM3


def tread_length_mm(wheel: WheelSpec) -> float:
    """Length of bar that is rolled, or of pipe that is sawn off."""
    blank = tread_blank(wheel)
    return blank.sizes["length_mm"] if blank else wheel.tread_width_mm


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


def inside_beads_kg(wheel: WheelSpec) -> float:
    """The first disc's fillets inside the box; 0 where it is welded from outside alone."""
    return _kg(inside_beads(wheel))


def backing_run_kg(wheel: WheelSpec) -> float:
    """Weld metal behind the flange's root, in place of as much steel that is ground out."""
    return backing_run_mm3(wheel) * DENSITY_KG_MM3


def ground_m(wheel: WheelSpec) -> float:
    """Metres of weld that are ground for strength alone: the root's groove ground out and its run
    flush again; the ring's seam inside (outside the tread asks for it anyhow), the flange's seams
    on both faces."""
    ground = 0.0
    if wheel.root_backed:
        ground += 2 * math.pi * wheel.tread_diameter_mm
    if wheel.seam == "dressed":
        ground += wheel.tread_width_mm if wheel.tread_from != "pipe" else 0.0
        ground += 2 * seam_length_mm(wheel)
    return ground / 1000


def seams_kg(wheel: WheelSpec) -> float:
    """Butt welds of ring and flange."""
    return _kg(seam_beads(wheel))
