"""Half a wheel in ten-node tetrahedra: its nodes, elements and faces, and what they are part of.

The half lies at y >= 0; the mirror plane y = 0 goes through the middle of the patch at +X. Of a
wheel that has no mirror plane both halves are there.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.geometry.section import RZ

if TYPE_CHECKING:
    from numpy.typing import NDArray

EDGES = ((0, 1), (1, 2), (2, 0), (0, 3), (1, 3), (2, 3))  # corners beside nodes 5 to 10, C3D10
FACES = ((0, 1, 2, 4, 5, 6), (0, 1, 3, 4, 8, 7), (1, 2, 3, 5, 9, 8), (0, 2, 3, 6, 9, 7))
GAUSS = (0.5854101966249685, 0.1381966011250105)  # four points, exact to the second order
ON_MM = 1e-4  # nodes this near a face lie on it


@dataclass(frozen=True)
class SolidMesh:
    """Points (n, 3) mm; tetrahedra (m, 10), nodes in the order of C3D10; `part_of` (m,) numbers
    the part of each in `parts`, whose names are those of the section."""

    points: NDArray[np.float64]
    tets: NDArray[np.int64]
    part_of: NDArray[np.int64]
    parts: tuple[str, ...]

    @cached_property
    def radius(self) -> NDArray[np.float64]:
        """Distance of every node from the axle axis, mm."""
        return np.hypot(self.points[:, 0], self.points[:, 1])

    @cached_property
    def angle(self) -> NDArray[np.float64]:
        """Angle of every node from the middle of the patch, 0 to pi, radians."""
        return np.abs(np.arctan2(self.points[:, 1], self.points[:, 0]))

    @cached_property
    def skin(self) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Faces that no two elements share: nodes (k, 6), three corners and the middles after
        them, and the element of each (k,)."""
        faces = np.concatenate([self.tets[:, list(face)] for face in FACES])
        owner = np.tile(np.arange(len(self.tets)), len(FACES))
        keys = np.sort(faces[:, :3], axis=1)
        _, first, count = np.unique(keys, axis=0, return_index=True, return_counts=True)
        alone = first[count == 1]
        return faces[alone], owner[alone]

    def of(self, part: str) -> NDArray[np.bool_]:
        """Which elements are of a part. Raises: ValueError for a part that is not there."""
        return np.asarray(self.part_of == self.parts.index(part))

    def volume_mm3(self) -> float:
        """Sum over the elements, curved edges counted."""
        return float(self.jacobians().sum() / 24)

    def jacobians(self) -> NDArray[np.float64]:
        """Determinants at the four points of each element, (m, 4); none may be below 0."""
        places = self.points[self.tets]
        found = []
        for point in gauss_points():
            found.append(np.linalg.det(np.einsum("ea,mec->mac", shape_slopes(point), places)))
        return np.stack(found, axis=1)

    def faces_on(self, part: str, start: RZ, end: RZ) -> NDArray[np.int64]:
        """Skin faces (k, 6) of a part that lie on the face turned from `start` to `end` (r, z)."""
        faces, owner = self.skin
        a, b = np.asarray(start), np.asarray(end)
        way = (b - a) / np.linalg.norm(b - a)
        offset = np.stack([self.radius, self.points[:, 2]], axis=1) - a
        beside = np.abs(offset[:, 0] * way[1] - offset[:, 1] * way[0])
        on = beside < ON_MM
        return np.asarray(faces[self.of(part)[owner] & on[faces[:, :3]].all(axis=1)])


def gauss_points() -> NDArray[np.float64]:
    """Barycentric places of the four points, (4, 4)."""
    near, far = GAUSS
    return np.full((4, 4), far) + np.eye(4) * (near - far)


def shape_slopes(at: NDArray[np.float64]) -> NDArray[np.float64]:
    """Slopes (10, 3) of the shape functions by the last three barycentric coordinates."""
    over = np.vstack([-np.ones(3), np.eye(3)])  # of each coordinate, the first being the rest
    corners = [(4 * at[i] - 1) * over[i] for i in range(4)]
    middles = [4 * (at[i] * over[j] + at[j] * over[i]) for i, j in EDGES]
    return np.array([*corners, *middles])
