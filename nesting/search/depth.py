"""How deep parts lie in each other, on their true shapes: the compiled half of the search. mm.

Depth of a pair: how much the sample discs of each, the points in which round edges can come
nearest, and crossing edges of polygons lack of the spacing to the other.
"""

from __future__ import annotations

import numpy as np

from platewheel.nesting.search.compiled import leaf
from platewheel.nesting.search.distance import FAR, POLYGON, RECTANGLE, SECTOR, to_shape
from platewheel.nesting.search.edge_grid import to_edges
from platewheel.nesting.search.shape import PACE_MM

SHALLOW_MM = 2.0  # of depth at the samples, at which crossings are looked for too


@leaf
def _facing(w, p, b, c, s, tx, ty, deepest):
    """Greatest depth in shape b of the points of sector p that can come nearest to it.

    (c, s), (tx, ty): turn and move from p's shape into b's. Round edges come nearest to others
    along the line of centres, to straight ones square to them.
    """
    cx = c * w.prim[p, 0] - s * w.prim[p, 1] + tx
    cy = s * w.prim[p, 0] + c * w.prim[p, 1] + ty
    for q in range(w.prim_first[b], w.prim_first[b + 1]):
        kind = w.prim_kind[q]
        if kind == POLYGON:
            continue
        for n in range(3):
            if n == 0:
                ux, uy = w.prim[q, 0] - cx, w.prim[q, 1] - cy
                length = np.sqrt(ux * ux + uy * uy)
                if length < 1e-9:
                    continue
                ux, uy = ux / length, uy / length
            elif kind == SECTOR:
                ux, uy = w.prim[q, 5], (-w.prim[q, 4] if n == 1 else w.prim[q, 4])
            elif kind == RECTANGLE:
                ux, uy = (1.0, 0.0) if n == 1 else (0.0, 1.0)
            else:
                break
            along, across = c * ux + s * uy, abs(-s * ux + c * uy)  # in p's own frame
            for sign in (1.0, -1.0):
                if across * w.prim[p, 4] - sign * along * w.prim[p, 5] > 0.0:
                    continue
                for radius in (w.prim[p, 2], w.prim[p, 3]):
                    r = sign * radius
                    d = w.spacing - to_shape(w, b, cx + r * ux, cy + r * uy)
                    if d > deepest:
                        deepest = d
    return deepest


@leaf
def _one_way(w, a, b, c, s, tx, ty):
    """Greatest depth of a's samples in b, and the sum of depths times their edge lengths.

    A depth below nothing tells how far off the nearest sample is, or less.
    """
    deepest, total = -FAR, 0.0
    for k in range(w.sample_first[a], w.sample_first[a + 1]):
        x, y, radius = w.sample[k, 0], w.sample[k, 1], w.sample[k, 2]
        qx, qy = c * x - s * y + tx, s * x + c * y + ty
        d = w.spacing + radius - to_shape(w, b, qx, qy)
        if d > 0.0:
            total += d
        if d > deepest:
            deepest = d
    return deepest, total * w.pace[a]


@leaf
def _all_facing(w, a, b, c, s, tx, ty, deepest):
    for p in range(w.prim_first[a], w.prim_first[a + 1]):
        if w.prim_kind[p] == SECTOR:
            deepest = _facing(w, p, b, c, s, tx, ty, deepest)
    return deepest


@leaf
def _crossing(edges, first_a, last_a, first_b, last_b, c, s, tx, ty):
    """Where edges of two polygons cross though samples lie hardly in the other, as thin tips do:
    how far the nearest corner of the two edges is from there; else nothing."""
    deepest = 0.0
    for e in range(first_a, last_a):
        x0, y0 = c * edges[e, 0] - s * edges[e, 1] + tx, s * edges[e, 0] + c * edges[e, 1] + ty
        ax, ay = edges[e, 2] - edges[e, 0], edges[e, 3] - edges[e, 1]
        ux, uy = c * ax - s * ay, s * ax + c * ay
        for f in range(first_b, last_b):
            px, py = edges[f, 0] - x0, edges[f, 1] - y0
            vx, vy = edges[f, 2] - edges[f, 0], edges[f, 3] - edges[f, 1]
            # of the way along each edge, both times their cross product
            cross = ux * vy - uy * vx
            t, u = px * vy - py * vx, px * uy - py * ux
            if cross < 0.0:
                cross, t, u = -cross, -t, -u
            if 0.0 < t < cross and 0.0 < u < cross:
                t, u = t / cross, u / cross
                along = min(t, 1.0 - t) * np.sqrt(ux * ux + uy * uy)
                across = min(u, 1.0 - u) * np.sqrt(vx * vx + vy * vy)
                deepest = max(deepest, min(along, across))
    return deepest


