"""What is left of a plate: the largest upright rectangle free of parts, for the next job."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from nesting.facets import outer_polygon
from nesting.layout import Layout
from nesting.no_fit import mask_of
from parts.spec_model import toml_value

if TYPE_CHECKING:
    from numpy.typing import NDArray

CELL_MM = 5.0
NAME_LENGTH = 44  # of an offcut's name, to leave room for its number
LEAST_SIDE_MM = 150.0  # smaller pieces go to scrap
Rectangle = tuple[float, float, float, float]  # x0, y0, x1, y1


@dataclass(frozen=True)
class LeftOver:
    """A rectangle worth keeping, on one layout; there are as many as the layout is repeated."""

    layout: Layout
    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float

    @property
    def area_mm2(self) -> float:
        return (self.x1_mm - self.x0_mm) * (self.y1_mm - self.y0_mm)


def left_over(layout: Layout, clear_mm: float) -> LeftOver | None:
    """Largest upright rectangle at least `clear_mm` from every part; None below the least side.

    Found on a 5 mm grid whose cells count as taken when any of them is.
    """
    import shapely

    sheet = layout.sheet
    plate = shapely.Polygon(sheet.corners, sheet.holes)
    taken = [shapely.Polygon(outer_polygon(p.outline)).buffer(clear_mm) for p in layout.placements]
    off = shapely.box(0, 0, sheet.length_mm, sheet.width_mm).difference(plate)
    region = shapely.union_all([*taken, off]).buffer(CELL_MM * 0.7072)
    shape = (int(sheet.length_mm // CELL_MM), int(sheet.width_mm // CELL_MM))
    free = np.ones(shape, dtype=np.bool_)
    cells, (i0, j0) = mask_of(region, (CELL_MM / 2, CELL_MM / 2), CELL_MM)
    a0, b0 = max(0, i0), max(0, j0)
    a1, b1 = min(shape[0], i0 + cells.shape[0]), min(shape[1], j0 + cells.shape[1])
    free[a0:a1, b0:b1] &= ~cells[a0 - i0 : a1 - i0, b0 - j0 : b1 - j0]
    i, j, ni, nj = largest_block(free)
    if min(ni, nj) * CELL_MM < LEAST_SIDE_MM:
        return None
    x1 = sheet.length_mm if i + ni == shape[0] and not sheet.is_offcut else (i + ni) * CELL_MM
    y1 = sheet.width_mm if j + nj == shape[1] and not sheet.is_offcut else (j + nj) * CELL_MM
    return LeftOver(layout, i * CELL_MM, j * CELL_MM, x1, y1)


def largest_block(free: NDArray[np.bool_]) -> tuple[int, int, int, int]:
    """Largest all-true block of a grid: first row, first column, rows, columns."""
    depth = np.zeros(free.shape[1], dtype=int)
    best = (0, 0, 0, 0)
    for row in range(free.shape[0]):
        depth = np.where(free[row], depth + 1, 0)
        stack: list[tuple[int, int]] = []  # first column, height; heights rising
        for column, height in enumerate([*depth.tolist(), 0]):
            start = column
            while stack and stack[-1][1] >= height:
                start, tall = stack.pop()
                if tall * (column - start) > best[2] * best[3]:
                    best = (row - tall + 1, start, tall, column - start)
            stack.append((start, height))
    return best


def offcuts_toml(kept: list[LeftOver], job_name: str) -> str:
    """`[[offcut]]` tables ready for the next job file."""
    lines = [f"# left by {job_name}; measure before use", ""]
    short = job_name[:NAME_LENGTH].rstrip()
    number = 0
    for piece in kept:
        for _ in range(piece.layout.repeat):
            number += 1
            x, y = piece.x1_mm - piece.x0_mm, piece.y1_mm - piece.y0_mm
            corners = [[0.0, 0.0], [x, 0.0], [x, y], [0.0, y]]
            lines += [
                "[[offcut]]",
                f"name = {toml_value(f'{short} left {number}')}",
                f"steel = {toml_value(piece.layout.sheet.steel)}",
                f"thickness_mm = {toml_value(piece.layout.sheet.thickness_mm)}",
                f"outline = {toml_value(corners)}",
                "",
            ]
    return "\n".join(lines)
