"""Discs inside a shape and points on its edge, by which the search sees overlap. mm."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from platewheel.nesting.geometry.facets import sector_of
from platewheel.nesting.search.shape import PACE_MM, Shape, rectangle, ring
from platewheel.parts.geometry.outline import Circle, Point

PACES_MM = (PACE_MM, PACE_MM / 5)  # on the edge of a polygon; where the first misses a crossing
POLES, LEAST_POLE = 12, 0.2  # most discs in a polygon; radius of the least, of the largest's
LOOSE = 0.3  # of a band's width: more than any of it is from its sample discs
CLOSE = 0.75  # of their diameter, from inscribed disc to disc in a band


def samples(shape: Shape, pace_mm: float) -> tuple[list[tuple[float, float, float]], float, float]:
    """Sample discs (x, y, radius) of a shape in its frame, the edge each stands for, and how far
    any point of the shape is from the discs: below nothing for a lone disc, no end for polygons.

    They leave no way for a part to lie across another unseen: inscribed discs closer than their
    diameter in bands, points closer than the pace round other outlines.
    """
    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [(0.0, 0.0, blank.outline.radius_mm)], blank.outline.radius_mm / 4, -1.0
    sector = sector_of(blank.outline)
    if sector is not None:
        near, far, _, sweep, _ = sector
        points = [
            (x - shape.back_mm, y, r) for x, y, r in _band(near, far, math.radians(sweep / 2))
        ]
        if shape.inner is not None:
            assert isinstance(shape.inner.outline, Circle)
            points.append((-shape.back_mm, 0.0, shape.inner.outline.radius_mm))
        return points, CLOSE * (far - near), LOOSE * (far - near)
    sides = rectangle(blank)
    if sides is not None:
        a, b = sides[0] / 2, sides[1] / 2
        points = []
        short, run = min(a, b), abs(a - b)
        count = max(1, math.ceil(2 * run / (2 * CLOSE * short))) + 1
        for k in range(count):
            along = -run + 2 * run * k / (count - 1)
            points.append((along, 0.0, short) if a > b else (0.0, along, short))
        points += [(a, b, 0.0), (-a, b, 0.0), (-a, -b, 0.0), (a, -b, 0.0)]
        return points, 2 * CLOSE * short, 2 * LOOSE * short
    corners = ring(shape)
    points, length = [], 0.0
    for p, q in zip(corners, [*corners[1:], corners[0]], strict=True):
        side = math.dist(p, q)
        length += side
        count = max(1, math.ceil(side / pace_mm))
        for k in range(count):
            x, y = p[0] + k / count * (q[0] - p[0]), p[1] + k / count * (q[1] - p[1])
            points.append((x, y, 0.0))
    each = length / len(points)
    return points + poles(tuple(corners)), each, 1e9


@lru_cache(maxsize=256)
def poles(corners: tuple[Point, ...]) -> list[tuple[float, float, float]]:
    """Discs inside a polygon that tell how deep another lies in it: the largest first, then where
    those before leave the most room."""
    from platewheel.nesting.search.edge_grid import edge_grid, to_edges

    grid = edge_grid([corners], 0.0)
    middles = [
        (grid.x + (i + 0.5) * grid.cell, grid.y + (j + 0.5) * grid.cell)
        for i in range(grid.columns)
        for j in range(grid.rows)
    ]
    deep = [
        -to_edges(grid.edges, grid.near, grid.first[k], grid.first[k + 1], *middle)
        for k, middle in enumerate(middles)
    ]
    room = np.array(deep)
    points, radius = np.array(middles), np.array(deep)
    found: list[tuple[float, float, float]] = []
    while len(found) < POLES and room.max() > LEAST_POLE * radius.max() > 0:
        k = int(room.argmax())
        found.append((*middles[k], deep[k]))
        room = np.minimum(room, np.linalg.norm(points - points[k], axis=1) - deep[k])
    return found


def _band(near: float, far: float, half: float) -> list[tuple[float, float, float]]:
    """Inscribed discs along the middle of an annular sector about +x, and its corners."""
    middle, r = (near + far) / 2, (far - near) / 2
    end = half - math.asin(min(1.0, r / middle))
    if end <= 0:
        end, r = 0.0, middle * math.sin(min(half, math.pi / 2))
        r = min(r, (far - near) / 2)
    count = max(1, math.ceil(2 * end * middle / (2 * CLOSE * r))) + 1
    turns = [-end + 2 * end * k / (count - 1) for k in range(count)]
    discs = [(middle * math.cos(t), middle * math.sin(t), r) for t in turns]
    corners = [
        (rho * math.cos(t), rho * math.sin(t), 0.0) for rho in (near, far) for t in (-half, half)
    ]
    return discs + corners
