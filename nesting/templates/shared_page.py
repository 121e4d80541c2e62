"""Small templates side by side on one page: rows of them, the tallest first. mm.

Geometry only. Source: first fit by decreasing height, Coffman, Garey, Johnson and Tarjan, 1980.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.parts.geometry.outline import Point

GAP_MM = 6.0


@dataclass(frozen=True)
class Spot:
    """Where the box of one template lies: its number in the list, its upper left corner."""

    number: int
    at: Point


@dataclass
class _Row:
    page: int
    top: float
    height: float
    end: float  # how far along it is full


def pages_of_boxes(
    sizes_mm: Sequence[tuple[float, float]], width_mm: float, height_mm: float
) -> list[list[Spot]]:
    """The boxes (width, height) on pages; corners count from the page's lower left, y up.

    A box larger than the page is on none.
    """
    rows: list[_Row] = []
    used: list[float] = []  # of each page's height
    pages: list[list[Spot]] = []
    for number in sorted(range(len(sizes_mm)), key=lambda i: (-sizes_mm[i][1], i)):
        width, height = sizes_mm[number]
        if width > width_mm or height > height_mm:
            continue
        row = next((r for r in rows if r.end + width <= width_mm and height <= r.height), None)
        if row is None:
            page = next((i for i, full in enumerate(used) if full + height <= height_mm), None)
            if page is None:
                page = len(used)
                used.append(0.0)
                pages.append([])
            row = _Row(page, height_mm - used[page], height, 0.0)
            used[page] += height + GAP_MM
            rows.append(row)
        pages[row.page].append(Spot(number, (row.end, row.top)))
        row.end += width + GAP_MM
    return pages
