"""Stress on the edge of a vent hole, wherever it may stand as the wheel turns: static, and fatigue.

Plate theory of a small hole in a wide plate, with the stress that the disc without holes has at the
place of each point of the edge; times what the study found for wide holes and narrow webs
(`vented_disc`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.base.steel import POISSON
from platewheel.parts.rating.detail import Detail
from platewheel.parts.rating.vented_disc import edge_factor
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import unit_histories
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_z_mm

if TYPE_CHECKING:
    from numpy.typing import NDArray

STRETCHED = 2.0  # Kirsch 1898: edge stress s (1 - 2 cos 2 a) under a pull s along a = 0
BENT = 2 * (1 + POISSON) / (3 + POISSON)  # Goodier 1936: s (1 - 0.788 cos 2 a), bent likewise
CUT_EDGE_SOURCE = (
    "EN 1993-1-9:2005, table 8.1: 125 machine cut with shallow, regular drag lines (dressed or "
    "drilled 140), from memory; by hand, or left rough, 100: our choice"
)
# how it is cut -> detail class of the edge, N/mm2
CUT_EDGE = {"plasma": 125.0, "laser": 125.0, "oxy-fuel": 125.0, "hand": 100.0}


def vent_edge(
    response: Response, side: Side, stress: NDArray[np.float64], kept: NDArray[np.bool_]
) -> tuple[float, str]:
    """Largest stress for 1 N on a vent's edge, and where, from one case's stresses over a turn
    (angles, 6, points); `kept` leaves out points beside welds."""
    rows = _faces(response, side, kept)
    edge = _edge(response, rows, stress[:, :, rows[0]], stress[:, :, rows[1]])
    return float(np.abs(edge).max()), _words(side)


def vent_details(response: Response, process: str, kept: NDArray[np.bool_]) -> list[Detail]:
    """Every point read on a vent's edge, over a whole turn: in the second half it feels what the
    point opposite, mirrored, felt in the first. None without vents. Raises: KeyError for an
    unknown process."""
    if not response.spec.vent_count:
        return []
    details, fat = [], CUT_EDGE[process]
    for side in SIDES:
        rows = _faces(response, side, kept)
        every = [*rows[0].tolist(), *rows[1].tolist()]
        down, across = unit_histories(response, every)
        edges = [_turned(response, rows, stress) for stress in (*down, across)]
        whole = np.stack(edges)  # (places and the push, 2 angles, faces, points)
        flat = whole.reshape(*whole.shape[:2], -1)
        details += [
            Detail("vent edges", _words(side), fat, flat[:-1, :, i, None], flat[-1, :, i, None])
            for i in range(flat.shape[2])
        ]
    return details


def _turned(
    response: Response, rows: list[NDArray[np.int64]], stress: NDArray[np.float64]
) -> NDArray[np.float64]:
    """(angles, 6, points of one face, then the other) to (2 angles, faces, points)."""
    count = len(rows[0])
    edge = _edge(response, rows, stress[..., :count], stress[..., count:])
    return np.concatenate([edge[..., 0], edge[..., 1]])


def _words(side: Side) -> str:
    return f"vent holes of disc-{side}"


def _edge(
    response: Response,
    rows: list[NDArray[np.int64]],
    below: NDArray[np.float64],
    above: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Stress along the edge for 1 N, with its factor: (angles, faces, points, 2), the last for the
    two points of the edge at one radius, before and behind the vent's middle. `rows` number the
    points of a disc's two faces, `below` and `above` are their stresses (angles, 6, points)."""
    spec = response.spec
    membrane, bending = (below + above) / 2, (above - below) / 2
    square = _normal(
        response.points[rows[0], 0], spec.vent_circle_mm / 2, spec.vent_diameter_mm / 2
    )
    found = []
    for normal in (square, -square):
        stretched = _round_hole(membrane, normal, STRETCHED)
        bent = _round_hole(bending, normal, BENT)
        found.append(np.stack([stretched - bent, stretched + bent], axis=1))
    return edge_factor(spec) * np.stack(found, axis=-1)


def _faces(response: Response, side: Side, kept: NDArray[np.bool_]) -> list[NDArray[np.int64]]:
    """Stress points on a disc's two faces that a vent's edge passes, inside first."""
    spec, points = response.spec, response.points
    name = np.array([part == f"disc-{side}" for part in response.part_of])
    span = np.abs(points[:, 0] - spec.vent_circle_mm / 2) <= spec.vent_diameter_mm / 2 + 1e-6
    faces = []
    for z in disc_z_mm(spec, side):
        rows = np.nonzero(name & span & (np.abs(points[:, 1] - z) < 1e-6))[0]
        faces.append(rows[np.argsort(points[rows, 0])])
    clear = kept[faces[0]] & kept[faces[1]]  # a weld's notch is not the hole's edge
    return [rows[clear] if clear.any() else rows for rows in faces]


def _normal(r: NDArray[np.float64], circle: float, hole: float) -> NDArray[np.float64]:
    """Angle at radius r of the hole's edge, from the wheel's radius there to the way out of the
    hole's middle; by the triangle of axle, hole's middle and point."""
    turn = np.arccos(np.clip((r**2 - circle**2 - hole**2) / (2 * circle * hole), -1.0, 1.0))
    beside = np.arcsin(np.clip(hole * np.sin(turn) / r, -1.0, 1.0))
    return np.asarray(turn - beside)


def _round_hole(
    stress: NDArray[np.float64], normal: NDArray[np.float64], swing: float
) -> NDArray[np.float64]:
    """Stress along the edge from rr, tt, rt of the plate without the hole, (angles, 6, points)."""
    rr, tt, rt = stress[:, 0], stress[:, 2], stress[:, 5]
    cosine, sine = np.cos(2 * normal), np.sin(2 * normal)
    return np.asarray(rr + tt - swing * ((rr - tt) * cosine + 2 * rt * sine))
