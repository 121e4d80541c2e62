"""Triangle mesh of the wheel's r-z section: plates in rows of cells, beads between them.

Plates touch only through their beads: at the fit clearance, and at an unwelded root, there is a
slit. Plate grids have lines at every bead's end, and at 0.4 and 1.0 plate thicknesses from every
weld toe, where stress is read for the hot-spot method.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.geometry.section import RZ, Section
from platewheel.parts.stress.cells import NEAR, Plate, bead_cells, edges, on_edge, plate_cells
from platewheel.parts.wheel.hub_disc import SIDES, disc_z_mm
from platewheel.parts.wheel.kinds import KINDS
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import Bead, weld_beads

if TYPE_CHECKING:
    from numpy.typing import NDArray

TOE_STEPS = (0.4, 1.0)  # of the plate thickness; IIW hot-spot reading points


@dataclass(frozen=True)
class Toe:
    """Where a bead meets a plate's face: the toe, the way off along the face, the plate."""

    bead: str
    plate: str
    at: RZ
    along: RZ  # unit vector from the toe away from the bead
    thickness_mm: float
    room_mm: float  # to the plate's edge


@dataclass(frozen=True)
class Leg:
    """Side of a bead that holds a plate: from the notch, where the joint begins, to the tip."""

    bead: str
    plate: str
    notch: RZ
    tip: RZ


@dataclass(frozen=True)
class SectionMesh:
    """Points (n, 2) as r, z in mm; triangles (m, 3); the part of each triangle, by name."""

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    part_of: tuple[str, ...]
    toes: tuple[Toe, ...]
    legs: tuple[Leg, ...]
    corners: tuple[RZ, ...]  # of the beads: toes and roots, where stress has no limit

    @property
    def sides_mm(self) -> tuple[float, float]:
        """The shortest and the longest side of any triangle."""
        corners = self.points[self.triangles]
        sides = np.hypot(*np.moveaxis(corners - np.roll(corners, 1, axis=1), 2, 0))
        return float(sides.min()), float(sides.max())

    def nodes_of(self, part: str) -> NDArray[np.int64]:
        """Corner nodes of one part."""
        rows = [i for i, name in enumerate(self.part_of) if name == part]
        return np.unique(self.triangles[rows])


def section_mesh(spec: WheelSpec, *, worn_mm: float = 0.0, size_mm: float = 2.0) -> SectionMesh:
    """Mesh of the whole section; `worn_mm` is off the tread, `size_mm` the cell near welds."""
    plates = _plates(spec, worn_mm, size_mm)
    beads = [bead for bead in weld_beads(spec) if not bead.name.startswith("weld-seam")]
    held = [pair for bead in beads for pair in _legs(bead, plates)]
    toes = [toe for _, toe in held if toe.room_mm > NEAR]
    stops = [*_stops(plates, beads, toes), *_vent_stops(spec)]
    meshed = [(plate.name, *plate_cells(plate, stops, size_mm)) for plate in plates]
    plate_points = np.vstack([xy for _, xy, _ in meshed])
    meshed += [(bead.name, *bead_cells(bead, plate_points, size_mm)) for bead in beads]
    everything = np.vstack([xy for _, xy, _ in meshed])
    starts = np.cumsum([0, *(len(xy) for _, xy, _ in meshed)])
    triangles = [cells + start for (_, _, cells), start in zip(meshed, starts, strict=False)]
    part_of = [name for name, _, cells in meshed for _ in cells]
    merged, number = _join_beads(everything, len(plate_points))
    corners = tuple(corner for bead in beads for corner in bead.section)
    legs = tuple(leg for leg, _ in held)
    return SectionMesh(
        merged, number[np.vstack(triangles)], tuple(part_of), tuple(toes), legs, corners
    )


def _plates(spec: WheelSpec, worn_mm: float, size_mm: float) -> list[Plate]:
    """Plates with corner 0 to 1 along their length and corner 0 to 3 through the thickness."""

    def rows(thickness: float, least: int) -> int:
        return max(least, math.ceil(thickness / size_mm - 1e-9))

    plates = []
    for kind in KINDS:
        runs = kind.role == "runs on the rail"
        off = worn_mm if runs else 0.0
        for name, section in (kind.plates or kind.sections)(spec):
            corners = _worn(section, off) if off else section
            thick = rows(kind.thickness_mm(spec) - off, 2)
            plates.append(Plate(name, corners, thick, fine=runs))
    return plates


