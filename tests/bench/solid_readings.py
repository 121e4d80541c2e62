"""What a solved half wheel says of its vents' edges, beads, toes and flange, for 1 N.

`loads` are the steps' results, each over its load; mixes of them are given as weights.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from platewheel.parts.base.steel import E_N_MM2, POISSON
from platewheel.parts.deck.loads import push_spot, spread
from platewheel.parts.deck.meshing import apart, vent_middles
from platewheel.parts.deck.solid_mesh import SolidMesh, gauss_points, shape_slopes
from platewheel.parts.stress.section_mesh import TOE_STEPS, SectionMesh, section_mesh
from platewheel.parts.stress.throat import throat_of
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads
from tests.bench.calculix import Solved, von_mises

MU = E_N_MM2 / 2 / (1 + POISSON)
LAMBDA = E_N_MM2 * POISSON / ((1 + POISSON) * (1 - 2 * POISSON))
ROUND = np.linspace(-np.pi, np.pi, 73)  # places round a vent
Weights = Sequence[float]


def mixed(loads: Sequence[Solved], weights: Weights) -> np.ndarray:
    """Stress of a mix."""
    return np.asarray(sum(w * load.stress for w, load in zip(weights, loads, strict=True)))


def edge_nodes(spec: WheelSpec, mesh: SolidMesh, first_vent: float, side: str) -> np.ndarray:
    """Nodes of a disc on the walls of its vents."""
    middles = vent_middles(spec, first_vent)
    away = np.hypot(*(mesh.points[:, None, :2] - middles[None]).transpose(2, 0, 1))
    rows = np.zeros(len(mesh.points), dtype=bool)
    rows[mesh.tets[mesh.of(f"disc-{side}")]] = True
    return np.nonzero(rows & (np.abs(away - spec.vent_diameter_mm / 2) < 1e-3).any(axis=1))[0]


def edge_stress(spec: WheelSpec, mesh: SolidMesh, first_vent: float, stress: np.ndarray) -> float:
    """Largest von Mises stress on the walls of the vents of both discs."""
    nodes = [edge_nodes(spec, mesh, first_vent, side) for side in SIDES]
    return float(von_mises(stress[np.concatenate(nodes)]).max())


def edge_series(
    spec: WheelSpec, mesh: SolidMesh, first_vent: float, stress: np.ndarray
) -> np.ndarray:
    """Stress along the edges of the gauge disc's vents at ROUND, two faces, a row a vent (the half
    wheel's, and their images): what one vent feels in so many places of its turn."""
    nodes = edge_nodes(spec, mesh, first_vent, "gauge")
    faces = sorted({round(float(z), 4) for z in mesh.points[nodes, 2]})
    found = []
    for middle in vent_middles(spec, first_vent):
        turn = math.atan2(middle[1], middle[0])
        half = min(abs(turn), math.pi - abs(turn)) < 1e-6
        if turn < -1e-6 and not half:
            continue
        rows = []
        for z in (faces[0], faces[-1]):
            out = mesh.points[nodes, :2] - middle
            on = np.abs(np.hypot(*out.T) - spec.vent_diameter_mm / 2) < 1e-3
            on &= np.abs(mesh.points[nodes, 2] - z) < 1e-3
            out, s = out[on], stress[nodes[on]]
            at = (np.arctan2(out[:, 1], out[:, 0]) - turn + np.pi) % (2 * np.pi) - np.pi
            x, y = np.stack([out[:, 1], -out[:, 0]]) / np.hypot(*out.T)
            along = s[:, 0] * x * x + s[:, 1] * y * y + 2 * s[:, 3] * x * y
            if half:
                at, along = np.concatenate([at, -at]), np.concatenate([along, along])
            order = np.argsort(at)
            rows.append(np.interp(ROUND, at[order], along[order], period=2 * np.pi))
        found.append(np.stack(rows))
        found.append(np.stack(rows)[:, ::-1])
    return np.array(found)


def flange_gives(spec: WheelSpec, mesh: SolidMesh, moved: np.ndarray) -> float:
    """Movement of the flange's tip along the axle, at the patch."""
    r, z = flange_section(spec)[1]
    return float(moved[int(np.argmin(np.linalg.norm(mesh.points - (r, 0.0, z), axis=1))), 2])


def bead_measures(
    spec: WheelSpec, mesh: SolidMesh, loads: Sequence[Solved], mixes: Sequence[Weights]
) -> dict[str, tuple[float, float]]:
    """Of each bead, the worst of the mixes: force over its throat (the larger of range round the
    wheel and greatest, each over the rating's own for the wheel without vents is what counts),
    and the range that bends its root open. The last load is the push."""
    section = section_mesh(spec, size_mm=6.0)
    found = {}
    for bead in weld_beads(spec):
        if bead.name.startswith("weld-seam"):
            continue
        throat = throat_of(bead, section)
        lines = _lines(spec, mesh, loads, section, bead.name, throat.radius_mm)
        worst = []
        for weights in mixes:
            line = sum(w * one for w, one in zip(weights, lines, strict=True))
            root, square, along = throat.stresses(np.asarray(line))
            spread_of = np.ptp(square, axis=0)
            force = math.hypot(spread_of[0], spread_of[1])
            force = max(force, float(np.sqrt((square**2).sum(axis=1) + along**2).max()))
            worst.append((force, float(np.ptp(np.maximum(root, 0.0)))))
        found[bead.name] = (max(f for f, _ in worst), max(o for _, o in worst))
    return found


