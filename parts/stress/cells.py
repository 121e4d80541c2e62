"""Cells of the section mesh: a grid over each plate, triangles over each bead."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.welds import Bead

if TYPE_CHECKING:
    from numpy.typing import NDArray

NEAR = 1e-6  # mm: points closer than this are one


@dataclass(frozen=True)
class Plate:
    """A four-cornered section with its long direction `along` and its thickness direction."""

    name: str
    corners: Section
    rows: int  # cells through the thickness
    fine: bool = False  # along its length too

    @property
    def foot(self) -> NDArray[np.float64]:
        return np.asarray(self.corners[0])

    @property
    def along(self) -> NDArray[np.float64]:
        return np.asarray(self.corners[1]) - self.foot

    @property
    def across(self) -> NDArray[np.float64]:
        return np.asarray(self.corners[3]) - self.foot


def edges(corners: Section) -> list[tuple[NDArray[np.float64], NDArray[np.float64]]]:
    """Sides of a polygon, start and end."""
    ring = [np.asarray(corner) for corner in corners]
    return list(zip(ring, [*ring[1:], ring[0]], strict=True))


def on_edge(point: NDArray[np.float64], a: NDArray[np.float64], b: NDArray[np.float64]) -> bool:
    """Whether a point lies on the edge a to b, ends included."""
    edge, offset = b - a, point - a
    length = float(np.linalg.norm(edge))
    beside = abs(float(edge[0] * offset[1] - edge[1] * offset[0])) / length
    share = float(np.dot(edge, offset)) / length
    return beside < NEAR and -NEAR < share < length + NEAR


def plate_cells(
    plate: Plate, stops: Sequence[NDArray[np.float64]], size_mm: float
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Grid over a plate, each cell cut into two triangles; slanted ends are followed."""
    length, depth = float(np.linalg.norm(plate.along)), float(np.linalg.norm(plate.across))
    long_stops, cross_stops = {0.0, 1.0}, {0.0, 1.0}
    c0, c1, c2, c3 = (np.asarray(corner) for corner in plate.corners)
    for stop in stops:
        for a, b, sink in ((c0, c1, long_stops), (c3, c2, long_stops)):
            if on_edge(stop, a, b):
                sink.add(float(np.linalg.norm(stop - a) / np.linalg.norm(b - a)))
        for a, b in ((c0, c3), (c1, c2)):
            if on_edge(stop, a, b):
                cross_stops.add(float(np.linalg.norm(stop - a) / np.linalg.norm(b - a)))
    coarse = 1.0 if plate.fine else 3.0
    us = _graded(long_stops, length, size_mm, coarse * size_mm)
    vs = _graded(cross_stops, depth, depth / plate.rows, depth / plate.rows)
    u, v = np.meshgrid(us, vs, indexing="ij")
    u, v = u[..., None], v[..., None]
    xy = (1 - u) * (1 - v) * c0 + u * (1 - v) * c1 + u * v * c2 + (1 - u) * v * c3
    nu, nv = len(us), len(vs)
    index = np.arange(nu * nv).reshape(nu, nv)
    a, b, c, d = index[:-1, :-1], index[1:, :-1], index[1:, 1:], index[:-1, 1:]
    flip = (np.add.outer(np.arange(nu - 1), np.arange(nv - 1)) % 2).astype(bool)
    one = np.where(flip[..., None], np.stack([a, b, c], -1), np.stack([a, b, d], -1))
    two = np.where(flip[..., None], np.stack([a, c, d], -1), np.stack([b, c, d], -1))
    cells = np.concatenate([one.reshape(-1, 3), two.reshape(-1, 3)])
    return xy.reshape(-1, 2), cells


def _graded(stops: set[float], length: float, fine: float, coarse: float) -> NDArray[np.float64]:
    """Shares of a length: through all stops, fine beside them, up to `coarse` between."""
    places = sorted(stops)
    kept = [places[0]]
    for place in places[1:]:
        if (place - kept[-1]) * length > 1e-4:
            kept.append(place)
    kept[-1] = 1.0
    shares = [kept[0]]
    for low, high in pairwise(kept):
        span = (high - low) * length
        steps = _steps(span, fine, coarse)
        shares += [low + (high - low) * float(s) / span for s in np.cumsum(steps)]
        shares[-1] = high
    return np.asarray(shares)


def _steps(span: float, fine: float, coarse: float) -> NDArray[np.float64]:
    """Cell lengths over a span, growing by a third from both ends up to `coarse`."""
    if span <= 3 * fine:
        count = max(1, math.ceil(span / fine - 1e-9))
        return np.full(count, span / count)
    half, step, total = [], fine, 0.0
    while total + step < span / 2:
        half.append(step)
        total += step
        step = min(step * 1.35, coarse)
    steps = np.asarray(half + half[::-1])
    rest = span - 2 * total
    if rest > 0.6 * half[-1]:
        steps = np.insert(steps, len(half), rest)
    return np.asarray(steps * (span / steps.sum()))


def bead_cells(
    bead: Bead, plate_points: NDArray[np.float64], size_mm: float
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Triangles over a bead: its boundary takes the plates' nodes, so that they can be joined."""
    from scipy.spatial import Delaunay

    boundary: list[NDArray[np.float64]] = []
    for a, b in edges(bead.section):
        length = float(np.linalg.norm(b - a))
        shares = {0.0}
        low, high = np.minimum(a, b) - 2 * NEAR, np.maximum(a, b) + 2 * NEAR
        close = ((plate_points >= low) & (plate_points <= high)).all(axis=1)
        for point in plate_points[close]:
            if on_edge(point, a, b):
                share = float(np.linalg.norm(point - a)) / length
                if NEAR < share * length < length - NEAR:
                    shares.add(round(share, 9))
        gaps = sorted([*shares, 1.0])
        for here, there in pairwise(gaps):
            boundary.append(a + here * (b - a))
            if (there - here) * length > 1.5 * size_mm and len(gaps) == 2:  # a free face
                count = math.ceil((there - here) * length / size_mm)
                boundary += [
                    a + (here + (there - here) * i / count) * (b - a) for i in range(1, count)
                ]
    ring = np.vstack(boundary)
    centre = ring.mean(axis=0)
    inner = [centre] if len(ring) < 9 else [centre, *(0.5 * (ring[::2] + centre))]
    points = np.vstack([ring, *[np.atleast_2d(p) for p in inner]])
    cells = Delaunay(points).simplices
    a, b, c = (points[cells[:, i]] for i in range(3))
    areas = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    return points, cells[np.abs(areas) > 1e-7]
