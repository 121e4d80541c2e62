"""Detail class of every weld of the wheel: the stress range that it bears 2e6 times, N/mm2, for
the way in which that weld's stress is taken, and where the class comes from.

The EN classes below 90 of butt welds do not ask for a weld that has been tested, only for one
that is sound; those from 112 do, and no wheel here is taken for tested.
"""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.wheel.flange import seam_length_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import bead_words, weld_beads

ROOT = "weld-root"


@dataclass(frozen=True)
class DetailClass:
    """A class, the stress that it is for, its source; `slope` of its curve up to the knee."""

    fat_n_mm2: float
    stress: str
    source: str
    slope: int = 3


TOE = DetailClass(
    90.0,
    "hot-spot stress in the plate at the toe, whole range",
    "load-carrying fillet, hot-spot stress: IIW (Hobbacher), from memory",
)
FILLET_ROOT = DetailClass(
    36.0,
    "force over the throat, whole range",
    "root of a fillet or of partial penetration: EN 1993-1-9 table 8.5, from memory",
)
OPENED_ROOT = DetailClass(
    80.0,
    "force and bending over the throat, what pulls the root open",
    "root, linear stress over the throat: Fricke, IIW, from memory",
)
WHOLE_ROOT = DetailClass(
    80.0,
    "force and bending over the throat, whole range",
    "as the opened root; as welded compression counts in full: EN 1993-1-9:2005, 7.2.1, which "
    "lessens it for stress-relieved welds alone; from memory",
)
BACKED_ROOT = DetailClass(
    90.0,
    "force and bending over the throat, whole range",
    "T joint of full penetration, structural stress: IIW (Hobbacher) 100, a class less for a "
    "groove that nobody inspects; EN 1993-1-9 table 8.5 has 71 to 80 for nominal stress without "
    "the bending of the joint; from memory",
)
SHEAR = DetailClass(
    80.0,
    "shear along the throat",
    "weld in shear, EN 1993-1-9 table 8.5, slope 5, used without its cut-off at 1e8; from memory",
    slope=5,
)
SEAM_AS_WELDED = DetailClass(
    80.0,
    "stress across the seam at a face of the plate, whole range",
    "butt weld from both sides, crown to a fifth of its width: EN 1993-1-9 table 8.3; from memory",
)
SEAM_DRESSED = DetailClass(
    90.0,
    "stress across the seam at a face of the plate, whole range",
    "butt weld from both sides, EN 1993-1-9 table 8.3: 112 ground flush along the stress and "
    "tested; not tested the class of a flat crown, 90; from memory",
)


def seam_class(spec: WheelSpec) -> DetailClass:
    """Of the butt seams of ring and flange."""
    return SEAM_DRESSED if spec.seam == "dressed" else SEAM_AS_WELDED


def is_backed(spec: WheelSpec, bead: str) -> bool:
    """Whether a bead's root is fused from its other side."""
    return spec.root_backed and bead == ROOT


def root_classes(spec: WheelSpec, bead: str) -> tuple[DetailClass, ...]:
    """Of a bead's root, for each way that its stress is taken. A disc welded on both sides keeps
    its slit between the two roots: each is a fillet's, with the force that goes through it."""
    return (BACKED_ROOT,) if is_backed(spec, bead) else (FILLET_ROOT, OPENED_ROOT)


def details(spec: WheelSpec) -> tuple[tuple[str, DetailClass], ...]:
    """Every weld of this wheel in words, with each class it is judged by."""
    found: list[tuple[str, DetailClass]] = []
    for bead in weld_beads(spec):
        if not bead.name.startswith("weld-seam"):
            classes = (TOE, *root_classes(spec, bead.name))
            found += [(bead_words(bead.name), one) for one in classes]
    if spec.tread_from != "pipe":
        found.append(("ring seam", seam_class(spec)))
    if seam_length_mm(spec):
        found.append(("flange seams", seam_class(spec)))
    return tuple(found)
