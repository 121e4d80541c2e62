"""Cells of a grid that are free, and the largest blocks of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

Block = tuple[int, int, int, int]  # first row, first column, rows, columns


def taken_cells(
    rings: Sequence[NDArray[np.float64]], shape: tuple[int, int], cell_mm: float
) -> NDArray[np.bool_]:
    """Cells [i, j] whose middle lies inside any ring; rings may overlap, by winding number.

    Rings are closed, what they hold on their left; cell i, j reaches from (i, j) cells on.
    """
    turns = np.zeros((shape[0], shape[1] + 1), dtype=np.int32)
    if not rings:
        return np.zeros(shape, dtype=np.bool_)
    ax, ay = (np.concatenate([ring[:-1, axis] for ring in rings]) for axis in (0, 1))
    bx, by = (np.concatenate([ring[1:, axis] for ring in rings]) for axis in (0, 1))
    left, right = np.minimum(ax, bx), np.maximum(ax, bx)
    start = np.clip(np.ceil(left / cell_mm - 0.5).astype(int), 0, shape[0])
    stop = np.clip(np.ceil(right / cell_mm - 0.5).astype(int), 0, shape[0])  # half open
    count = stop - start
    edge = np.repeat(np.arange(len(ax)), count)
    row = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count - start, count)
    x = (row + 0.5) * cell_mm
    share = (x - ax[edge]) / (bx - ax)[edge]
    y = ay[edge] + share * (by - ay)[edge]
    column = np.clip(np.ceil(y / cell_mm - 0.5).astype(int), 0, shape[1])
    np.add.at(turns, (row, column), np.where(bx > ax, 1, -1)[edge])
    inside: NDArray[np.bool_] = np.cumsum(turns, axis=1)[:, :-1] > 0
    return inside


def largest_blocks(free: NDArray[np.bool_], least_side: float = 0.0, most: int = 1) -> list[Block]:
    """Largest all-true blocks of a grid with no side below the least, none inside another.

    Only blocks that cannot be made longer or wider are told; the largest is the first.
    """
    if free.shape[0] > free.shape[1]:  # fewer steps
        found = _blocks(free.T, least_side, most)
        return [(i, j, ni, nj) for j, i, nj, ni in found]
    return _blocks(free, least_side, most)


def _blocks(free: NDArray[np.bool_], least_side: float, most: int) -> list[Block]:
    rows, columns = free.shape
    at = np.arange(columns)
    high = np.zeros(columns, dtype=np.int64)
    left, right = np.zeros_like(high), np.full_like(high, columns)
    found: list[NDArray[np.int64]] = []
    for row in range(rows):
        open_ = free[row]
        high = np.where(open_, high + 1, 0)
        from_left = np.maximum.accumulate(np.where(open_, 0, at + 1))
        to_right = np.minimum.accumulate(np.where(open_, columns, at)[::-1])[::-1]
        left = np.where(open_, np.maximum(left, from_left), 0)
        right = np.where(open_, np.minimum(right, to_right), columns)
        wide = right - left
        last = ~free[row + 1] if row + 1 < rows else np.ones(columns, dtype=np.bool_)
        ends = np.concatenate([[0], np.cumsum(last)])
        stops = ends[right] > ends[left]  # the next row does not go on under the whole block
        good = open_ & stops & (np.minimum(wide, high) >= least_side)
        if good.any():
            found.append(np.stack([row - high + 1, left, high, wide], axis=1)[good])
    if not found:
        return []
    blocks = np.unique(np.concatenate(found), axis=0)
    order = np.argsort(-(blocks[:, 2] * blocks[:, 3]), kind="stable")
    return [(int(i), int(j), int(ni), int(nj)) for i, j, ni, nj in blocks[order][:most]]
