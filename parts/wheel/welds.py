"""Weld beads as bodies of their own, so that mass and section are true. From outside: the second
disc closes the box, so nothing can be welded within it but the first disc before (`inside`).

The first disc is the gauge disc: it lies nearer to flange and rail, and its root limits the wheel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.parts.geometry.section import RZ, Section, revolved_volume_mm3
from platewheel.parts.wheel.flange import flange_section, segment_turn
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import seam_angle, tread_section
from platewheel.parts.wheel.weld_rules import BACKING_DEPTH_MM

if TYPE_CHECKING:
    import cadquery as cq


LEAST_LEG_MM = 0.1  # a shorter leg is no bead
INSIDE = "-inside"  # ends the name of a bead on a disc's inner face
FIRST_DISC: Side = "gauge"  # that is set first where it is welded on both sides


@dataclass(frozen=True)
class Bead:
    """One bead: a section turned from angle `start` through `turn` (radians).

    `wanted_mm` is the leg asked for, `legs_mm` the two that the parts leave room for.
    """

    name: str
    section: Section
    legs_mm: tuple[float, float]
    wanted_mm: float
    start: float = 0.0
    turn: float = 2 * math.pi

    @property
    def volume_mm3(self) -> float:
        return revolved_volume_mm3(self.section, self.turn)

    @property
    def fits(self) -> bool:
        """Whether both legs have the length asked for."""
        return min(self.legs_mm) >= self.wanted_mm - 1e-9

    def solid(self) -> cq.Solid:
        """The bead in its place on the wheel. Raises: GeometryError."""
        from platewheel.parts.geometry.solid import revolved

        return revolved(self.section, self.name, self.start, self.turn)


def bead_words(name: str) -> str:
    """A bead's name as a welder says it."""
    if name == "weld-root":
        return "bead between ring and flange"
    kind, _, rest = name.removeprefix("weld-").partition("-")
    side = rest.removesuffix(INSIDE)
    words = {"disc": f"rim bead of the {side} disc", "tube": f"tube bead at the {side} disc"}
    return ("inside " if side != rest else "") + words.get(kind, "butt weld of a seam")


def weld_beads(spec: WheelSpec) -> tuple[Bead, ...]:
    """Every bead of the wheel that has room to exist, in welding order; mm, mm3.

    >>> "weld-root" in [bead.name for bead in weld_beads(spec)]
    True

    A fillet beside an edge nearer than its leg has the shorter leg there (`fits` says so);
    one with no room at all, as at a disc flush with the edge, is left out: see `missing_beads`.
    """
    return tuple(bead for bead in _all_beads(spec) if min(bead.legs_mm) > LEAST_LEG_MM)


def missing_beads(spec: WheelSpec) -> tuple[Bead, ...]:
    """Fillets for which the parts leave no room at all."""
    return tuple(bead for bead in _all_beads(spec) if min(bead.legs_mm) <= LEAST_LEG_MM)


def _all_beads(spec: WheelSpec) -> list[Bead]:
    beads = [disc_fillet(spec, side) for side in SIDES]
    if spec.has_tube:
        beads += [tube_fillet(spec, side) for side in SIDES]
    beads.append(root_bead(spec))
    return [*inside_beads(spec), *beads, *seam_beads(spec)]


def inside_beads(spec: WheelSpec) -> list[Bead]:
    """Fillets on the inner face of the first disc; none where it is welded from outside alone."""
    if not spec.first_disc_both_sides:
        return []
    fillets = [disc_fillet, tube_fillet] if spec.has_tube else [disc_fillet]
    return [fillet(spec, FIRST_DISC, inside=True) for fillet in fillets]


def backing_run_mm3(spec: WheelSpec) -> float:
    """Weld metal of the second run behind the flange's root: a half-round groove, ground out of
    bead, ring and flange and filled flush, so that the wheel weighs no more. Source: Pappus."""
    if not spec.root_backed:
        return 0.0
    return 2 * math.pi * spec.tread_radius_mm * math.pi * BACKING_DEPTH_MM**2 / 2


def disc_fillet_legs_mm(spec: WheelSpec, side: Side) -> tuple[float, float]:
    """Legs of the fillet between disc and ring, on the ring as far as its edge, and on the disc."""
    inset = spec.disc_field_inset_mm if side == "field" else spec.disc_gauge_inset_mm
    return min(spec.weld_leg_mm, inset), spec.weld_leg_mm


