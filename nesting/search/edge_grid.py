"""Distance to a polygon in a few steps: a grid whose cells list the edges that can be nearest.

mm. The outline runs counter-clockwise, rings of holes clockwise: material lies left of an edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from platewheel.nesting.search.compiled import leaf

CELLS = 64  # along the longer side
STRAIGHT = 1e-3  # sine of a turn at a corner that counts as none


@dataclass(frozen=True)
class EdgeGrid:
    """Edges as (x0, y0, x1, y1, start, end): +1 where a point nearest to that corner is outside,
    -1 inside, 0 where the corner is straight. Cell (i, j) is number i * rows + j."""

    edges: Any  # (edges, 6)
    x: float
    y: float
    cell: float
    columns: int
    rows: int
    first: Any  # (cells + 1,)
    near: Any  # (listed,): edge numbers


def edge_grid(rings: Sequence[Sequence[tuple[float, float]]], around_mm: float) -> EdgeGrid:
    """A grid over the box of the rings and so much around it.

    A point of a cell is at most half a diagonal from its middle, so its nearest edge is at most a
    diagonal further from the middle than the middle's own: those edges are listed.
    """
    edges = np.array([row for ring in rings for row in _edges_of(ring)])
    low, high = edges[:, :2].min(axis=0) - around_mm, edges[:, :2].max(axis=0) + around_mm
    cell = max(high - low) / CELLS
    columns, rows = (max(1, math.ceil(side / cell)) for side in high - low)
    middles = np.stack(np.meshgrid(np.arange(columns), np.arange(rows), indexing="ij"), axis=-1)
    points = (low + (middles.reshape(-1, 2) + 0.5) * cell)[:, None, :]
    start, along = edges[:, :2], edges[:, 2:4] - edges[:, :2]
    t = np.clip(((points - start) * along).sum(axis=2) / (along**2).sum(axis=1), 0, 1)
    off = np.linalg.norm(points - start - t[:, :, None] * along, axis=2)
    listed = off <= off.min(axis=1, keepdims=True) + cell * math.sqrt(2) + 1e-9
    first = np.concatenate([[0], np.cumsum(listed.sum(axis=1))])
    return EdgeGrid(edges, low[0], low[1], cell, columns, rows, first, np.nonzero(listed)[1])


def _edges_of(ring: Sequence[tuple[float, float]]) -> list[tuple[float, ...]]:
    points = [p for p, q in zip(ring, [*ring[1:], ring[0]], strict=True) if math.dist(p, q) > 1e-9]
    kinds = []
    for k, at in enumerate(points):
        before, after = points[k - 1], points[(k + 1) % len(points)]
        ux, uy, vx, vy = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
        sine = (ux * vy - uy * vx) / (math.hypot(ux, uy) * math.hypot(vx, vy))
        sharp = abs(sine) > STRAIGHT or ux * vx + uy * vy < 0
        kinds.append(math.copysign(1.0, sine) if sharp else 0.0)
    turned = zip(points, [*points[1:], points[0]], kinds, [*kinds[1:], kinds[0]], strict=True)
    return [(*p, *q, start, end) for p, q, start, end in turned]


@leaf
def to_edges(edges, listed, first, last, x, y):
    """Signed distance from a point to the edges numbered in part of a list, negative inside.

    Inside is told at the nearest edge: its left side, or by the kind of corner.
    """
    best = 1e300
    outside = True
    for k in range(first, last):
        e = listed[k]
        px, py = x - edges[e, 0], y - edges[e, 1]
        dx, dy = edges[e, 2] - edges[e, 0], edges[e, 3] - edges[e, 1]
        t = (px * dx + py * dy) / (dx * dx + dy * dy)
        kind = 0.0
        if t <= 0.0:
            t, kind = 0.0, edges[e, 4]
        elif t >= 1.0:
            t, kind = 1.0, edges[e, 5]
        ex, ey = px - t * dx, py - t * dy
        d = ex * ex + ey * ey
        if d < best:
            best = d
            outside = kind > 0.0 if kind != 0.0 else dx * py < dy * px
    return np.sqrt(best) if outside else -np.sqrt(best)
