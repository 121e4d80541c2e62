"""The no-fit region of two polygons of many corners, by the edges that bound it: no union of sums.

The sum of two simple polygons is where the winding number of their convolution is not nothing: it
counts the parts in which one overlaps the other. Source: Guibas, Ramshaw and Stolfi, A kinetic
framework for computational geometry, 1983 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

PAST_MM = 1e-7  # beyond what directions and sums are rounded by, far below the spacing's HAIR_MM
ROUND = 2**40  # parts of a full turn: directions are whole numbers, so that like ones are the same


@dataclass(frozen=True)
class Walk:
    """Once round a simple polygon, counter-clockwise: sides, the way each faces, and at the corner
    where each begins how far it turns (below nothing: to the right)."""

    corners: NDArray[np.float64]  # (sides, 2): where each begins
    sides: NDArray[np.float64]  # (sides, 2)
    faces: NDArray[np.int64]  # parts of a turn
    turns: NDArray[np.int64]


def walk_of(points: Sequence[Sequence[float]] | NDArray[np.float64]) -> Walk:
    """The walk round a polygon's corners, either way round."""
    corners = np.asarray(points, dtype=np.float64)
    corners = corners[(corners != np.roll(corners, -1, axis=0)).any(axis=1)]
    (x, y), (u, v) = corners.T, np.roll(corners, -1, axis=0).T
    if (x * v - u * y).sum() < 0:
        corners = corners[::-1]
    sides = np.roll(corners, -1, axis=0) - corners
    angle = np.arctan2(sides[:, 1], sides[:, 0]) / (2 * np.pi)
    faces = np.round(angle * ROUND).astype(np.int64) % ROUND
    turns = (faces - np.roll(faces, 1) + ROUND // 2) % ROUND - ROUND // 2
    return Walk(corners, sides, faces, turns)


def walked_sum(a: Walk, b: Walk) -> NDArray[np.float64]:
    """Edges x0, y0, x1, y1 of the convolution: (edges, 4); they make closed walks.

    A side of one lies at each corner of the other that turns through its direction, run backwards
    where that turns to the right. Of two sides that face alike, that of `a` comes first.
    """
    return np.concatenate([_sides_at(a, b, after=True), _sides_at(b, a, after=False)])


def _sides_at(walk: Walk, other: Walk, *, after: bool) -> NDArray[np.float64]:
    low = other.faces - np.maximum(other.turns, 0)  # the corner turns from there, or to there
    past = (walk.faces[:, None] - low[None]) % ROUND
    wide = np.abs(other.turns)[None]
    side, corner = np.nonzero((past > 0) & (past <= wide) if after else past < wide)
    start = walk.corners[side] + other.corners[corner]
    end = np.roll(walk.corners, -1, axis=0)[side] + other.corners[corner]  # where the next begins
    right = other.turns[corner] < 0
    start[right], end[right] = end[right], start[right]
    return np.concatenate([start, end], axis=1)


def mask_within(
    edges: NDArray[np.float64], first: tuple[float, float], step_mm: float
) -> tuple[NDArray[np.bool_], tuple[int, int]]:
    """Grid points first + (i, j) step that the closed walks go round, as mask[i, j], with the index
    of its corner. Exact at the grid points.

    Asked a little past each, since grid points may lie on sides that are run both ways: rounding
    would tell on which side of either.
    """
    first = (first[0] + PAST_MM, first[1] + PAST_MM)
    ends = edges.reshape(-1, 2)
    (x0, y0), (x1, y1) = ends.min(axis=0), ends.max(axis=0)
    low = (int(np.ceil((x0 - first[0]) / step_mm)), int(np.ceil((y0 - first[1]) / step_mm)))
    high = (int(np.floor((x1 - first[0]) / step_mm)), int(np.floor((y1 - first[1]) / step_mm)))
    columns, rows = max(0, high[0] - low[0] + 1), max(0, high[1] - low[1] + 1)
    ax, ay, bx, by = edges.T
    start, stop = (
        np.clip(np.ceil((x - first[0]) / step_mm).astype(int) - low[0], 0, columns)
        for x in (np.minimum(ax, bx), np.maximum(ax, bx))  # half open
    )
    counts = stop - start
    edge = np.repeat(np.arange(len(edges)), counts)
    column = np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts - start, counts)
    slope = (by - ay)[edge] / (bx - ax)[edge]
    y = ay[edge] + (first[0] + (column + low[0]) * step_mm - ax[edge]) * slope
    row = np.clip(np.ceil((y - first[1]) / step_mm).astype(int) - low[1], 0, rows)
    flips = np.zeros((columns, rows + 1), dtype=np.int32)
    ways = np.where(bx > ax, 1, -1).astype(np.int32)[edge]
    np.add.at(flips.reshape(-1), column * (rows + 1) + row, ways)
    return np.cumsum(flips[:, :-1], axis=1, dtype=np.int32) > 0, low
