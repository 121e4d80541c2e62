"""Every weld of the wheel as a welding symbol says it, and the place its arrow points to."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.cli.papers.drawings.weld_symbols import WeldMark
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.geometry.section import RZ, Section
from platewheel.parts.wheel.flange import flange_section, seam_length_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import Bead, weld_beads


@dataclass(frozen=True)
class PlacedMark:
    """A mark and the point of the section (r, z) that its arrow touches."""

    mark: WeldMark
    at: RZ


def weld_marks(spec: WheelSpec, units: Units = "mm") -> tuple[PlacedMark, ...]:
    """One mark for each weld; the seams of a flange in pieces share one.

    A fillet that has less room than its leg is marked with the throat that fits, and says so.
    """
    marks = []
    for bead in weld_beads(spec):
        if bead.name.startswith("weld-seam"):
            continue
        mark = _root(bead, spec, units) if bead.name == "weld-root" else _fillet(bead, units)
        marks.append(PlacedMark(mark, _face_middle(bead)))
    if spec.tread_from != "pipe":
        z = 0.15 * spec.tread_width_mm
        seam = WeldMark("weld-seam-tread", "square-butt", flush=True, note="ring seam")
        marks.append(PlacedMark(seam, (spec.outside_radius_mm(z), z)))
    if seam_length_mm(spec) > 0:
        count = spec.flange_segments
        note = "flange seam" if count == 1 else f"{count} flange seams"
        seam = WeldMark("weld-seam-flange", "square-butt", note=note)
        _, _, back_tip, back_root = flange_section(spec)
        marks.append(PlacedMark(seam, _mid(back_tip, _mid(back_tip, back_root))))
    return tuple(marks)


def _size(letter: str, mm: float, units: Units) -> str:
    return letter + length_words(mm, units).removesuffix(" in")


def _fillet(bead: Bead, units: Units) -> WeldMark:
    """Throat of the legs that there are: height of a right triangle over its long side."""
    a, b = bead.legs_mm
    throat = a * b / math.hypot(a, b)
    note = "" if bead.fits else "little room"
    return WeldMark(bead.name, "fillet", _size("a", throat, units), True, note=note)


def _root(bead: Bead, spec: WheelSpec, units: Units) -> WeldMark:
    """V between ring and flange: full section where both edges are filled, else its depth."""
    full = bead.legs_mm[0] >= spec.tread_thickness_mm - 1e-9
    full = full and bead.legs_mm[1] >= spec.flange_thickness_mm - 1e-9
    depth = _height(bead.section)
    return WeldMark(bead.name, "single-v", "" if full else _size("s", depth, units), True)


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
