"""Blanks, plate and gaps as the arrays that the compiled search works on. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from platewheel.nesting.geometry.facets import sector_of
from platewheel.nesting.search.samples import PACES_MM, samples
from platewheel.nesting.search.shape import ROUNDING_MM, SEARCH_EXTRA_MM, Shape, rectangle, ring
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.outline import Circle, moved_point

AROUND_MM = 1.0  # of a polygon's grid, over the spacing and the largest sample disc


def _primitives(shape: Shape) -> list[tuple[int, list[float]]]:
    """Kind and parameters of each primitive, in the shape's frame; a polygon's come later."""
    from platewheel.nesting.search.distance import DISC, POLYGON, RECTANGLE, SECTOR

    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [(DISC, [0, 0, blank.outline.radius_mm])]
    sector = sector_of(blank.outline)
    if sector is not None:
        inner, outer, _, sweep, _ = sector
        half = math.radians(sweep / 2)
        back = -shape.back_mm
        found: list[tuple[int, list[float]]] = [
            (SECTOR, [back, 0, inner, outer, math.cos(half), math.sin(half)])
        ]
        if shape.inner is not None:
            assert isinstance(shape.inner.outline, Circle)
            found.append((DISC, [back, 0, shape.inner.outline.radius_mm]))
        return found
    sides = rectangle(blank)
    if sides is not None:
        return [(RECTANGLE, [0, 0, sides[0] / 2, sides[1] / 2])]
    return [(POLYGON, [])]


def _allowed(shape: Shape) -> list[float]:
    """Turns of the shape's frame; empty for any."""
    names = {"any": 0, "quarter": 4, "half": 2, "fixed": 1}
    count = names[shape.turns]
    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [0.0]
    if count == 0:
        x0, y0, x1, y1 = blank.bounds
        if sector_of(blank.outline) is None and max(x1 - x0, y1 - y0) > 4 * min(x1 - x0, y1 - y0):
            count = 4  # long strips lie along the plate or across it
        else:
            return []
    return [math.radians(shape.along_deg + 360 * k / count) for k in range(count)]


def world_of(
    shapes: Sequence[Shape],
    sheet: Sheet,
    spacing_mm: float,
    margin_mm: float,
    length_mm: float,
    pace_mm: float = PACES_MM[0],
) -> Any:
    """Arrays for shapes on a plate of which `length_mm` may be used."""
    from platewheel.nesting.search.distance import World

    spacing = spacing_mm + SEARCH_EXTRA_MM
    prims = [_primitives(shape) for shape in shapes]
    sampled = [samples(shape, pace_mm) for shape in shapes]
    largest = max(radius for points, _, _ in sampled for _, _, radius in points)
    params, grids = _params(shapes, prims, spacing + largest + AROUND_MM)
    turns = [_allowed(shape) for shape in shapes]
    table = np.zeros((len(shapes), max(1, *(len(t) for t in turns))))
    for i, allowed in enumerate(turns):
        table[i, : len(allowed)] = allowed
    gap = margin_mm + ROUNDING_MM
    plate = _edges_of_plate(sheet)
    end = min(length_mm, sheet.length_mm)
    return World(
        np.cumsum([0, *(len(p) for p in prims)]),
        np.array([kind for own in prims for kind, _ in own]),
        params,
        *grids,
        np.cumsum([0, *(len(points) for points, _, _ in sampled)]),
        np.array([point for points, _, _ in sampled for point in points]),
        np.array([pace for _, pace, _ in sampled]),
        np.array([loose for _, _, loose in sampled]),
        np.array([_round(shape) for shape in shapes]),
        np.array([math.sqrt(shape.area_mm2) for shape in shapes]),
        np.array([len(t) for t in turns]),
        table,
        spacing,
        np.array([gap, gap, end - gap, sheet.width_mm - gap]),
        plate,
        np.arange(len(plate)),
        gap,
    )


def _params(
    shapes: Sequence[Shape], prims: Sequence[Any], around: float
) -> tuple[Any, tuple[Any, Any, Any, Any]]:
    """Rows of the primitives; edges, hulls, first and near edges of cells of all polygons."""
    from platewheel.nesting.search.distance import POLYGON

    edges, hulls = [np.zeros((0, 6))], [np.zeros((0, 2))]
    first, near = [np.zeros(0, np.int64)], [np.zeros(0, np.int64)]
    rows = []
    for shape, own in zip(shapes, prims, strict=True):
        for kind, given in own:
            row = [*given, *[0.0] * (13 - len(given))]
            if kind == POLYGON:
                corners = tuple(ring(shape))
                grid, hull = _grid_of(corners, around), _hull(corners)
                row[2:] = [
                    grid.x, grid.y, grid.cell, grid.columns, grid.rows, sum(map(len, first)),
                    sum(map(len, hulls)), sum(map(len, hulls)) + len(hull), around,
                    sum(map(len, edges)), sum(map(len, edges)) + len(grid.edges),
                ]  # fmt: skip
                first.append(grid.first + sum(map(len, near)))
                near.append(grid.near + sum(map(len, edges)))
                edges.append(grid.edges)
                hulls.append(hull)
            rows.append(row)
    joined = [np.concatenate(part) for part in (edges, hulls, first, near)]
    return np.array(rows), (joined[0], joined[1], joined[2], joined[3])


@lru_cache(maxsize=256)
def _grid_of(corners: tuple[Any, ...], around: float) -> Any:
    from platewheel.nesting.search.edge_grid import edge_grid

    return edge_grid([corners], around)


@lru_cache(maxsize=256)
def _hull(corners: tuple[Any, ...]) -> Any:
    import shapely

    return np.array(shapely.MultiPoint(corners).convex_hull.exterior.coords)[:-1]


def _edges_of_plate(sheet: Sheet) -> Any:
    """Edges of an uneven plate, steel on their left; none for a plain one."""
    from platewheel.nesting.search.edge_grid import edge_grid

    if not sheet.is_offcut:
        return np.zeros((0, 6))
    import shapely

    steel = shapely.geometry.polygon.orient(shapely.Polygon(sheet.corners, sheet.holes))
    rims = (steel.exterior, *steel.interiors)
    return edge_grid([list(rim.coords)[:-1] for rim in rims], 0.0).edges


def _round(shape: Shape) -> tuple[float, float, float]:
    """A small circle round all of a shape, in its frame."""
    import shapely

    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return 0.0, 0.0, blank.outline.radius_mm
    corners = [moved_point(p, 0.0, 0.0, -shape.along_deg) for p in ring(shape)]
    middle = shapely.minimum_bounding_circle(shapely.MultiPoint(corners)).centroid
    at = (middle.x, middle.y)
    return *at, max(math.dist(at, corner) for corner in corners) + 1e-6
