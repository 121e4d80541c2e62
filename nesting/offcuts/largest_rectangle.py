"""The largest upright rectangle that is free of parts: found on a grid, then grown to the parts.

Grid cells count as taken when any of them is; the best blocks of free cells are grown until they
meet the parts' true curves, within 0.02 mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.nesting.geometry.free_cells import largest_blocks, taken_cells
from platewheel.nesting.offcuts.taken import off_plate_rings, taken_rings
from platewheel.nesting.stock.layout import Layout

if TYPE_CHECKING:
    from numpy.typing import NDArray

CELL_MM = 5.0
MOST_CELLS = 1000  # along a side of a very long plate; its cells are larger
FACET_MM = 0.02
BLOCKS = 8  # that are grown
END_WORTH = 1.1  # of a rest over the full width at the plate's end: one cut across frees it
HAIR_MM = 1e-7
Rectangle = tuple[float, float, float, float]  # x0, y0, x1, y1


def largest_rectangle(
    layout: Layout,
    clear_mm: float,
    least_side_mm: float = 0.0,
    kept: Sequence[Rectangle] = (),
    gap_mm: float = 0.0,
) -> Rectangle | None:
    """Largest free rectangle x0, y0, x1, y1 with no side below the least; None if there is none.

    Every part stays at least `clear_mm` away, every rectangle kept before `gap_mm`; the plate's
    edge may be touched. A rest over the full width at the plate's end is preferred to a rectangle
    up to a tenth larger.
    """
    walls = _walls(layout, clear_mm, kept, gap_mm)
    best: tuple[float, Rectangle] | None = None
    blocks = _blocks(layout, clear_mm, least_side_mm, kept, gap_mm)
    grown = [walls.grown(block) for block in blocks]
    grown += walls.end_strip()
    for room in grown:
        x0, y0, x1, y1 = room
        if min(x1 - x0, y1 - y0) < max(least_side_mm, HAIR_MM):
            continue
        worth = _area(room) * (END_WORTH if walls.is_end(room) else 1.0)
        if best is None or worth > best[0] + HAIR_MM:
            best = worth, room
    return best[1] if best else None


def _area(room: Rectangle) -> float:
    return (room[2] - room[0]) * (room[3] - room[1])


def _blocks(
    layout: Layout,
    clear_mm: float,
    least_side_mm: float,
    kept: Sequence[Rectangle],
    gap_mm: float,
) -> Iterator[Rectangle]:
    """Free blocks of whole cells, those first that may grow largest."""
    sheet = layout.sheet
    cell = max(CELL_MM, sheet.length_mm / MOST_CELLS, sheet.width_mm / MOST_CELLS)
    shape = (int(sheet.length_mm // cell), int(sheet.width_mm // cell))
    half = cell * 0.7072
    rings = taken_rings(layout, clear_mm + half, CELL_MM / 10)
    rings += off_plate_rings(sheet, half)
    rings += [_ring(room, gap_mm + half) for room in kept]
    free = ~taken_cells(rings, shape, cell)
    for i, j, ni, nj in largest_blocks(free, least_side_mm / cell - 2, BLOCKS):
        yield i * cell, j * cell, (i + ni) * cell, (j + nj) * cell


def _ring(room: Rectangle, wider_mm: float) -> NDArray[np.float64]:
    x0, y0, x1, y1 = room
    x0, y0, x1, y1 = x0 - wider_mm, y0 - wider_mm, x1 + wider_mm, y1 + wider_mm
    return np.asarray([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)])


def _walls(layout: Layout, clear_mm: float, kept: Sequence[Rectangle], gap_mm: float) -> Walls:
    rings = taken_rings(layout, clear_mm, FACET_MM) + [_ring(room, gap_mm) for room in kept]
    rings += off_plate_rings(layout.sheet)
    none = np.zeros((0, 2))
    starts = np.concatenate([none, *(ring[:-1] for ring in rings)])
    ends = np.concatenate([none, *(ring[1:] for ring in rings)])
    plate = (0.0, 0.0, layout.sheet.length_mm, layout.sheet.width_mm)
    return Walls(_upward(starts, ends, 1), _upward(starts, ends, 0), plate)


def _upward(
    starts: NDArray[np.float64], ends: NDArray[np.float64], axis: int
) -> NDArray[np.float64]:
    """Rows across at the lower end, along, across at the upper end, along; by the `axis`."""
    up = starts[:, axis] <= ends[:, axis]
    low, high = np.where(up[:, None], starts, ends), np.where(up[:, None], ends, starts)
    return np.stack([low[:, 1 - axis], low[:, axis], high[:, 1 - axis], high[:, axis]])


@dataclass(frozen=True)
class Walls:
    """Straight pieces that bound what is taken, as rows sorted along y and along x."""

    along_y: NDArray[np.float64]
    along_x: NDArray[np.float64]
    plate: Rectangle

    def grown(self, room: Rectangle) -> Rectangle:
        """The free rectangle grown as far as it goes along both axes, in the better order."""
        across = self._stretched(self._stretched(room, 0), 1)
        upward = self._stretched(self._stretched(room, 1), 0)
        return max(across, upward, key=_area)

    def _stretched(self, room: Rectangle, axis: int) -> Rectangle:
        x0, y0, x1, y1 = room
        if axis == 0:
            x0, x1 = _room(self.along_y, (y0, y1), (x0, x1), (self.plate[0], self.plate[2]))
        else:
            y0, y1 = _room(self.along_x, (x0, x1), (y0, y1), (self.plate[1], self.plate[3]))
        return x0, y0, x1, y1

    def end_strip(self) -> list[Rectangle]:
        """What lies past all parts at the plate's end, over its full width."""
        _, _, x1, y1 = self.plate
        last = max(self.along_y[[0, 2]].max(initial=0.0), 0.0)
        return [(float(last), 0.0, x1, y1)] if last < x1 else []

    def is_end(self, room: Rectangle) -> bool:
        return room[1:] == self.plate[1:]


def _room(
    walls: NDArray[np.float64],
    strip: tuple[float, float],
    span: tuple[float, float],
    limits: tuple[float, float],
) -> tuple[float, float]:
    """How far a free span reaches to both sides before anything stands in its strip."""
    low, high = strip[0] + HAIR_MM, strip[1] - HAIR_MM
    u0, v0, u1, v1 = walls[:, (walls[3] > low) & (walls[1] < high)]
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = np.where(v1 > v0, (u1 - u0) / (v1 - v0), 0.0)
    a = np.where(v0 < low, u0 + (low - v0) * slope, u0)
    b = np.where(v1 > high, u1 - (v1 - high) * slope, u1)
    least, most = np.minimum(a, b), np.maximum(a, b)
    after = least + most > span[0] + span[1]
    return (
        float(most[~after].max(initial=limits[0])),
        float(least[after].min(initial=limits[1])),
    )