def _worn(plate: Section, worn_mm: float) -> Section:
    """The plate with so much off its face from corner 0 to 1."""
    inward = np.asarray(plate[3]) - np.asarray(plate[0])
    step = inward / np.linalg.norm(inward) * worn_mm
    outer = [_rz(np.asarray(corner) + step) for corner in plate[:2]]
    return (outer[0], outer[1], plate[2], plate[3])


def _legs(bead: Bead, plates: Sequence[Plate]) -> list[tuple[Leg, Toe]]:
    """The two legs of a bead, towards its second and third corners, each along the face of a
    plate; where the plate begins beyond the bead's root (a gap, a worn tread) so does the leg."""
    root = np.asarray(bead.section[0])
    found = []
    for corner in bead.section[1:]:
        tip = np.asarray(corner)
        away = (tip - root) / np.linalg.norm(tip - root)
        for plate in plates:
            for a, b in edges(plate.corners):
                if not (on_edge(tip, a, b) and on_edge(tip - away * NEAR * 10, a, b)):
                    continue
                low, high = sorted((float(np.dot(a - root, away)), float(np.dot(b - root, away))))
                notch = root + max(low, 0.0) * away
                room = high - float(np.dot(tip - root, away))
                toe = Toe(bead.name, plate.name, _rz(tip), _rz(away), _thickness(plate, a, b), room)
                found.append((Leg(bead.name, plate.name, _rz(notch), _rz(tip)), toe))
    return found


def _rz(point: NDArray[np.float64]) -> RZ:
    return float(point[0]), float(point[1])


def _vent_stops(spec: WheelSpec) -> list[NDArray[np.float64]]:
    """Points on the discs' faces at the inner edge, middle and outer edge of the vents."""
    if not spec.vent_count:
        return []
    circle, vent = spec.vent_circle_mm / 2, spec.vent_diameter_mm / 2
    return [
        np.array([r, z])
        for side in SIDES
        for z in disc_z_mm(spec, side)
        for r in (circle - vent, circle, circle + vent)
    ]


def _thickness(plate: Plate, a: NDArray[np.float64], b: NDArray[np.float64]) -> float:
    """Depth of the plate behind the face a to b."""
    face = (b - a) / np.linalg.norm(b - a)
    normal = np.array([-face[1], face[0]])
    depths = [abs(float(np.dot(np.asarray(corner) - a, normal))) for corner in plate.corners]
    return max(depths)


def _stops(
    plates: Sequence[Plate], beads: Sequence[Bead], toes: Sequence[Toe]
) -> list[NDArray[np.float64]]:
    """Points that a plate's grid lines must pass: bead corners, reading points, plate corners."""
    stops = [np.asarray(corner) for bead in beads for corner in bead.section]
    for plate in plates:
        stops += [np.asarray(corner) for corner in plate.corners]
    for toe in toes:
        for share in TOE_STEPS:
            step = share * toe.thickness_mm
            if step < toe.room_mm - NEAR:
                stops.append(np.asarray(toe.at) + step * np.asarray(toe.along))
    return stops


def _join_beads(
    points: NDArray[np.float64], plate_count: int
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Number points anew: a bead's node is one with every plate node it lies on; plates stay
    apart from each other elsewhere, however close."""
    from scipy.spatial import cKDTree

    parent = np.arange(len(points))

    def top(i: int) -> int:
        while parent[i] != i:
            i = int(parent[i])
        return i

    tree = cKDTree(points)
    for i in range(plate_count, len(points)):
        for j in tree.query_ball_point(points[i], 10 * NEAR):
            a, b = top(i), top(int(j))
            parent[max(a, b)] = min(a, b)
    tops = np.array([top(i) for i in range(len(points))])
    kept, number = np.unique(tops, return_inverse=True)
    return points[kept], number
