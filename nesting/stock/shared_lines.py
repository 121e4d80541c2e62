"""Lines that two parts of a layout share: cut once, with the first of the two."""

from __future__ import annotations

import math
from collections.abc import Sequence

from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import Loop, polygon, segments

Pairs = tuple[tuple[int, int], ...]


def cut_before(layout: Layout) -> dict[int, Placement]:
    """By the id of a placement, the one in whose kerf its own cut begins."""
    parts = layout.placements
    return {id(parts[after]): parts[before] for before, after in layout.shared}


def still_shared(layout: Layout, kept: Sequence[Placement]) -> Pairs:
    """The shared lines among those of a layout's placements that are kept, by their new places."""
    places = {id(placement): i for i, placement in enumerate(kept)}
    pairs = [[places.get(id(layout.placements[k])) for k in pair] for pair in layout.shared]
    return tuple((a, b) for a, b in pairs if a is not None and b is not None)


def rows_of(count: int, shared: Pairs) -> list[tuple[int, ...]]:
    """So many placements as rows to cut one after the other: those that share lines, in the order
    of the pairs, and each other by itself."""
    rows: dict[int, list[int]] = {k: [k] for k in range(count)}
    for before, after in shared:
        row = rows[before]
        row += rows[after]
        rows |= dict.fromkeys(rows[after], row)
    return [tuple(row) for k, row in rows.items() if row[0] == k]


def hull_of(parts: Sequence[Placement]) -> Loop:
    """What strips side by side cover."""
    import shapely

    corners = [side.start for part in parts for side in segments(part.outline)]
    hull = shapely.MultiPoint(corners).convex_hull
    return polygon([(x, y) for x, y in hull.exterior.coords[:-1]])


def lines_saved(layouts: Sequence[Layout]) -> tuple[int, float]:
    """How many lines two parts share, repeats counted, and the length of cut that they save, mm."""
    count = sum(len(layout.shared) * layout.repeat for layout in layouts)
    saved = (
        layout.repeat * max(side.length_mm for side in segments(layout.placements[k].outline))
        for layout in layouts
        for _, k in layout.shared
    )
    return count, math.fsum(saved)
