"""True outlines as polygons for the packing search: facets always outside the true curve.

A facet can only make a part look larger, so it never hides an overlap; the layout that the
search finds is verified on the true arcs all the same (`nesting.verify.verify`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from platewheel.nesting.geometry.plain import joined_convex, plain_about
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, Segment, area_mm2

TOLERANCE_MM = 0.3  # how far a facet may stand off the true curve
FINER, LEAST_MM = 4.0, 1e-7  # by so much from try to try, where facets cross; no edges lie nearer
MOST_CORNERS = 200  # of a polygon that is laid as it is
MANY_CORNERS = 30  # of more, triangles are joined: each is held against each of another part


def facets_in(arc: Arc, tolerance_mm: float = TOLERANCE_MM) -> int:
    """Least number of facets that keep within the tolerance."""
    step = 2 * math.acos(arc.radius_mm / (arc.radius_mm + tolerance_mm))
    return max(1, math.ceil(math.radians(abs(arc.sweep_deg)) / step))


def outer_polygon(loop: Loop) -> list[Point]:
    """Corners of a polygon that holds the loop: round outsides circumscribed, hollows cut short.

    The loop runs counter-clockwise or is a circle. Facets are finer where those of round edges
    that nearly touch would cross.
    """
    if isinstance(loop, Circle):
        return _tangent_corners(Arc(loop.centre, loop.radius_mm, 0.0, 360.0), TOLERANCE_MM)
    points = _about(loop, TOLERANCE_MM)
    if not any(isinstance(segment, Arc) for segment in loop):
        return points
    import shapely

    tolerance_mm = TOLERANCE_MM
    while not shapely.Polygon(points).is_valid and tolerance_mm > LEAST_MM:
        tolerance_mm /= FINER
        points = _about(loop, tolerance_mm)
    return points


def _about(loop: Sequence[Segment], tolerance_mm: float) -> list[Point]:
    points: list[Point] = []
    for segment in loop:
        points.append(segment.start)
        if isinstance(segment, Line):
            continue
        if segment.sweep_deg > 0:  # material inside the arc: corners where tangents meet
            points += _tangent_corners(segment, tolerance_mm)
        else:  # material outside the arc: chords cut into the hollow
            count = facets_in(segment, tolerance_mm)
            step = segment.sweep_deg / count
            points += [segment.at(segment.start_deg + i * step) for i in range(1, count)]
    return points


def _tangent_corners(arc: Arc, tolerance_mm: float) -> list[Point]:
    count = facets_in(arc, tolerance_mm)
    step = arc.sweep_deg / count
    wide = replace(arc, radius_mm=arc.radius_mm / math.cos(math.radians(step) / 2))
    return [wide.at(arc.start_deg + (i + 0.5) * step) for i in range(count)]


def convex_pieces(loop: Loop) -> list[list[Point]]:
    """Convex polygons that together hold the loop; annular sectors as wedges, others as
    triangles of the outer polygon, of many corners as larger pieces, of very many of a plainer
    one."""
    sector = sector_of(loop)
    if isinstance(loop, Circle):
        return [outer_polygon(loop)]
    if sector is None:
        return _pieces(outer_polygon(loop))
    inner, outer, start, sweep, centre = sector
    count = facets_in(Arc(centre, outer, start, sweep))
    step = sweep / count
    pieces = []
    for i in range(count):
        low, high = start + i * step, start + (i + 1) * step
        near, far = Arc(centre, inner, 0, 360), Arc(centre, outer, 0, 360)
        peak = Arc(centre, outer / math.cos(math.radians(step) / 2), 0, 360)
        pieces.append(
            [near.at(low), far.at(low), peak.at((low + high) / 2), far.at(high), near.at(high)]
        )
    return pieces


def sector_of(loop: Loop) -> tuple[float, float, float, float, Point] | None:
    """Inner and outer radius, start, sweep and centre of an annular sector; else None."""
    if isinstance(loop, Circle):
        return None
    outer = [s for s in loop if isinstance(s, Arc) and s.sweep_deg > 0]
    inner = [s for s in loop if isinstance(s, Arc) and s.sweep_deg < 0]
    lines = [s for s in loop if isinstance(s, Line)]
    if not outer or len(inner) != len(outer) or len(lines) != 2:
        return None
    same = all(math.dist(s.centre, outer[0].centre) < 1e-9 for s in (*outer, *inner))
    if not same:
        return None
    sweep = math.fsum(s.sweep_deg for s in outer)
    (cx, cy), near, far = outer[0].centre, inner[0].radius_mm, outer[0].radius_mm
    radial = all(
        abs((s.start[0] - cx) * (s.end[1] - cy) - (s.start[1] - cy) * (s.end[0] - cx))
        < 1e-9 * far * far
        and abs(s.length_mm - (far - near)) < 1e-6
        for s in lines
    )
    like = all(s.radius_mm == near for s in inner) and all(s.radius_mm == far for s in outer)
    if not radial or not like or not 0 < near < far:
        return None
    start = next(  # the loop may begin half way along
        s.start_deg
        for before, s in zip((loop[-1], *loop), loop, strict=False)
        if isinstance(before, Line) and isinstance(s, Arc) and s.sweep_deg > 0
    )
    return near, far, start, sweep, outer[0].centre


def laid_polygon(loop: Loop) -> list[Point]:
    """Corners of the polygon that a loop is laid as: `outer_polygon`, or where that has more than
    MOST_CORNERS a plainer one that holds it (`plain_about`)."""
    return _plainer(outer_polygon(loop))


def laid_larger(loop: Loop) -> float:
    """By what share a loop is larger as it is laid than it is, for its very many corners; 0 where
    it has no more than MOST_CORNERS."""
    points = outer_polygon(loop)
    if isinstance(loop, Circle) or len(points) <= MOST_CORNERS or sector_of(loop) is not None:
        return 0.0
    import shapely

    return float(shapely.Polygon(_plainer(points)).area / area_mm2(loop) - 1)


def _plainer(points: list[Point]) -> list[Point]:
    if len(points) <= MOST_CORNERS:
        return points
    return list(plain_about(tuple(points), TOLERANCE_MM))


def _pieces(points: list[Point]) -> list[list[Point]]:
    triangles = _triangles(_plainer(points))
    return triangles if len(points) <= MANY_CORNERS else joined_convex(triangles)


def _triangles(points: list[Point]) -> list[list[Point]]:
    import shapely

    shape = shapely.Polygon(points)
    if math.isclose(shape.convex_hull.area, shape.area, rel_tol=1e-12):
        return [points]
    parts = shapely.constrained_delaunay_triangles(shape)
    return [list(part.exterior.coords)[:-1] for part in parts.geoms]
