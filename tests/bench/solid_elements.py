"""A job's welded section as true 3-D solid elements, against the rating's analysis.

Run by hand: python -m tests.bench.solid_elements [SIZE_MM] [SLABS] [--job JOB.toml]
The job is the demo unless told; the three jobs of `test_golden` have been put to it: one to three
minutes each, and 2 to 7 GB.
The section mesh is swept round half a turn into curved ten-node tetrahedra (scikit-fem's), a
patch of 1 N pressed on the middle place; the mirror plane holds the halves together, the bore is
clamped. Nothing is shared with the rating but the section's triangles and the size of the patch.
"""

from __future__ import annotations

import argparse
import math
import resource
import time
from pathlib import Path
from typing import Any

import numpy as np
from skfem import (
    Basis,
    BilinearForm,
    ElementTetP2,
    ElementVector,
    MeshTet,
    MeshTet2,
    condense,
)
from skfem.helpers import ddot, sym_grad, trace

from platewheel.cli.job.job import read_job
from platewheel.parts.base.steel import E_N_MM2, POISSON
from platewheel.parts.rating.rate import contact_patch_mm, least_place_mm
from platewheel.parts.stress.loads import face_load, raised_cosine, upward
from platewheel.parts.stress.response import LEAST_HALF_LENGTH_MM, harmonic_count, respond
from platewheel.parts.stress.section_mesh import SectionMesh
from platewheel.parts.stress.solid_of_revolution import Body, R, T, Z
from platewheel.parts.wheel.tread_ring import tread_section
from tests.places import DEMO

BESIDE, FAR = math.radians(10), math.radians(30)  # where stress is read, and under the patch
PLACE = 3  # the middle one of seven
MU = E_N_MM2 / (2 * (1 + POISSON))
LAMBDA = E_N_MM2 * POISSON / ((1 + POISSON) * (1 - 2 * POISSON))


def slab_angles(half_angle: float, count: int) -> np.ndarray:
    """Cuts from 0 to pi: two in the patch's half, then wider, also where stress is read."""

    def spread(low: float, high: float, first: float, cuts: int) -> np.ndarray:
        """Steps growing by one ratio."""
        ratios = np.linspace(1.0001, 3.0, 4000)
        spans = first * (ratios**cuts - 1) / (ratios - 1)
        ratio = ratios[int(np.argmin(np.abs(spans - (high - low))))]
        steps = np.cumsum(ratio ** np.arange(cuts))
        return low + (high - low) * steps / steps[-1]

    near, mid = count // 3, count // 4
    first = half_angle / 2
    inner = spread(half_angle, BESIDE, first, near)
    middle = spread(BESIDE, FAR, inner[-1] - inner[-2], mid)
    outer = spread(FAR, math.pi, middle[-1] - middle[-2], count - near - mid - 2)
    return np.concatenate([[0.0, first, half_angle], inner, middle, outer])


def swept(section: SectionMesh, angles: np.ndarray) -> MeshTet2:
    """Prisms over the triangles, three tetrahedra each; edges curved round the axle."""
    size = len(section.points)
    triangles = np.sort(section.triangles, axis=1)  # one rule for all: the prisms' cuts meet
    a, b, c = triangles.T
    tets = []
    for k in range(len(angles) - 1):
        low, high = k * size, (k + 1) * size
        tets += [
            np.stack([a + low, b + low, c + low, c + high]),
            np.stack([a + low, b + low, b + high, c + high]),
            np.stack([a + low, a + high, b + high, c + high]),
        ]
    flat = np.vstack(
        [
            np.tile(section.points[:, 0], len(angles)),
            np.repeat(angles, size),
            np.tile(section.points[:, 1], len(angles)),
        ]
    )
    curved = MeshTet2.from_mesh(MeshTet(flat, np.concatenate(tets, axis=1)))
    r, angle, z = curved.doflocs
    places = np.vstack([r * np.cos(angle), r * np.sin(angle), z])
    return MeshTet2(places, curved.t)


@BilinearForm
def elastic(u: Any, v: Any, w: Any) -> Any:
    e, d = sym_grad(u), sym_grad(v)
    return 2 * MU * ddot(e, d) + LAMBDA * trace(e) * trace(d)


