"""What straight cuts leave of a plate for the next job. mm."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.nesting.by_hand.straight_cuts import parted
from platewheel.nesting.by_hand.usable import largest_box
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.outline import Point

Ring = tuple[Point, ...]
LEAST_MM = 1e-6


def rests(layout: Layout, cutting: Cutting) -> Iterator[tuple[Ring, tuple[Ring, ...]]]:
    """Outline and holes of each piece without a blank in which a rectangle of the least size to
    keep finds room; of an offcut, with the edges and holes that it had."""
    import shapely

    sheet = layout.sheet
    steel = shapely.Polygon(sheet.corners, sheet.holes)
    for x0, y0, x1, y1 in parted(layout, cutting).rests:
        there = steel.intersection(shapely.box(x0, y0, x1, y1))
        for piece in shapely.get_parts(there):
            if piece.geom_type != "Polygon":
                continue
            room = largest_box(piece)
            least = cutting.least_offcut_mm - LEAST_MM
            if room and min(room[2] - room[0], room[3] - room[1]) >= least:
                yield _ring(piece.exterior), tuple(map(_ring, piece.interiors))


def _ring(line: object) -> Ring:
    """Corners once each, counter-clockwise from the lower left."""
    import shapely

    polygon = shapely.Polygon(line).normalize()
    corners = [(float(x), float(y)) for x, y in list(polygon.exterior.coords)[:-1]]
    if shapely.LinearRing(corners).is_ccw is False:
        corners.reverse()
    first = min(range(len(corners)), key=lambda k: (corners[k][1], corners[k][0]))
    return tuple(corners[first:] + corners[:first])