def tube_fillet_legs_mm(spec: WheelSpec, side: Side) -> tuple[float, float]:
    """Legs of the fillet between disc and hub tube: on the tube, as far as its end, and on the
    disc. The tube stands out of both discs alike."""
    box = spec.tread_width_mm - spec.disc_field_inset_mm - spec.disc_gauge_inset_mm
    return min(spec.weld_leg_mm, (spec.hub_tube_length_mm - box) / 2), spec.weld_leg_mm


def root_legs_mm(spec: WheelSpec) -> tuple[float, float]:
    """Legs of the root bead, on ring and flange: no longer than their plates are thick."""
    root = spec.root_weld_mm
    return min(root, spec.tread_thickness_mm), min(root, spec.flange_thickness_mm)


def _face(spec: WheelSpec, side: Side, inside: bool) -> tuple[float, float]:
    """A face of a disc, outer or inner, and the direction off it."""
    low, high = disc_z_mm(spec, side)
    return (low, -1.0) if (side == "field") != inside else (high, 1.0)


def _name(joint: str, side: Side, inside: bool) -> str:
    return f"weld-{joint}-{side}" + (INSIDE if inside else "")


def disc_fillet(spec: WheelSpec, side: Side, *, inside: bool = False) -> Bead:
    """Fillet between a disc's outer or inner face and the ring."""
    face, out = _face(spec, side, inside)
    leg = spec.weld_leg_mm
    along = leg if inside else disc_fillet_legs_mm(spec, side)[0]
    tip = face + out * along
    # the leg on the disc starts at the ring, over the fit clearance: throat counts from there
    section: Section = (
        (spec.bore_radius_mm(face), face),
        (spec.bore_radius_mm(tip), tip),
        (spec.bore_radius_mm(face) - leg - spec.fit_clearance_mm, face),
    )
    return Bead(_name("disc", side, inside), section, (along, leg), leg)


def tube_fillet(spec: WheelSpec, side: Side, *, inside: bool = False) -> Bead:
    """Fillet between a disc's outer or inner face and the hub tube."""
    face, out = _face(spec, side, inside)
    leg = spec.weld_leg_mm
    along = leg if inside else tube_fillet_legs_mm(spec, side)[0]
    tube = spec.hub_tube_outside_mm / 2
    section: Section = (
        (tube, face),
        (tube + spec.fit_clearance_mm + leg, face),
        (tube, face + out * along),
    )
    return Bead(_name("tube", side, inside), section, (along, leg), leg)


def root_bead(spec: WheelSpec) -> Bead:
    """Fills the V between ring end and flange edge; both legs start at the root circle."""
    root = (spec.tread_radius_mm, spec.tread_width_mm)
    end_slope = 0.0 if spec.tread_from == "pipe" else spec.taper_half_angle
    on_ring, on_flange = root_legs_mm(spec)
    section: Section = (
        root,
        _step(root, spec.flange_angle, on_flange),
        _step(root, end_slope, on_ring),
    )
    return Bead("weld-root", section, (on_ring, on_flange), spec.root_weld_mm)


def _step(start: RZ, slope: float, length: float) -> RZ:
    """Point along a plate's square-cut edge, inwards from its outer face."""
    return start[0] - length * math.cos(slope), start[1] + length * math.sin(slope)


def seam_beads(spec: WheelSpec) -> list[Bead]:
    """Butt welds that fill the seam gaps of ring and flange, full section."""
    if spec.seam_gap_mm == 0:
        return []
    wall = spec.tread_thickness_mm
    beads = []
    if spec.tread_from != "pipe":
        turn = seam_angle(spec)
        section = tread_section(spec)
        beads.append(Bead("weld-seam-tread", section, (wall, wall), wall, -turn / 2, turn))
    plate, pitch = spec.flange_thickness_mm, 2 * math.pi / spec.flange_segments
    turn = pitch - segment_turn(spec)
    for i in range(spec.flange_segments):
        start = i * pitch - turn / 2
        section = flange_section(spec)
        beads.append(Bead(f"weld-seam-flange-{i + 1}", section, (plate, plate), plate, start, turn))
    return beads
