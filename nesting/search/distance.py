"""Distance from a point to a shape, negative inside, and how far a turned shape reaches. mm.

A shape is one or two primitives: disc, annular sector, rectangle, polygon. Each has its exact
distance. Only the search uses this; layouts are proved on their arcs and lines elsewhere.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from platewheel.nesting.search.compiled import leaf
from platewheel.nesting.search.edge_grid import to_edges

DISC, SECTOR, RECTANGLE, POLYGON = 0, 1, 2, 3
FAR = 1e9

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class World(NamedTuple):
    """Shapes by index; the rows of shape s are first[s] to first[s + 1]."""

    prim_first: Ints
    prim_kind: Ints
    prim: Floats  # (primitives, 13): x, y of its centre, then by kind, see `signed`
    edges: Floats  # (edges, 6) of polygons, see `edge_grid`
    hull: Floats  # (corners, 2) of polygons, for how far they reach
    cell_first: Ints  # (cells,): of all grids
    cell_edge: Ints  # (listed,): edges that can be nearest to a point in a cell
    sample_first: Ints
    sample: Floats  # (samples, 3): x, y, radius
    pace: Floats  # (shapes,): edge length that one sample stands for
    loose: Floats  # (shapes,): how far any of it is from the sample discs; < 0 = they are all of it
    round: Floats  # (shapes, 3): x, y, radius of a circle round all of it
    size: Floats  # (shapes,): root of its area
    turn_count: Ints  # (shapes,): 0 = any turn
    turns: Floats  # (shapes, most): turns allowed, radians
    spacing: float
    room: Floats  # (4,): x0, y0, x1, y1 that parts must lie in
    plate_edges: Floats  # (edges, 6) of an uneven plate; none for a plain one
    plate_list: Ints  # (edges,): all of them
    plate_gap: float  # to them


@leaf
def signed(w, p, x, y):
    """Signed distance to primitive p, negative inside. A far point of a polygon gets less."""
    x -= w.prim[p, 0]
    y -= w.prim[p, 1]
    kind = w.prim_kind[p]
    if kind == DISC:
        return np.sqrt(x * x + y * y) - w.prim[p, 2]
    if kind == SECTOR:  # 2: inner, 3: outer radius, 4, 5: cos, sin of half the sweep, about +x
        y = abs(y)
        c, s = w.prim[p, 4], w.prim[p, 5]
        across = y * c - x * s
        inner, outer = w.prim[p, 2], w.prim[p, 3]
        if across <= 0.0:
            rho = np.sqrt(x * x + y * y)
            radial = max(inner - rho, rho - outer)
            if radial > 0.0 or x * c + y * s < 0.0:
                return radial
            return max(radial, across)
        along = x * c + y * s
        off = max(inner - along, along - outer, 0.0)
        return np.sqrt(off * off + across * across)
    if kind == RECTANGLE:  # 2, 3: half sides
        x, y = abs(x) - w.prim[p, 2], abs(y) - w.prim[p, 3]
        if x <= 0.0 and y <= 0.0:
            return max(x, y)
        x, y = max(x, 0.0), max(y, 0.0)
        return np.sqrt(x * x + y * y)
    # 2, 3: corner of its grid; 4: cell; 5, 6: columns, rows; 7: first cell; 10: how far it reaches;
    # 11, 12: edges from, to
    cell = w.prim[p, 4]
    gx, gy = (x - w.prim[p, 2]) / cell, (y - w.prim[p, 3]) / cell
    columns, rows = w.prim[p, 5], w.prim[p, 6]
    off = max(-gx, -gy, gx - columns, gy - rows)
    if off >= 0.0:
        return w.prim[p, 10] + off * cell
    at = int(w.prim[p, 7]) + int(gx) * int(rows) + int(gy)
    return to_edges(w.edges, w.cell_edge, w.cell_first[at], w.cell_first[at + 1], x, y)


@leaf
def to_shape(w, s, x, y):
    """Signed distance to a shape."""
    best = FAR
    for p in range(w.prim_first[s], w.prim_first[s + 1]):
        d = signed(w, p, x, y)
        if d < best:
            best = d
    return best


@leaf
def extent(w, s, c, sn):
    """Least x, least y, greatest x, greatest y of a turned shape about its origin."""
    x0, y0, x1, y1 = FAR, FAR, -FAR, -FAR
    for p in range(w.prim_first[s], w.prim_first[s + 1]):
        cx, cy = c * w.prim[p, 0] - sn * w.prim[p, 1], sn * w.prim[p, 0] + c * w.prim[p, 1]
        kind = w.prim_kind[p]
        if kind == DISC:
            r = w.prim[p, 2]
            x0, y0, x1, y1 = min(x0, cx - r), min(y0, cy - r), max(x1, cx + r), max(y1, cy + r)
        elif kind == RECTANGLE:
            hx = abs(c) * w.prim[p, 2] + abs(sn) * w.prim[p, 3]
            hy = abs(sn) * w.prim[p, 2] + abs(c) * w.prim[p, 3]
            x0, y0, x1, y1 = min(x0, cx - hx), min(y0, cy - hy), max(x1, cx + hx), max(y1, cy + hy)
        elif kind == SECTOR:
            inner, outer, ch, sh = w.prim[p, 2], w.prim[p, 3], w.prim[p, 4], w.prim[p, 5]
            for sign in (1.0, -1.0):
                ex, ey = c * ch - sn * sign * sh, sn * ch + c * sign * sh
                for r in (inner, outer):
                    x0, x1 = min(x0, cx + r * ex), max(x1, cx + r * ex)
                    y0, y1 = min(y0, cy + r * ey), max(y1, cy + r * ey)
            for n in range(4):  # the four ways of the plate: is the outer arc there?
                ux, uy = (1.0, 0.0) if n == 0 else (0.0, 1.0)
                if n == 2:
                    ux, uy = -1.0, 0.0
                elif n == 3:
                    ux, uy = 0.0, -1.0
                along, across = c * ux + sn * uy, abs(-sn * ux + c * uy)
                if across * ch - along * sh <= 0.0:
                    x0, x1 = min(x0, cx + outer * ux), max(x1, cx + outer * ux)
                    y0, y1 = min(y0, cy + outer * uy), max(y1, cy + outer * uy)
        else:
            for e in range(int(w.prim[p, 8]), int(w.prim[p, 9])):
                ex, ey = w.hull[e, 0], w.hull[e, 1]
                px, py = cx + c * ex - sn * ey, cy + sn * ex + c * ey
                x0, y0, x1, y1 = min(x0, px), min(y0, py), max(x1, px), max(y1, py)
    return x0, y0, x1, y1
