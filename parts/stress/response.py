"""What one newton does to the wheel: unit loads solved once, every case added up from them.

Unit loads are a vertical patch at several places across the tread and an axial push on the
flange. Responses to them run smoothly with the harmonic number, so beyond the first ones only
some harmonics are solved and the rest are read from a cubic spline.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.stress.load_series import PLACES, LoadSeries
from platewheel.parts.stress.loads import face_load
from platewheel.parts.stress.one_core import one_core
from platewheel.parts.stress.section_mesh import SectionMesh, section_mesh
from platewheel.parts.stress.solid_of_revolution import Body, R, T, Z, harmonic_sum
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_section

if TYPE_CHECKING:
    from numpy.typing import NDArray

LEAST_HALF_LENGTH_MM = 4.0  # of the patch along the rail; rail and tread are never quite flat
PUSH_ARC_MM, PUSH_DEPTH_MM = 20.0, 5.0  # where the rail's corner meets the flange
SOLVED_ALL = 12  # harmonics solved one by one before the steps grow
STEP_GROWTH = 1.2  # limits of the tracks tested change by less than 0.005 %


@dataclass(frozen=True)
class Response:
    """Unit responses of one wheel. Stress points are (part, node) pairs of the mesh.

    `unit` (loads, solved, 6, points): amplitudes of COMPONENTS for the unit loads of `series`;
    patch places run from the field to the gauge side, `places_mm` are their middles along the
    tread from its field edge. `tip` (harmonics, 3, cases): flange tip displacement for 1 N.
    """

    spec: WheelSpec
    mesh: SectionMesh
    part_of: tuple[str, ...]
    node_of: NDArray[np.int64]
    series: LoadSeries
    unit: NDArray[np.float64]
    tip: NDArray[np.float64]
    places_mm: tuple[float, ...]
    patch_width_mm: float
    half_length_mm: float
    bead_forces: dict[str, NDArray[np.float64]]  # bead -> (harmonics, 4, cases): r, t, z, moment
    # bead -> (harmonics, places): force along the bead for 1 N of drag along the rail, as cosines
    traction_forces: dict[str, NDArray[np.float64]] = field(default_factory=dict)

    @property
    def points(self) -> NDArray[np.float64]:
        """Place of every stress point, (points, 2) as r, z."""
        return self.mesh.points[self.node_of]

    @cached_property
    def stress(self) -> NDArray[np.float64]:
        """(harmonics, 6, points, cases): every amplitude for 1 N at each place, then the push."""
        return self.series.all_harmonics(self.unit.transpose(1, 2, 3, 0))


def harmonic_count(radius_mm: float, half_length_mm: float) -> int:
    """Harmonics that carry a patch of this length: to the first zero of its series at
    2 pi / half angle, at least 100."""
    return max(100, math.ceil(2 * math.pi * radius_mm / half_length_mm))


@one_core
def respond(
    spec: WheelSpec,
    *,
    contact_width_mm: float,
    half_length_mm: float,
    least_place_mm: float = 0.0,
    worn_mm: float = 0.0,
    size_mm: float = 2.0,
    more_harmonics: float = 1.0,
) -> Response:
    """Solve the unit loads. `size_mm` and `more_harmonics` are for tests of convergence.

    Raises: ValueError where the reactions do not carry the loads.
    """
    mesh = section_mesh(spec, worn_mm=worn_mm, size_mm=size_mm)
    inner = min(float(mesh.points[:, 0].min()), spec.hub_bore_mm / 2)
    bore = mesh.points[:, 0] < inner + 1e-6
    body = Body(mesh.points, mesh.triangles, tuple((c, bore) for c in (R, T, Z)))
    half_length = max(half_length_mm, LEAST_HALF_LENGTH_MM)
    count = math.ceil(harmonic_count(spec.tread_radius_mm, half_length) * more_harmonics)
    solved = _solved(count)
    places, loads, width = _unit_loads(spec, body, worn_mm, contact_width_mm, least_place_mm)
    amplitudes = body.solve(np.repeat(loads[None], len(solved), axis=0), solved)
    groups, part_of, node_of = _groups(mesh)
    s0, s1 = body.stress_terms(groups)
    unit = np.stack(
        [
            (s0 @ u + n * (s1 @ u)).reshape(-1, 6, loads.shape[1])
            for n, u in zip(solved.tolist(), amplitudes, strict=True)
        ]
    )
    tip = _tip_node(spec, mesh)
    moved = amplitudes[:, body.basis.nodal_dofs[:, tip], :]
    angle = half_length / spec.tread_radius_mm
    series = LoadSeries(solved, count, angle, PUSH_ARC_MM / 2 / spec.tread_radius_mm)
    forces = {
        name: _bead_forces(body, mesh, name, solved, amplitudes, loads[:, -1])
        for name in sorted(set(mesh.part_of))
        if name.startswith("weld")
    }
    return Response(
        spec,
        mesh,
        part_of,
        node_of,
        series,
        np.ascontiguousarray(unit.transpose(3, 0, 2, 1)),
        series.all_harmonics(moved),
        places,
        width,
        half_length,
        {name: series.all_harmonics(force) for name, force in forces.items()},
        {name: series.drag(force[:, 1, PLACES:-1]) for name, force in forces.items()},
    )


def _solved(count: int) -> NDArray[np.int64]:
    """Harmonics that are solved: all the low ones, then wider and wider apart."""
    picked, n = list(range(min(SOLVED_ALL, count))), float(SOLVED_ALL)
    while n < count - 1:
        picked.append(round(n))
        n = max(n + 1, n * STEP_GROWTH)
    return np.unique([*picked, count - 1])


def _unit_loads(
    spec: WheelSpec, body: Body, worn_mm: float, contact_width_mm: float, least_place_mm: float
) -> tuple[tuple[float, ...], NDArray[np.float64], float]:
    """Load vectors per radian: radial at each place, tangential at each, axial on the flange."""
    wall = tread_section(spec)
    a, b = (wall[1], wall[2]) if spec.tread_from == "pipe" else (wall[0], wall[1])
    inner = wall[0] if spec.tread_from == "pipe" else wall[3]
    inward = np.subtract(inner, a) / np.linalg.norm(np.subtract(inner, a)) * worn_mm
    start = (float(a[0] + inward[0]), float(a[1] + inward[1]))
    end = (float(b[0] + inward[0]), float(b[1] + inward[1]))
    length = math.dist(start, end)
    width = min(contact_width_mm, length)
    first = min(max(least_place_mm, width / 2), length - width / 2)
    places = tuple(float(x) for x in np.linspace(first, length - width / 2, PLACES))
    faces = [face_load(body, start, end, at - width / 2, at + width / 2) for at in places]
    flange = flange_section(spec)
    deep = min(PUSH_DEPTH_MM, spec.flange_depth_mm) / math.sin(spec.flange_angle)
    push = face_load(body, flange[0], flange[1], 0.0, deep)
    columns = [face.spread(body.basis, c) for c in (R, T) for face in faces]
    return places, np.column_stack([*columns, push.spread(body.basis, Z)]), width


def _groups(
    mesh: SectionMesh,
) -> tuple[NDArray[np.int64], tuple[str, ...], NDArray[np.int64]]:
    """Number of the (part, node) pair that each element corner belongs to."""
    names = sorted(set(mesh.part_of))
    part = np.array([names.index(name) for name in mesh.part_of])
    keys = part[:, None] * len(mesh.points) + mesh.triangles
    pairs, groups = np.unique(keys, return_inverse=True)
    parts, nodes = np.divmod(pairs, len(mesh.points))
    return groups.reshape(mesh.triangles.shape), tuple(names[p] for p in parts), nodes


def _tip_node(spec: WheelSpec, mesh: SectionMesh) -> int:
    r, z = flange_section(spec)[1]
    return int(np.argmin(np.hypot(mesh.points[:, 0] - r, mesh.points[:, 1] - z)))


def _bead_forces(
    body: Body,
    mesh: SectionMesh,
    bead: str,
    solved: NDArray[np.int64],
    amplitudes: NDArray[np.float64],
    push: NDArray[np.float64],
) -> NDArray[np.float64]:
    """What passes from a bead's first plate (by name) into the bead: (solved, 4, loads) per
    radian, forces r, t, z and their moment r f_z - z f_r about the section's origin.

    Taken from the plate's side, external push less K u, so that what the plates hand to each
    other at the bead's root counts as carried by the bead.
    """
    plate = min(leg.plate for leg in mesh.legs if leg.bead == bead)
    of_bead = np.array([i for i, name in enumerate(mesh.part_of) if name == bead])
    of_plate = np.array([i for i, name in enumerate(mesh.part_of) if name == plate])
    shared = np.intersect1d(mesh.triangles[of_bead], mesh.triangles[of_plate])
    sides = body.basis.mesh.t2f
    on_leg = np.intersect1d(np.unique(sides[:, of_bead]), np.unique(sides[:, of_plate]))
    nodal, middle = body.basis.nodal_dofs, body.basis.facet_dofs
    dofs = [np.concatenate([nodal[c][shared], middle[c][on_leg]]) for c in (R, T, Z)]
    ends = mesh.points[body.basis.mesh.facets[:, on_leg]]
    places = np.vstack([mesh.points[shared], ends.mean(axis=0)])
    rows = np.concatenate(dofs)
    k = [term[rows] for term in body.stiffness_terms(of_plate)]
    result = np.zeros((len(solved), 4, amplitudes.shape[2]))
    for i, n in enumerate(solved.tolist()):
        force = -(harmonic_sum(k, n) @ amplitudes[i])
        if (kind := kind_of(plate)) and kind.role == "guides":
            force[:, -1] += push[rows]
        r, t, z = np.split(force, 3)
        result[i, :3] = r.sum(axis=0), t.sum(axis=0), z.sum(axis=0)
        result[i, 3] = places[:, 0] @ z - places[:, 1] @ r
    return result
