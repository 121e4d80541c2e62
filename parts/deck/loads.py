"""Loads of the deck as forces on nodes: the patch on the tread, the push on the flange.

The same as in the rating: even across, cosine squared along the rail.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.deck.solid_mesh import SolidMesh
from platewheel.parts.geometry.section import RZ
from platewheel.parts.stress.response import PUSH_ARC_MM, PUSH_DEPTH_MM
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_section

if TYPE_CHECKING:
    from numpy.typing import NDArray

POINTS = 40  # a side of the triangle of points that a face is summed over


@dataclass(frozen=True)
class Spot:
    """Where a load stands: on a part's face turned from `start` to `end` (r, z), between the
    distances low and high from its start, over +- half an angle (radians) from the mirror."""

    part: str
    start: RZ
    end: RZ
    low_mm: float
    high_mm: float
    half_angle: float


def patch_spot(spec: WheelSpec, place_mm: float, width_mm: float, half_length_mm: float) -> Spot:
    """The patch with its middle at a place along the tread from its field edge."""
    wall = tread_section(spec)
    start, end = (wall[1], wall[2]) if spec.tread_from == "pipe" else (wall[0], wall[1])
    low, high = place_mm - width_mm / 2, place_mm + width_mm / 2
    return Spot("tread", start, end, low, high, half_length_mm / spec.tread_radius_mm)


def push_spot(spec: WheelSpec) -> Spot:
    """Where the rail's corner meets the flange."""
    start, end = flange_section(spec)[:2]
    deep = min(PUSH_DEPTH_MM, spec.flange_depth_mm) / math.sin(spec.flange_angle)
    return Spot("flange", start, end, 0.0, deep, PUSH_ARC_MM / 2 / spec.tread_radius_mm)


def spread(mesh: SolidMesh, spot: Spot, force_n: tuple[float, float, float]) -> NDArray[np.float64]:
    """Forces on all nodes (n, 3), N, that add up to `force_n`: the half wheel's own share.

    By the quadratic shape functions of the faces, summed over many points of each.
    Raises: GeometryError where no element's face lies there.
    """
    faces = mesh.faces_on(spot.part, spot.start, spot.end)
    i, j = np.divmod(np.arange(POINTS * POINTS), POINTS)
    inside = i + j < POINTS - 1
    share = (np.stack([i, j])[:, inside] + 2 / 3) / POINTS
    share = np.vstack([share, 1 - share.sum(axis=0)])  # (3, points)
    shape = np.vstack(
        [
            *(share[k] * (2 * share[k] - 1) for k in range(3)),
            *(4 * share[k] * share[(k + 1) % 3] for k in range(3)),
        ]
    )
    a, b = np.asarray(spot.start), np.asarray(spot.end)
    way = (b - a) / np.linalg.norm(b - a)
    along = (np.stack([mesh.radius, mesh.points[:, 2]], axis=1) - a) @ way
    weight = np.zeros(len(mesh.points))
    near = (mesh.angle[faces[:, :3]] < spot.half_angle).any(axis=1)
    for face in faces[near]:
        turns, places = mesh.angle[face[:3]], along[face[:3]]
        (t0, t1, t2), (s0, s1, s2) = turns, places
        area = abs((t1 - t0) * (s2 - s0) - (t2 - t0) * (s1 - s0))
        turn, place = turns @ share, places @ share
        there = (turn < spot.half_angle) & (place > spot.low_mm) & (place < spot.high_mm)
        push = np.where(there, np.cos(math.pi * turn / 2 / spot.half_angle) ** 2, 0.0)
        weight[face] += area * (shape @ push)
    if not weight.sum() > 0:
        raise GeometryError(f"deck: no face of the {spot.part} lies under its load")
    return np.asarray(np.outer(weight / weight.sum(), force_n))