def solve_solid(
    mesh: MeshTet2, bore_mm: float, patch: tuple[float, float, float, float]
) -> tuple[Basis, np.ndarray]:
    """Displacements of the half wheel for half a newton; patch is radius, low and high z, angle."""
    basis = Basis(mesh, ElementVector(ElementTetP2()), intorder=3)
    stiffness = elastic.assemble(basis)

    load = patch_load(basis, *patch)
    places = basis.doflocs
    component = np.zeros(basis.N, dtype=int)
    for i in range(3):
        component[basis.nodal_dofs[i]] = component[basis.edge_dofs[i]] = i
    bore = np.hypot(places[0], places[1]) < bore_mm + 1e-3
    mirror = (np.abs(places[1]) < 1e-6) & (component == 1)
    inner, right, moved, free = condense(stiffness, load, D=np.nonzero(bore | mirror)[0])
    moved[free] = _solve(inner, right)
    return basis, moved


def patch_load(
    basis: Basis, radius: float, low: float, high: float, half_angle: float
) -> np.ndarray:
    """Half a newton to -x on the tread, cos^2 along the rail, even across: quadratic shape
    functions of the tread's triangles, summed over many points of each."""
    mesh = basis.mesh
    r, z = np.hypot(*mesh.p[:2]), mesh.p[2]
    angle = np.arctan2(mesh.p[1], mesh.p[0])
    facets = mesh.facets[:, (np.abs(r - radius) < 1e-6)[mesh.facets].all(axis=0)]
    facets = facets[:, (angle[facets] < half_angle + 1e-6).all(axis=0)]
    i, j = np.divmod(np.arange(60 * 60), 60)
    share = np.stack([i, j])[:, i + j < 59] / 60 + 1 / 90
    share = np.vstack([share, 1 - share.sum(axis=0)])
    load = np.zeros(basis.N)
    edge_of = {tuple(sorted(edge)): k for k, edge in enumerate(mesh.edges.T.tolist())}
    for facet in facets.T:
        (a0, a1, a2), (z0, z1, z2) = angle[facet], z[facet]
        area = abs((a1 - a0) * (z2 - z0) - (a2 - a0) * (z1 - z0)) / 2 / share.shape[1]
        at, up = angle[facet] @ share, z[facet] @ share
        push = np.where((up > low) & (up < high), np.cos(math.pi * at / 2 / half_angle) ** 2, 0.0)
        for k in range(3):
            load[basis.nodal_dofs[0][facet[k]]] -= area * push @ (share[k] * (2 * share[k] - 1))
            pair = (facet[k], facet[(k + 1) % 3])
            edge = edge_of[(int(min(pair)), int(max(pair)))]
            load[basis.edge_dofs[0][edge]] -= area * push @ (4 * share[k] * share[(k + 1) % 3])
    return np.asarray(load * 0.5 / abs(load.sum()))


