"""What welding takes off a ring's diameter, told before it is welded; mm of diameter.

Rules of thumb: a wheel shrinks by half to double of it (common practice, no source), so wheels are
measured again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.geometry.section import area_mm2
from platewheel.parts.wheel.flange import flange_section, seam_length_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads

BUTT_SOURCE = (
    "butt seam across: S = 0.2 A / t + 0.05 g, weld distortion notes after Lincoln / TWI, read "
    "(Blodgett 0.1 A / t, from memory); n seams round a closed ring: n S / pi of its diameter, "
    "plain geometry"
)
FILLET_SOURCE = (
    "fillet lengthwise: 0.8 mm in 3 m, TWI, from memory; ring and flange that shrink together: by "
    "their sections, plain statics"
)
FILLET_SHARE = 0.8 / 3000.0
BEVEL_OVER_MM, BEVEL_DEG = 4.0, 30.0  # as in the step that deburrs; half the thickness left
SURE_SHARES = (0.5, 2.0)  # of what is expected; common practice, no source


@dataclass(frozen=True)
class Shrinkage:
    """Off the tread diameter: `ring_seam_mm` before the ring is taped for the discs, the rest
    after it, the flange's seams as far as the ring follows them."""

    ring_seam_mm: float
    discs_mm: float
    flange_seams_mm: float
    root_mm: float

    @property
    def ring_seam_round_mm(self) -> float:
        """The first by tape. Source: pi times the diameter."""
        return math.pi * self.ring_seam_mm

    @property
    def after_mm(self) -> float:
        """From the ring as it was rolled and closed to the welded wheel."""
        return self.discs_mm + self.flange_seams_mm + self.root_mm

    @property
    def range_mm(self) -> tuple[float, float]:
        """Least and most of the same that surprises nobody."""
        return SURE_SHARES[0] * self.after_mm, SURE_SHARES[1] * self.after_mm


def weld_shrinkage(spec: WheelSpec) -> Shrinkage:
    """Of one wheel, from its drawn beads. Source: BUTT_SOURCE, FILLET_SOURCE."""
    lengthwise = FILLET_SHARE * spec.tread_diameter_mm
    names = [bead.name for bead in weld_beads(spec)]
    discs = sum(name.startswith("weld-disc") for name in names)
    roots = names.count("weld-root") + spec.root_backed
    ring = spec.tread_width_mm * spec.tread_thickness_mm
    flange = area_mm2(flange_section(spec))
    free = closed_ring_mm(
        spec.flange_segments if seam_length_mm(spec) else 0,
        seam_mm(spec.flange_thickness_mm, spec.seam_gap_mm),
    )
    own = 0.0 if spec.tread_from == "pipe" else seam_mm(spec.tread_thickness_mm, spec.seam_gap_mm)
    return Shrinkage(
        ring_seam_mm=closed_ring_mm(1, own),
        discs_mm=discs * lengthwise,
        flange_seams_mm=free * flange / (flange + ring),
        root_mm=roots * lengthwise,
    )


def seam_mm(thickness_mm: float, gap_mm: float) -> float:
    """What a butt seam draws together across. Its weld: the gap, and above BEVEL_OVER_MM a V of
    half the thickness. Source: BUTT_SOURCE."""
    return butt_mm(seam_area_mm2(thickness_mm, gap_mm), thickness_mm, gap_mm)


def seam_area_mm2(thickness_mm: float, gap_mm: float) -> float:
    """Section of a butt seam's weld: the gap, and the V of half the thickness where there is one.
    Source: plain geometry."""
    area = gap_mm * thickness_mm
    if thickness_mm > BEVEL_OVER_MM:
        area += (thickness_mm / 2) ** 2 * math.tan(math.radians(BEVEL_DEG))
    return area


def butt_mm(weld_mm2: float, thickness_mm: float, gap_mm: float) -> float:
    """Shrinkage across a butt weld of this section. Source: BUTT_SOURCE."""
    return 0.2 * weld_mm2 / thickness_mm + 0.05 * gap_mm


def closed_ring_mm(seams: int, each_mm: float) -> float:
    """Off the diameter of a ring that is so many times so much shorter round."""
    return seams * each_mm / math.pi
