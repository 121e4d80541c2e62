"""Whether a small blank can be cut out of what falls from a hole of a larger one. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Any

from platewheel.nesting.geometry.facets import convex_pieces
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import (
    Circle,
    Line,
    Loop,
    Point,
    area_mm2,
    bounds,
    contains,
    moved,
    segments,
)

SAG_MM = 0.01  # of the hole's facets, on the safe side of its arcs
ROUND = 16  # chords in a quarter of the spacing's circle
HAIR_MM = 1e-6  # a part may lie just at the spacing


def holds(blank: Blank, other: Blank, spacing_mm: float) -> tuple[float, float] | None:
    """Offset at which `other`, not turned, lies in a hole of `blank` with the spacing kept.

    Both in their own axes: with `blank` laid at (x, y) unturned, `other` goes at (x + dx, y + dy).
    Exact for a circle in a circle, which goes in the middle. For other shapes None may stand for
    a fit tighter than the facets; an offset is always sound, it is measured on the true arcs.
    """
    for hole in sorted(blank.holes, key=area_mm2, reverse=True):
        offset = _in_hole(hole, other.outline, spacing_mm)
        if offset is not None:
            return offset
    return None


def _in_hole(hole: Loop, loop: Loop, spacing_mm: float) -> tuple[float, float] | None:
    if isinstance(hole, Circle) and isinstance(loop, Circle):
        if hole.radius_mm - loop.radius_mm < spacing_mm - HAIR_MM:
            return None
        return hole.centre[0] - loop.centre[0], hole.centre[1] - loop.centre[1]
    if not _smaller(loop, hole, spacing_mm):
        return None
    return next(
        (o for o in _offsets(hole, loop, spacing_mm) if _sound(hole, loop, o, spacing_mm)), None
    )


def _smaller(loop: Loop, hole: Loop, spacing_mm: float) -> bool:
    """Whether the bounds leave room, before any work is done."""
    (a0, b0, a1, b1), (c0, d0, c1, d1) = bounds(loop), bounds(hole)
    room = 2 * spacing_mm - HAIR_MM
    return (
        a1 - a0 + room <= c1 - c0 and b1 - b0 + room <= d1 - d0 and area_mm2(loop) < area_mm2(hole)
    )


def _sound(hole: Loop, loop: Loop, offset: Point, spacing_mm: float) -> bool:
    """The last word, on true lines and arcs."""
    laid = moved(loop, *offset)
    if not contains(hole, segments(laid)[0].start):
        return False
    return loop_gap(laid, hole, spacing_mm + 1) >= max(spacing_mm - 2 * HAIR_MM, HAIR_MM)


def _offsets(hole: Loop, loop: Loop, spacing_mm: float) -> Iterator[tuple[float, float]]:
    """Offsets to try: from each region of sound ones, the largest first, a point inside it."""
    import shapely

    room = _room(inner_polygon(hole), spacing_mm - HAIR_MM)
    pieces = convex_pieces(loop)
    x, y = pieces[0][0]
    free = [shapely.affinity.translate(part, -x, -y) for part in _polygons(room)]
    barred = shapely.union_all(_sums(room, pieces))
    regions = _polygons(shapely.union_all(free).difference(barred))
    for region in sorted(regions, key=lambda one: (-one.area, one.bounds)):
        middle = region.centroid
        point = middle if region.contains(middle) else region.representative_point()
        yield point.x, point.y


def _room(corners: list[Point], spacing_mm: float) -> Any:
    """The polygon less all that is closer to its edge than the spacing; round dents on the safe
    side of the circle."""
    import shapely

    dents = []
    for before, at, after in zip(
        [corners[-1], *corners], corners, [*corners[1:], corners[0]], strict=False
    ):
        ux, uy, vx, vy = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
        if ux * vy - uy * vx < 0:
            dents.append(at)
    reach = spacing_mm / math.cos(math.pi / 4 / ROUND)
    room = shapely.Polygon(corners).buffer(-spacing_mm, quad_segs=ROUND)
    return room.difference(shapely.MultiPoint(dents).buffer(reach, quad_segs=ROUND))


def _sums(room: Any, pieces: list[list[Point]]) -> list[Any]:
    """Offsets at which a piece of the part meets an edge of the room: hulls, one an edge."""
    import numpy as np
    import shapely

    rings = [ring for part in _polygons(room) for ring in (part.exterior, *part.interiors)]
    edges = [pair for ring in rings for pair in pairwise(ring.coords)]
    if not edges:
        return []
    ends = np.asarray(edges)  # edge, end, x or y
    sums: list[Any] = []
    for piece in pieces:
        points = ends[:, :, None, :] - np.asarray(piece)[None, None, :, :]
        lines = shapely.linestrings(points.reshape(len(edges), -1, 2))
        sums += list(shapely.convex_hull(lines))
    return sums


def _polygons(shape: Any) -> list[Any]:
    return [
        part
        for part in getattr(shape, "geoms", [shape])
        if part.geom_type == "Polygon" and not part.is_empty
    ]


def inner_polygon(hole: Loop, sag_mm: float = SAG_MM) -> list[Point]:
    """Corners of a polygon inside the hole: chords where it bulges, tangents where it is dented."""
    points: list[Point] = []
    for segment in segments(hole):
        points.append(segment.start)
        if isinstance(segment, Line):
            continue
        step_most = math.degrees(2 * math.acos(max(0.0, 1 - sag_mm / segment.radius_mm)))
        count = max(2, math.ceil(abs(segment.sweep_deg) / max(step_most, 1e-3)))
        step = segment.sweep_deg / count
        if segment.sweep_deg > 0:  # counter-clockwise round the hole: it bulges
            points += [segment.at(segment.start_deg + i * step) for i in range(1, count)]
        else:
            wide = replace(segment, radius_mm=segment.radius_mm / math.cos(math.radians(step) / 2))
            points += [wide.at(segment.start_deg + (i + 0.5) * step) for i in range(count)]
    return points
