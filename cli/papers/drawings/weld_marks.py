"""Every weld of the wheel as a welding symbol says it, and the place its arrow points to."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.cli.papers.drawings.weld_symbols import WeldMark
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.geometry.section import RZ, Section
from platewheel.parts.wheel.flange import flange_section, seam_length_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import INSIDE, Bead, weld_beads


@dataclass(frozen=True)
class PlacedMark:
    """A mark and the point of the section (r, z) that its arrow touches."""

    mark: WeldMark
    at: RZ


def weld_marks(spec: WheelSpec, units: Units = "mm") -> tuple[PlacedMark, ...]:
    """One mark for each weld; the seams of a flange in pieces share one, and so do the two fillets
    of a disc that is welded on both sides.

    A fillet that has less room than its leg is marked with the throat that fits, and says so.
    """
    marks = []
    beads = {bead.name: bead for bead in weld_beads(spec)}
    for name, bead in beads.items():
        if name.startswith("weld-seam"):
            continue
        if name.removesuffix(INSIDE) != name and name.removesuffix(INSIDE) in beads:
            continue  # told by the mark of the fillet outside
        inside = beads.get(name + INSIDE)
        mark = _root(bead, spec, units) if name == "weld-root" else _fillet(bead, inside, units)
        marks.append(PlacedMark(mark, _face_middle(bead)))
    flat = spec.seam == "dressed"
    if spec.tread_from != "pipe":
        z = 0.15 * spec.tread_width_mm
        note = "ring seam, flush inside too" if flat else "ring seam"
        seam = WeldMark("weld-seam-tread", "square-butt", flush=True, note=note)
        marks.append(PlacedMark(seam, (spec.outside_radius_mm(z), z)))
    if seam_length_mm(spec) > 0:
        count = spec.flange_segments
        note = "flange seam" if count == 1 else f"{count} flange seams"
        note += ", flush both sides" if flat else ""
        seam = WeldMark("weld-seam-flange", "square-butt", flush=flat, note=note)
        _, _, back_tip, back_root = flange_section(spec)
        marks.append(PlacedMark(seam, _mid(back_tip, _mid(back_tip, back_root))))
    return tuple(marks)


def _size(letter: str, mm: float, units: Units) -> str:
    return letter + length_words(mm, units).removesuffix(" in")


def _fillet(bead: Bead, inside: Bead | None, units: Units) -> WeldMark:
    """A fillet, and the one on the disc's inner face where there is one."""
    note = "" if bead.fits else "little room"
    size = _size("a", _throat_mm(bead), units)
    if inside is None:
        return WeldMark(bead.name, "fillet", size, True, note=note)
    within = _size("a", _throat_mm(inside), units)
    return WeldMark(bead.name, "fillet", size, True, note=note, other="fillet", other_throat=within)


def _throat_mm(bead: Bead) -> float:
    """Throat of the legs that there are: height of a right triangle over its long side."""
    a, b = bead.legs_mm
    return a * b / math.hypot(a, b)


def _root(bead: Bead, spec: WheelSpec, units: Units) -> WeldMark:
    """V between ring and flange: full section where both edges are filled, else its depth."""
    full = bead.legs_mm[0] >= spec.tread_thickness_mm - 1e-9
    full = full and bead.legs_mm[1] >= spec.flange_thickness_mm - 1e-9
    depth = _height(bead.section)
    size = "" if full else _size("s", depth, units)
    if not spec.root_backed:
        return WeldMark(bead.name, "single-v", size, True)
    return WeldMark(bead.name, "single-v", size, True, note="root ground out", other="backing")


def _height(section: Section) -> float:
    """Distance of the first corner from the side opposite."""
    (r0, z0), (r1, z1), (r2, z2) = section
    twice_area = abs((r1 - r0) * (z2 - z0) - (r2 - r0) * (z1 - z0))
    return twice_area / math.hypot(r2 - r1, z2 - z1)


def _face_middle(bead: Bead) -> RZ:
    """Middle of the bead's free face: the side opposite its corner in the joint."""
    return _mid(bead.section[1], bead.section[2])


def _mid(a: RZ, b: RZ) -> RZ:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
