"""What parts take of a plate: each part widened by the clear distance, as fine polygons.

Facets lie outside the true curve, so what is left free by them is truly free.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, bounds, turned

if TYPE_CHECKING:
    from numpy.typing import NDArray

BEVEL = 1.01  # widened corners are cut off this far out, in clear distances: outside the round
SLUG_MM = 50.0  # of a hole: a job keeps nothing narrower (least of `least_offcut_mm`)
HAIR_MM = 1e-4  # by which polygons are widened more, against rounding


def taken_rings(layout: Layout, clear_mm: float, facet_mm: float) -> list[NDArray[np.float64]]:
    """Rings round all that lies closer than `clear_mm` to a part, and at most `facet_mm` more.

    Each ring has its first corner again as the last; what is taken lies on its left, and so
    rings round holes of parts run clockwise.
    """
    return [ring for p in layout.placements for ring in _placed(p, clear_mm, facet_mm)]


def off_plate_rings(sheet: Sheet, clear_mm: float = 0.0) -> list[NDArray[np.float64]]:
    """The same for what an offcut lacks of its upright frame: its corners cut off, its holes."""
    import shapely

    if not sheet.is_offcut:
        return []
    plate = shapely.Polygon(sheet.corners, sheet.holes)
    lacks = shapely.box(0, 0, sheet.length_mm, sheet.width_mm).difference(plate)
    return rings_of(lacks.buffer(clear_mm, join_style="mitre") if clear_mm else lacks)


def rings_of(shape: object) -> list[NDArray[np.float64]]:
    """Rings of a polygon or several, what they hold on the left."""
    import shapely

    sided = shapely.orient_polygons(shape)
    return [shapely.get_coordinates(ring) for ring in shapely.get_rings(shapely.get_parts(sided))]


def _placed(placement: Placement, clear_mm: float, facet_mm: float) -> list[NDArray[np.float64]]:
    blank = placement.blank
    cos, sin = turned((1.0, 0.0), placement.rotation_deg)
    turn = np.asarray([[cos, sin], [-sin, cos]])
    move = np.asarray([placement.x_mm, placement.y_mm])
    rings = _widened(blank.outline, blank.holes, clear_mm, facet_mm)
    return [ring @ turn + move for ring in rings]


@lru_cache(maxsize=128)
def _widened(
    outline: Loop, holes: tuple[Loop, ...], clear_mm: float, facet_mm: float
) -> tuple[NDArray[np.float64], ...]:
    """Rings of a blank where it is drawn, widened; worked out once for all its placements."""
    import shapely

    steel = shapely.Polygon(
        faceted(outline, facet_mm, bulging=True),
        [faceted(hole, facet_mm, bulging=False) for hole in holes if _wide(hole)],
    )
    return tuple(rings_of(steel.buffer(clear_mm + HAIR_MM, join_style="mitre", mitre_limit=BEVEL)))


def _wide(hole: Loop) -> bool:
    """Whether what falls out of a hole could be worth keeping."""
    x0, y0, x1, y1 = bounds(hole)
    return min(x1 - x0, y1 - y0) > SLUG_MM


def faceted(loop: Loop, facet_mm: float, bulging: bool) -> list[Point]:
    """Corners of a polygon on one side of a counter-clockwise loop, within `facet_mm` of it.

    `bulging`: the polygon holds the loop; else the loop holds the polygon.
    """
    if isinstance(loop, Circle):
        loop = (Arc(loop.centre, loop.radius_mm, 0.0, 360.0),)
    points: list[Point] = []
    for segment in loop:
        if not (isinstance(segment, Arc) and len(loop) == 1):
            points.append(segment.start)
        if isinstance(segment, Line):
            continue
        step = 2 * math.acos(segment.radius_mm / (segment.radius_mm + facet_mm))
        count = max(1, math.ceil(math.radians(abs(segment.sweep_deg)) / step))
        if (segment.sweep_deg > 0) is bulging:  # corners where tangents meet
            turn, half = segment.sweep_deg / count, math.radians(segment.sweep_deg / count) / 2
            wide = replace(segment, radius_mm=segment.radius_mm / math.cos(half))
            points += [wide.at(segment.start_deg + (i + 0.5) * turn) for i in range(count)]
        else:  # chords
            first = 0 if len(loop) == 1 else 1
            turn = segment.sweep_deg / count
            points += [segment.at(segment.start_deg + i * turn) for i in range(first, count)]
    return points
