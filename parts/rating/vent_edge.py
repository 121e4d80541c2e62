"""Stress on the edge of a vent hole, wherever it may stand as the wheel turns: static, and fatigue.

Plate theory of a small hole in a wide plate, with the stress that the disc without holes has at the
place of each point of the edge; times what the study found for wide holes and narrow webs
(`vented_disc`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.fatigue_limit import allowed_range
from platewheel.parts.rating.limit import Limit, Worst
from platewheel.parts.rating.response import Response
from platewheel.parts.rating.solid_of_revolution import POISSON
from platewheel.parts.rating.turn import stress_fields
from platewheel.parts.rating.vented_disc import edge_factor
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_z_mm

if TYPE_CHECKING:
    from numpy.typing import NDArray

STRETCHED = 2.0  # Kirsch 1898: edge stress s (1 - 2 cos 2 a) under a pull s along a = 0
BENT = 2 * (1 + POISSON) / (3 + POISSON)  # Goodier 1936: s (1 - 0.788 cos 2 a), bent likewise
# how it is cut -> detail class of the edge, N/mm2. EN 1993-1-9:2005, table 8.1, from memory: 125
# machine cut with shallow, regular drag lines (cut and dressed: 140, drilled: 140); by hand, or
# left rough: 100, our choice.
CUT_EDGE = {"plasma": 125.0, "laser": 125.0, "oxy-fuel": 125.0, "hand": 100.0}


def vent_edge(
    response: Response, side: Side, stress: NDArray[np.float64], kept: NDArray[np.bool_]
) -> tuple[float, str]:
    """Largest stress for 1 N on a vent's edge, and where, from one case's stresses over a turn
    (angles, 6, points); `kept` leaves out points beside welds."""
    return float(np.abs(_edge(response, side, stress, kept)).max()), _words(side)


def vent_edge_ranges(
    response: Response, stress: NDArray[np.float64], kept: NDArray[np.bool_]
) -> Iterator[tuple[float, str]]:
    """Of each disc the largest range for 1 N that a point of a vent's edge has as the wheel turns
    once, and where. From one case's stresses over half a turn (angles, 6, points): in the other
    half a point feels what the point opposite, mirrored, felt in this one."""
    for side in SIDES:
        edge = _edge(response, side, stress, kept)
        turn = np.concatenate([edge[..., 0], edge[..., 1]])  # (2 angles, faces, points)
        yield float(np.ptp(turn, axis=0).max()), _words(side)


def vent_edge_limits(
    response: Response,
    lateral_share: float,
    cycles: float,
    factor: float,
    process: str,
    kept: NDArray[np.bool_],
) -> list[Limit]:
    """Load at which the worst range of a vent's edge reaches the class of an edge cut so; none
    without vents. Raises: KeyError for an unknown process."""
    worst, fat = Worst(), CUT_EDGE[process]
    if not response.spec.vent_count:
        return []
    for _, stress in stress_fields(response, lateral_share):
        for found in vent_edge_ranges(response, stress, kept):
            worst.offer(*found)
    load = allowed_range(fat, cycles, factor) / worst.value if worst.value else math.inf
    return [Limit("vent edges", load, worst.where, f"FAT {fat:g}", worst.value, fat)]


def _words(side: Side) -> str:
    return f"vent holes of disc-{side}"


def _edge(
    response: Response, side: Side, stress: NDArray[np.float64], kept: NDArray[np.bool_]
) -> NDArray[np.float64]:
    """Stress along the edge for 1 N, with its factor: (angles, faces, points, 2), the last for the
    two points of the edge at one radius, before and behind the vent's middle."""
    spec = response.spec
    rows = _faces(response, side, kept)
    below, above = (stress[:, :, row] for row in rows)
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
