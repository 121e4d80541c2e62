"""The order in which a plate is cut: short travel, heat kept apart, what lies inside first.

A part's holes come before its outline, which frees it; a part that lies in another's hole, or
in the mouth of its outline, comes before the part that holds it.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from platewheel.nesting.cutting.short_path import Places, short_path
from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.geometry.gaps import box_gap, loop_gap
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.shared_lines import Pairs, rows_of
from platewheel.parts.geometry.outline import Loop, Point, bounds, contains, segments

if TYPE_CHECKING:
    from numpy.typing import NDArray

HOME = (0.0, 0.0)  # where the torch waits: the plate's lower left corner


def cut_order(layout: Layout, cutting: Cutting) -> tuple[Placement, ...]:
    """Placements in the order of cutting; the same layout gives the same order.

    With `heat_apart_mm`, the next part lies at least that far from the one just cut wherever
    any that may be cut does. Of two that share a line, the one comes first in whose cut the other
    begins.
    """
    order = _order(layout.placements, cutting.heat_apart_mm, layout.shared)
    return tuple(layout.placements[i] for i in order)


def cuts(placement: Placement) -> tuple[Loop, ...]:
    """The part's cuts in their order: nothing is left to cut once the outline frees it."""
    return (*placement.holes, placement.outline)


def start_of(cut: Loop) -> Point:
    """Where a cut begins as drawn without a lead; a circle at its right."""
    return segments(cut)[0].start


@lru_cache(maxsize=64)  # file, report and time ask for the order of one layout
def _order(
    placements: tuple[Placement, ...], heat_apart_mm: float, shared: Pairs
) -> tuple[int, ...]:
    if not placements:
        return ()
    rows = rows_between(placements, heat_apart_mm, shared)
    return tuple(
        k for i in short_path(places_of(placements, heat_apart_mm, shared)) for k in rows[i]
    )


def rows_between(
    placements: Sequence[Placement], heat_apart_mm: float, shared: Pairs
) -> list[tuple[int, ...]]:
    """The placements as rows that are each cut without a break: strips that share lines, unless
    heat is to be kept apart."""
    return rows_of(len(placements), () if heat_apart_mm else shared)


@lru_cache(maxsize=64)
def places_of(
    placements: tuple[Placement, ...], heat_apart_mm: float, shared: Pairs = ()
) -> Places:
    """Ways between the rows of parts, and the rules that an order must keep."""
    rows = rows_between(placements, heat_apart_mm, shared)
    enter = np.array([start_of(cuts(placements[row[0]])[0]) for row in rows])
    leave = np.array([start_of(placements[row[-1]].outline) for row in rows])
    between = leave[:, None, :] - enter[None, :, :]
    first = enter - np.array(HOME)
    before = held_by(placements)
    for pair in shared:
        before[pair] = True
    return Places(
        np.hypot(between[..., 0], between[..., 1]),
        np.hypot(first[:, 0], first[:, 1]),
        _by_rows(before, rows),
        _by_rows(_nearer_than(placements, heat_apart_mm), rows),
    )


def _by_rows(table: NDArray[np.bool_], rows: Sequence[Sequence[int]]) -> NDArray[np.bool_]:
    """Whether any of a row is so with any of another."""
    if len(rows) == len(table):
        return table
    found = np.array([[table[np.ix_(a, b)].any() for b in rows] for a in rows])
    np.fill_diagonal(found, val=False)
    return found


def held_by(placements: Sequence[Placement]) -> NDArray[np.bool_]:
    """Table: the row's part lies in a hole, or whole in the mouth, of the column's part."""
    import shapely

    loops = [p.outline for p in placements]
    boxes = [bounds(loop) for loop in loops]
    held = np.zeros((len(loops), len(loops)), dtype=np.bool_)
    for i, (x0, y0, x1, y1) in enumerate(boxes):
        for j, (u0, v0, u1, v1) in enumerate(boxes):
            if boxes[i] == boxes[j] or x0 < u0 or y0 < v0 or x1 > u1 or y1 > v1:
                continue  # equal boxes too: two parts must never wait for each other
            hull = shapely.Polygon(outer_polygon(loops[j])).convex_hull
            held[i, j] = hull.contains(shapely.Polygon(outer_polygon(loops[i]))) or any(
                contains(hole, start_of(loops[i])) for hole in placements[j].holes
            )
    return held


def _nearer_than(placements: Sequence[Placement], apart_mm: float) -> NDArray[np.bool_]:
    """Table: two parts lie nearer to each other than `apart_mm`, holes' edges counted."""
    boxes = [bounds(p.outline) for p in placements]
    near = np.zeros((len(boxes), len(boxes)), dtype=np.bool_)
    for i, one in enumerate(placements):
        for j, other in enumerate(placements[:i]):
            if box_gap(boxes[i], boxes[j]) < apart_mm:
                pairs = product(cuts(one), cuts(other))
                near[i, j] = any(loop_gap(a, b, apart_mm) < apart_mm for a, b in pairs)
    return near | near.T
