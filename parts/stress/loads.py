"""Loads on the wheel as Fourier series: a patch on the tread, a push on the flange."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.geometry.section import RZ

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from platewheel.parts.stress.solid_of_revolution import Body


def raised_cosine(half_angle: float, harmonics: int) -> NDArray[np.float64]:
    """Coefficients q_0..q_harmonics (cosine series) of a unit force spread as cos^2 over
    +- half_angle radians, force per radian. Source: integral of the raised cosine, closed form."""
    n = np.arange(harmonics + 1, dtype=float)
    x = n * half_angle
    with np.errstate(divide="ignore", invalid="ignore"):
        shape = np.sinc(x / np.pi) / (1 - (x / np.pi) ** 2)
    shape = np.where(np.isclose(x, np.pi), 0.5, shape)
    q = shape / np.pi
    q[0] /= 2
    return q


def upward(q: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Series of a force pushing to -x at angle 0: radial (cosine) and tangential (sine) parts.

    Radial -q cos theta, tangential +q sin theta; the last harmonic is left out.
    """
    top = len(q) - 1
    radial, tangential = np.zeros(top), np.zeros(top)
    radial[0] = q[1] / 2
    radial[1], tangential[1] = q[0] + q[2] / 2, q[0] - q[2] / 2
    radial[2:] = (q[1 : top - 1] + q[3 : top + 1]) / 2
    tangential[2:] = (q[1 : top - 1] - q[3 : top + 1]) / 2
    return -radial, tangential


@dataclass(frozen=True)
class FaceLoad:
    """Unit force spread evenly over part of a straight face: unknowns of one component get
    `weights`, which add up to 1."""

    points: NDArray[np.int64]  # columns into nodal_dofs
    point_weights: NDArray[np.float64]
    facets: NDArray[np.int64]  # columns into facet_dofs
    facet_weights: NDArray[np.float64]

    def spread(self, basis: Any, component: int) -> NDArray[np.float64]:
        """Load vector over all unknowns."""
        load = np.zeros(basis.N)
        np.add.at(load, basis.nodal_dofs[component][self.points], self.point_weights)
        np.add.at(load, basis.facet_dofs[component][self.facets], self.facet_weights)
        return load


def face_load(body: Body, start: RZ, end: RZ, low: float, high: float) -> FaceLoad:
    """Unit force on the face from `start` to `end` (section points), between the distances low
    and high from its start. Raises: ValueError where no element edge lies there."""
    mesh = body.basis.mesh
    a, b = np.asarray(start), np.asarray(end)
    direction = (b - a) / np.linalg.norm(b - a)
    offset = body.points - a
    along = offset @ direction
    beside = np.abs(offset[:, 0] * direction[1] - offset[:, 1] * direction[0])
    near = (beside < 1e-5) & (along > -1e-5) & (along < np.linalg.norm(b - a) + 1e-5)
    edges = mesh.boundary_facets()
    edges = edges[near[mesh.facets[:, edges]].all(axis=0)]
    points, facets = np.zeros(len(body.points)), np.zeros(mesh.facets.shape[1])
    gauss, gauss_weight = np.polynomial.legendre.leggauss(4)
    for edge in edges:
        i, j = mesh.facets[:, edge]
        s0, s1 = along[i], along[j]
        lo, hi = max(low, min(s0, s1)), min(high, max(s0, s1))
        if hi <= lo:
            continue
        s = (lo + hi) / 2 + gauss * (hi - lo) / 2
        weight = gauss_weight * (hi - lo) / 2
        x = (s - s0) / (s1 - s0)
        points[i] += weight @ ((1 - x) * (1 - 2 * x))
        points[j] += weight @ (x * (2 * x - 1))
        facets[edge] += weight @ (4 * x * (1 - x))
    total = points.sum() + facets.sum()
    if not total > 0:
        raise ValueError(f"no element edge between {low:g} and {high:g} mm on that face")
    used, used_facets = np.nonzero(points)[0], np.nonzero(facets)[0]
    return FaceLoad(used, points[used] / total, used_facets, facets[used_facets] / total)
