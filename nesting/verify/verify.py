"""Last word on a layout, on its true arcs and lines and by other means than the search's own.

A layout that fails here is never written.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.nesting.geometry.gaps import box_gap, loop_gap, point_gap
from platewheel.nesting.geometry.overlap import depth_inside, inner_point, overlap_depth
from platewheel.nesting.stock.layout import Layout, NestingError, Placement
from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.outline import Loop, Point, bounds, contains, polygon, segments

TOLERANCE_MM = 1e-5  # positions are rounded to 1e-6 mm
NEAR_MM = 1.0  # looked at even where parts may touch the edge, to tell those that do not
SHARED_MM = 1e-6  # between parts that are placed by each other


def verify(
    layout: Layout,
    spacing_mm: float,
    margin_mm: float,
    tolerance_mm: float = TOLERANCE_MM,
    kerf_mm: float = 0.0,
) -> None:
    """Raises: NestingError telling every overlap, gap or edge distance that is not held.

    Parts that share a line lie just a kerf apart, two whole edges facing each other. With a spacing
    or margin of nothing, parts may touch each other or the edge and lie in it by the tolerance.
    """
    wrong = list(faults(layout, spacing_mm, margin_mm, tolerance_mm, kerf_mm))
    if wrong:
        raise NestingError(f"layout on {layout.sheet.name} is not sound: " + "; ".join(wrong))


def faults(
    layout: Layout,
    spacing_mm: float,
    margin_mm: float,
    tolerance_mm: float = TOLERANCE_MM,
    kerf_mm: float = 0.0,
) -> Iterator[str]:
    """Each thing wrong with a layout, in words."""
    placed = [(p, p.outline, p.holes) for p in layout.placements]
    boxes = [bounds(loop) for _, loop, _ in placed]
    shared = set(layout.shared)
    edge: Loop = polygon(layout.sheet.corners)
    cut: list[Loop] = [polygon(ring) for ring in layout.sheet.holes]
    for i, (placement, loop, holes) in enumerate(placed):
        yield from _edge_faults(placement, loop, edge, cut, margin_mm, tolerance_mm)
        for j in range(i):
            if (j, i) in shared or (i, j) in shared:
                yield from _shared_faults(placement, placed[j][0], kerf_mm)
                continue
            if box_gap(boxes[i], boxes[j]) > spacing_mm:
                continue
            other, other_loop, other_holes = placed[j]
            if spacing_mm == 0:
                gap = -_parts_overlap(loop, holes, other_loop, other_holes)
            else:
                gap = _part_gap(loop, holes, other_loop, other_holes, spacing_mm)
            if gap < spacing_mm - tolerance_mm:
                where = f"{_said(placement)} and {_said(other)}"
                told = "overlap" if gap < 0 else f"lie {gap:.4f} mm apart"
                yield f"{where} {told}, {spacing_mm:g} mm wanted"


def _shared_faults(one: Placement, other: Placement, kerf_mm: float) -> Iterator[str]:
    """One in the other, not a kerf apart, or not with both ends of an edge across from those of
    the other's."""
    pairs = ((one.outline, other.outline), (other.outline, one.outline))
    if any(contains(outer, _a_point(inner)) for inner, outer in pairs):
        yield f"{_said(one)} and {_said(other)} overlap"
    gap = loop_gap(one.outline, other.outline, 2 * kerf_mm)
    ends = [segment.start for segment in segments(one.outline)]
    across = [segment.start for segment in segments(other.outline)]
    facing = sum(abs(math.dist(a, b) - kerf_mm) <= SHARED_MM for a in ends for b in across)
    if abs(gap - kerf_mm) > SHARED_MM or facing != 2:
        yield (
            f"{_said(one)} and {_said(other)} share a line and lie {gap:.6f} mm apart with "
            f"{so_many(facing, 'corner')} across from each other, {kerf_mm:g} mm and 2 wanted"
        )


def _edge_faults(
    placement: Placement,
    loop: Loop,
    edge: Loop,
    cut: list[Loop],
    margin_mm: float,
    tolerance_mm: float,
) -> Iterator[str]:
    gaps = [loop_gap(loop, ring, max(margin_mm, NEAR_MM)) for ring in (edge, *cut)]
    corners = [segment.start for segment in segments(loop)]
    # well off the edge, one corner tells of all: a corner on it may hide a crossing
    within = gaps[0] > tolerance_mm and contains(edge, corners[0])
    inside = within or all(
        contains(edge, point) or _point_off(edge, point) <= tolerance_mm for point in corners
    )
    for ring, gap in zip((edge, *cut), gaps, strict=True):
        if ring is not edge:
            inside = inside and not contains(ring, inner_point(loop))
            inside = inside and not contains(loop, inner_point(ring))
        if gap < margin_mm - tolerance_mm:
            near = f"lies {gap:.4f} mm from the plate's edge, {margin_mm:g} wanted"
            yield f"{_said(placement)} {near}"
    if margin_mm == 0 and not (within and min(gaps) > tolerance_mm):
        out = [_beyond(loop, edge), *(overlap_depth(loop, ring) for ring in cut)]
        inside = inside and max(out) <= tolerance_mm
    if not inside:
        yield f"{_said(placement)} lies off the plate"


def _point_off(loop: Loop, point: Point) -> float:
    """Distance from a point to an outline."""
    return min(point_gap(point, segment) for segment in segments(loop))


def _beyond(loop: Loop, edge: Loop) -> float:
    """How far a part sticks out of the plate's edge: by the corners of its bounds, by its own
    corners, and by how deep the edge runs through it between them."""
    x0, y0, x1, y1 = bounds(loop)
    e0, f0, e1, f1 = bounds(edge)
    out = max(e0 - x0, f0 - y0, x1 - e1, y1 - f1, 0.0)
    corners = (segment.start for segment in segments(loop))
    out = max(out, depth_inside(edge, loop))
    return max(out, *(0.0 if contains(edge, p) else _point_off(edge, p) for p in corners))


def _part_gap(
    a: Loop, a_holes: tuple[Loop, ...], b: Loop, b_holes: tuple[Loop, ...], spacing_mm: float
) -> float:
    """Gap between two parts; -1 where material overlaps. A part may lie in another's hole."""
    gap = loop_gap(a, b, spacing_mm)
    if gap == 0.0:
        return -1.0
    for inner, outer, holes in ((a, b, b_holes), (b, a, a_holes)):
        if contains(outer, _a_point(inner)):
            home = next((hole for hole in holes if contains(hole, _a_point(inner))), None)
            if home is None:
                return -1.0
            hole_gap = loop_gap(inner, home, spacing_mm)
            gap = min(gap, hole_gap if hole_gap > 0 else -1.0)
    return gap


def _parts_overlap(a: Loop, a_holes: tuple[Loop, ...], b: Loop, b_holes: tuple[Loop, ...]) -> float:
    """Depth of two parts that may touch in each other; in a hole, how far past its edge."""
    for inner, holes in ((a, b_holes), (b, a_holes)):
        home = next((hole for hole in holes if contains(hole, inner_point(inner))), None)
        if home is not None:
            return depth_inside(home, inner)
    return overlap_depth(a, b)


def _a_point(loop: Loop) -> Point:
    """Some point on the outline."""
    return segments(loop)[0].start


def _said(placement: Placement) -> str:
    return f"{placement.blank.name} at ({placement.x_mm:g}, {placement.y_mm:g})"