def _lines(
    spec: WheelSpec,
    mesh: SolidMesh,
    loads: Sequence[Solved],
    section: SectionMesh,
    bead: str,
    radius: float,
) -> list[np.ndarray]:
    """Of each load what passes into a bead per mm: (angles, 4) radial, axial, tangential, moment;
    from the plate's side, spread over hats of 5 degrees (12 at the tube)."""
    plate = min(leg.plate for leg in section.legs if leg.bead == bead)
    shared = np.intersect1d(mesh.tets[mesh.of(bead)], mesh.tets[mesh.of(plate)])
    forces = [-_inner(mesh, plate, shared, load.moved) for load in loads]
    if bead == "weld-root":
        push = spread(mesh, push_spot(apart(spec)), (0.0, 0.0, 0.5))
        forces[-1] = forces[-1] + push[shared]
    angle = mesh.angle[shared]
    count = round(180 / (5 if radius > 2 * spec.hub_bore_mm / 2 * 1.8 else 12))
    at = np.linspace(0, np.pi, count + 1)
    hats = np.maximum(0.0, 1 - np.abs(at[:, None] - angle[None]) / at[1])
    width = np.full(len(at), at[1])
    width[[0, -1]] /= 2
    c, s = np.cos(angle), np.sin(angle)
    found = []
    for f in forces:
        radial, along = f[:, 0] * c + f[:, 1] * s, f[:, 1] * c - f[:, 0] * s
        moment = mesh.radius[shared] * f[:, 2] - mesh.points[shared, 2] * radial
        parts = (radial, f[:, 2], along, moment)
        found.append(np.stack([hats @ part / width / radius for part in parts], axis=1))
    return found


def _inner(mesh: SolidMesh, part: str, nodes: np.ndarray, moved: np.ndarray) -> np.ndarray:
    """Inner forces of a part at nodes, (nodes, 3)."""
    touched = np.zeros(len(mesh.points), dtype=bool)
    touched[nodes] = True
    tets = mesh.tets[mesh.of(part)]
    tets = tets[touched[tets].any(axis=1)]
    places, force = mesh.points[tets], np.zeros_like(mesh.points)
    for point in gauss_points():
        slopes = shape_slopes(point)
        jacobi = np.einsum("ea,mec->mac", slopes, places)
        by_place = np.einsum("mca,ea->mec", np.linalg.inv(jacobi), slopes)
        grad = np.einsum("mei,mej->mij", moved[tets], by_place)
        strain = (grad + grad.transpose(0, 2, 1)) / 2
        stress = 2 * MU * strain
        stress += LAMBDA * np.trace(strain, axis1=1, axis2=2)[:, None, None] * np.eye(3)
        volume = np.linalg.det(jacobi) / 24
        parts = np.einsum("mij,mej,m->mei", stress, by_place, volume)
        np.add.at(force, tets.ravel(), parts.reshape(-1, 3))
    return np.asarray(force[nodes])


def toe_ranges(
    spec: WheelSpec,
    mesh: SolidMesh,
    first_vent: float,
    loads: Sequence[Solved],
    mixes: Sequence[Weights],
) -> dict[str, float]:
    """Of each bead the largest hot-spot range round the wheel at its toe on a disc, read as the
    rating reads it; readings within a vent are none."""
    from scipy.interpolate import LinearNDInterpolator

    turns = np.radians(np.arange(0.0, 180.5))
    middles, found = vent_middles(spec, first_vent), {}
    for toe in section_mesh(spec, size_mm=6.0).toes:
        if not toe.plate.startswith("disc"):
            continue
        nodes = np.unique(mesh.tets[mesh.of(toe.plate)])
        away = (mesh.radius[nodes] - toe.at[0]) * toe.along[0]
        on = (np.abs(mesh.points[nodes, 2] - toe.at[1]) < 1e-3) & (away > -1e-3)
        on &= away < 4 * toe.thickness_mm
        nodes, away = nodes[on], away[on]
        c, s = np.cos(mesh.angle[nodes]), np.sin(mesh.angle[nodes])
        radial = [
            x[nodes, 0] * c * c + x[nodes, 1] * s * s + 2 * x[nodes, 3] * c * s
            for x in (load.stress for load in loads)
        ]
        places = np.stack([away, mesh.angle[nodes] * toe.at[0]], axis=1)
        read = LinearNDInterpolator(places, np.stack(radial, axis=1))
        series = []
        for share in TOE_STEPS:
            step = share * toe.thickness_mm
            values = read(np.full(len(turns), step), turns * toe.at[0])
            r = toe.at[0] + step * toe.along[0]
            at = r * np.stack([np.cos(turns), np.sin(turns)], axis=1)
            gap = np.hypot(*(at[:, None] - middles[None]).transpose(2, 0, 1))
            values[(gap < spec.vent_diameter_mm / 2 + 0.2).any(axis=1)] = np.nan
            series.append(values)
        series.append(1.67 * series[0] - 0.67 * series[1])
        found[toe.bead] = max(
            float(np.nanmax(values @ np.asarray(weights)) - np.nanmin(values @ np.asarray(weights)))
            for values in series
            for weights in mixes
        )
    return found