@leaf
def pair_depth(w, a, xa, ya, ca, sa, b, xb, yb, cb, sb):
    """Depth of two placed shapes in each other, and that depth with the area that overlaps."""
    # circles round both
    ox = xa + ca * w.round[a, 0] - sa * w.round[a, 1] - xb - cb * w.round[b, 0] + sb * w.round[b, 1]
    oy = ya + sa * w.round[a, 0] + ca * w.round[a, 1] - yb - sb * w.round[b, 0] - cb * w.round[b, 1]
    reach = w.round[a, 2] + w.round[b, 2] + w.spacing
    if ox * ox + oy * oy >= reach * reach:
        return 0.0, 0.0
    c, s = ca * cb + sa * sb, sa * cb - ca * sb
    dx, dy = xa - xb, ya - yb
    tx, ty = cb * dx + sb * dy, cb * dy - sb * dx
    ux, uy = -(ca * dx + sa * dy), -(ca * dy - sa * dx)
    if w.loose[b] < 0.0 <= w.loose[a]:  # the disc's way is enough
        deep, part = _one_way(w, b, a, c, -s, ux, uy)
        return max(deep, 0.0), max(deep, 0.0) + 0.1 * part / min(w.size[a], w.size[b])
    deep, sum1 = _one_way(w, a, b, c, s, tx, ty)
    if w.loose[a] < 0.0:
        return max(deep, 0.0), max(deep, 0.0) + 0.1 * sum1 / min(w.size[a], w.size[b])
    if deep < -w.loose[a]:
        return 0.0, 0.0
    deep2, sum2 = _one_way(w, b, a, c, -s, ux, uy)
    if deep2 < -w.loose[b]:
        return 0.0, 0.0
    p, q = w.prim_first[a], w.prim_first[b]
    near = max(deep, deep2)
    if -PACE_MM / 2 < near < SHALLOW_MM and w.prim_kind[p] == w.prim_kind[q] == POLYGON:
        cut = _crossing(
            w.edges, int(w.prim[p, 11]), int(w.prim[p, 12]),
            int(w.prim[q, 11]), int(w.prim[q, 12]), c, s, tx, ty,
        )  # fmt: skip
        near = max(near, cut)
    deep = max(near, 0.0)
    deep = _all_facing(w, a, b, c, s, tx, ty, deep)
    deep = _all_facing(w, b, a, c, -s, ux, uy, deep)
    return deep, deep + 0.1 * (sum1 + sum2) / min(w.size[a], w.size[b])


@leaf
def plate_depth(w, a, x, y, c, s):
    """How much a placed shape lacks of the gap to the edges of an uneven plate."""
    count = w.plate_edges.shape[0]
    if count == 0:
        return 0.0
    deepest, total = 0.0, 0.0
    for k in range(w.sample_first[a], w.sample_first[a + 1]):
        px, py = w.sample[k, 0], w.sample[k, 1]
        qx, qy = x + c * px - s * py, y + s * px + c * py
        d = w.plate_gap + w.sample[k, 2]
        d += to_edges(w.plate_edges, w.plate_list, 0, count, qx, qy)
        if d > 0.0:
            total += d
            deepest = max(deepest, d)
    for e in range(count):
        dx, dy = w.plate_edges[e, 0] - x, w.plate_edges[e, 1] - y
        d = w.plate_gap - to_shape(w, a, c * dx + s * dy, c * dy - s * dx)
        deepest = max(deepest, d)
    return deepest + total * w.pace[a] / w.size[a]
