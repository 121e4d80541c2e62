"""What vent holes take from the discs: factors on an analysis whose discs have none.

The analysis turns a section about the axle, so it knows no holes. The factors are envelopes of a
study of our own with ten-node tetrahedra (`tests/bench/vent_study.py`, its figures in
`tests/parts/rating/test_vented_disc.py`): never below what it found by more than 5 %, within the
bounds that `vents_beyond` holds. Beyond them nothing was tried.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.so_many import so_many
from platewheel.parts.wheel.hub_disc import SIDES, disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import disc_fillet, tube_fillet

# Fitted to the study as envelopes; the study's figures and what each leaves are in its test.
EDGE, EDGE_WEB = 1.1, 0.22  # edges of vents: the second times vent diameter over web
TUBE, TUBE_POWER = 5.5, 4.2  # tube beads: tube radius over the vents' inner edge
RIM, RIM_POWER = 0.65, 4.0  # rim beads: the vents' outer edge over the ring's bore, and
TAKEN_POWER = 1.5  # what the vents take of their circle
OPENED = 2.4  # rim beads, roots bent open: by the same two
RIM_TOE, BESIDE_TOE = 1.04, 0.1  # toes of rim beads over what they carry; more beside a vent
ROOT, ROOT_OPENED = 0.045, 0.015  # bead of the flange: the ring bends over a vent at the patch
GIVE, GIVE_POWER = 1.2, 1.8  # of the flange: vent diameter over what lies from hub to ring

LEAST_EFFICIENCY = 0.075  # web between vents over their pitch, along the chord
LEAST_WEB = 0.65  # web between vents over the disc's thickness
MOST_BELOW_RIM = 0.25  # of the rim bead's leg that a vent may cut below
MOST_DEPTH = 0.82  # vent diameter over what lies between tube and ring


@dataclass(frozen=True)
class Vents:
    """Where the vents lie in a disc, mm, and the shares that the factors go by."""

    web_mm: float  # between two vents, along the chord; infinite for a single vent
    pitch_mm: float
    inner_mm: float  # radii of the nearest and farthest points of a vent
    outer_mm: float
    hub_mm: float  # outside radius of the tube, or of the hub hole
    bore_mm: float  # radius of the ring's bore, the lesser of the two discs'

    @property
    def efficiency(self) -> float:
        """Web over pitch: what the vents leave of their circle."""
        return self.web_mm / self.pitch_mm if math.isfinite(self.pitch_mm) else 1.0

    @property
    def depth(self) -> float:
        """Vent diameter over what lies between hub and ring."""
        return (self.outer_mm - self.inner_mm) / (self.bore_mm - self.hub_mm)


def vents_of(spec: WheelSpec) -> Vents:
    """The vents of either disc."""
    circle, radius = spec.vent_circle_mm / 2, spec.vent_diameter_mm / 2
    pitch = 2 * circle * math.sin(math.pi / spec.vent_count) if spec.vent_count > 1 else math.inf
    bore = min(spec.bore_radius_mm(disc_z_mm(spec, side)[0]) for side in SIDES)
    hub = spec.hub_tube_outside_mm if spec.has_tube else spec.hub_bore_mm
    return Vents(pitch - 2 * radius, pitch, circle - radius, circle + radius, hub / 2, bore)


def edge_factor(spec: WheelSpec) -> float:
    """On the stress at a vent's edge by plate theory of a small hole in a wide plate."""
    return float(EDGE + EDGE_WEB * spec.vent_diameter_mm / vents_of(spec).web_mm)


def bead_factor(spec: WheelSpec, bead: str, *, opened: bool = False) -> float:
    """On the force that a bead carries at its worst place; with `opened` on the stress of a root
    that is bent open. At least 1; 1 without vents."""
    if not spec.vent_count:
        return 1.0
    vents = vents_of(spec)
    if bead.startswith("weld-tube"):
        return float(1 + TUBE * (vents.hub_mm / vents.inner_mm) ** TUBE_POWER)
    if bead.startswith("weld-disc"):
        share = OPENED if opened else RIM
        taken = (1 - vents.efficiency) ** TAKEN_POWER
        return float(1 + share * taken * (vents.outer_mm / vents.bore_mm) ** RIM_POWER)
    if bead == "weld-root":
        share = ROOT_OPENED if opened else ROOT
        return 1 + share * spec.vent_diameter_mm / (vents.bore_mm - vents.outer_mm)
    return 1.0


def give_factor(spec: WheelSpec) -> float:
    """On what the flange gives under its push. At least 1; 1 without vents."""
    if not spec.vent_count:
        return 1.0
    vents = vents_of(spec)
    inwards = ((vents.hub_mm + vents.bore_mm) / spec.vent_circle_mm) ** 2
    return float(1 + GIVE * inwards * vents.depth**GIVE_POWER / math.sqrt(vents.efficiency))


def toe_factor(spec: WheelSpec, bead: str) -> float:
    """On the stress at a bead's toes. The rim of the field disc has little stress without vents,
    and so gains the larger share."""
    if not (spec.vent_count and bead.startswith("weld-disc")):
        return bead_factor(spec, bead)
    gap = (rim_toe_mm(spec) - vents_of(spec).outer_mm) / spec.disc_thickness_mm
    more = RIM_TOE + BESIDE_TOE * max(0.0, 1 - gap)
    return more * bead_factor(spec, bead, opened=bead == "weld-disc-field")


def vents_beyond(spec: WheelSpec) -> str:
    """Why the vents are beyond what the factors were found for, or nothing."""
    if not spec.vent_count:
        return ""
    vents = vents_of(spec)
    tube, rim = tube_toe_mm(spec), rim_toe_mm(spec) + MOST_BELOW_RIM * spec.weld_leg_mm
    web = max(LEAST_EFFICIENCY * vents.pitch_mm, LEAST_WEB * spec.disc_thickness_mm)
    room = vents.bore_mm - vents.hub_mm
    if vents.outer_mm > rim:
        found, most = (
            f"vents out to r {vents.outer_mm:.4g} mm",
            f"r {rim:.4g}, a quarter of the rim bead's leg",
        )
    elif vents.inner_mm < tube:
        found, most = f"vents in to r {vents.inner_mm:.4g} mm", f"r {tube:.4g}, the tube bead's toe"
    elif spec.vent_count > 1 and vents.web_mm < web:
        found = (
            f"{so_many(spec.vent_count, 'vent')} with webs of {vents.web_mm:.3g} mm between them"
        )
        most = f"webs from {web:.3g} mm"
    elif vents.depth > MOST_DEPTH:
        found = f"vents of {spec.vent_diameter_mm:.4g} mm"
        most = f"{MOST_DEPTH * room:.4g} mm, {MOST_DEPTH:g} of the {room:.4g} mm from hub to ring"
    else:
        return ""
    keys = "vent_count, vent_diameter_mm, vent_circle_mm"
    return f"{found}: the rating knows none beyond {most}; change {keys}"


def rim_toe_mm(spec: WheelSpec) -> float:
    """Least radius of a rim bead's toe on its disc."""
    return min(disc_fillet(spec, side).section[2][0] for side in SIDES)


def tube_toe_mm(spec: WheelSpec) -> float:
    """Greatest radius of a tube bead's toe on its disc; that of the hub hole without a tube."""
    if not spec.has_tube:
        return float(spec.hub_bore_mm / 2)
    return max(tube_fillet(spec, side).section[1][0] for side in SIDES)