def _solve(matrix: Any, right: np.ndarray) -> np.ndarray:
    from scipy.sparse.linalg import splu

    factor = splu(
        matrix.tocsc(),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
    return np.asarray(factor.solve(right))


def solid_stress(
    basis: Basis, moved: np.ndarray, node: int, angle: float, rows: np.ndarray
) -> tuple[float, float]:
    """Hoop and axial stress at a node, mean over the tetrahedra of `rows` that meet there."""
    mesh = basis.mesh
    rows = rows[(mesh.t[:, rows] == node).any(axis=0)]
    corners = np.hstack([np.zeros((3, 1)), np.eye(3)])
    local = Basis(mesh, basis.elem, quadrature=(corners, np.full(4, 1 / 24)), elements=rows)
    strain = np.asarray(sym_grad(local.interpolate(moved)))
    at = node == mesh.t[:, rows].T
    mean = strain[:, :, at].mean(axis=2)
    stress = 2 * MU * mean + LAMBDA * np.trace(mean) * np.eye(3)
    round_ = np.array([-math.sin(angle), math.cos(angle), 0.0])
    return float(round_ @ stress @ round_), float(stress[2, 2])


def main() -> None:
    """Prints both analyses side by side."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("size_mm", nargs="?", type=float, default=3.0)
    parser.add_argument("slabs", nargs="?", type=int, default=22)
    parser.add_argument("--job", type=Path, default=DEMO)
    given = parser.parse_args()
    setting = read_job(given.job).setting
    spec = setting.wheel
    width, along = contact_patch_mm(setting)
    half_length = max(along, LEAST_HALF_LENGTH_MM)
    began = time.perf_counter()
    found = respond(
        spec,
        contact_width_mm=width,
        half_length_mm=half_length,
        least_place_mm=least_place_mm(setting, width),
        size_mm=given.size_mm,
    )
    section, middle = found.mesh, found.places_mm[PLACE]
    radius, half_angle = spec.tread_radius_mm, half_length / spec.tread_radius_mm
    bore = spec.bore_radius_mm(0)
    tread = section.nodes_of("tread")
    inside, face = (
        int(tread[np.argmin(np.abs(section.points[tread] - (at, middle)).sum(axis=1))])
        for at in (bore, radius)
    )
    sinks = rating_deflection(found, half_angle, width, inside)
    rated = time.perf_counter() - began

    began = time.perf_counter()
    angles = slab_angles(half_angle, given.slabs)
    mesh = swept(section, angles)
    patch = (radius, middle - width / 2, middle + width / 2, half_angle)
    basis, moved = solve_solid(mesh, spec.hub_bore_mm / 2, patch)
    took = time.perf_counter() - began

    n = np.arange(len(found.stress))
    of_tread = np.array([part == "tread" for part in section.part_of])
    rows = np.nonzero(np.tile(of_tread, 3 * (len(angles) - 1)))[0]
    size = len(section.points)

    def both(place: int, layer: int) -> list[tuple[float, float]]:
        """(rating, solid) of hoop and axial stress."""
        column = next(
            i
            for i, (part, at) in enumerate(zip(found.part_of, found.node_of, strict=True))
            if part == "tread" and at == place
        )
        turn = np.cos(n * angles[layer])
        ours = [float(turn @ found.stress[:, c, column, PLACE]) for c in (2, 1)]
        solid = solid_stress(basis, moved, layer * size + place, float(angles[layer]), rows)
        return list(zip(ours, solid, strict=True))

    table = [("sinks, bore under patch, nm", sinks * 1e6, moved[basis.nodal_dofs[0][inside]] * 1e6)]
    names = ("hoop", "axial")
    for name, pair in zip(names, both(inside, 0), strict=True):
        table.append((f"{name}, bore under patch", *pair))
    for read in (BESIDE, FAR):
        layer = int(np.argmin(np.abs(angles - read)))
        for name, *pairs in zip(names, both(inside, layer), both(face, layer), strict=True):
            (ours, solid), (ours_out, solid_out) = pairs
            for kind, sign in (("membrane", 1), ("bending", -1)):
                row = (ours + sign * ours_out) / 2, (solid + sign * solid_out) / 2
                table.append((f"{name} {kind}, {math.degrees(read):.0f} deg", *row))
    print(f"patch {width:.0f} mm wide; read at r, z = {section.points[inside].round(2)}")
    largest = max(abs(row[2]) for row in table[1:])
    print(f"{'1 N, N/mm2':28} {'rating':>10} {'solid':>10} {'differ':>8} {'of largest':>11}")
    for name, ours, solid in table:
        base = abs(solid) if name.startswith("sinks") else largest
        share = f"{(ours - solid) / abs(solid):8.1%} {(ours - solid) / base:11.1%}"
        print(f"{name:28} {ours:10.6f} {solid:10.6f} {share}")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
    print(f"{basis.N} unknowns, {took:.0f} s (rating {rated:.0f} s), peak memory {peak:.1f} GB")


def rating_deflection(found: Any, half_angle: float, width: float, node: int) -> float:
    """Movement along x of a section node under the patch; every harmonic solved."""
    spec, mesh = found.spec, found.mesh
    held = mesh.points[:, 0] < spec.hub_bore_mm / 2 + 1e-6
    body = Body(mesh.points, mesh.triangles, tuple((c, held) for c in (R, T, Z)))
    count = harmonic_count(spec.tread_radius_mm, found.half_length_mm)
    a, b = tread_section(spec)[:2]
    middle = found.places_mm[PLACE]
    face = face_load(body, a, b, middle - width / 2, middle + width / 2)
    radial, tangential = upward(raised_cosine(half_angle, count))
    across, round_ = face.spread(body.basis, R), face.spread(body.basis, T)
    loads = radial[:, None] * across + tangential[:, None] * round_
    moved = body.solve(loads[:, :, None], np.arange(count))[:, :, 0]
    return float(moved[:, body.basis.nodal_dofs[R][node]].sum())


if __name__ == "__main__":
    main()
