"""What lies about an uneven offcut and in its holes, and where a part would come too near it.

Kept off it are convex pieces, as parts are off each other, or where these are many the edges that
bound the sum: the offcut's own corners count either way, however many.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from platewheel.nesting.geometry.facets import MANY_CORNERS
from platewheel.nesting.geometry.plain import joined_convex
from platewheel.nesting.quick.no_fit_polygon import Pieces, mask_of, no_fit_polygon, widened
from platewheel.nesting.quick.walked_sum import mask_within, walk_of, walked_sum
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.outline import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from platewheel.nesting.quick.walked_sum import Walk

FEW_SUMS = 300  # of convex pieces that are united; of more, their sum is walked round


@dataclass(frozen=True)
class Scrap:
    """One piece of the scrap about an offcut, in convex pieces, and the margin kept off it."""

    pieces: Pieces
    margin_mm: float

    @cached_property
    def _walks(self) -> tuple[Walk, ...]:
        """Round all that is nearer to it than the margin: simple polygons without holes."""
        return tuple(walk_of(ring) for ring in _simple(widened(self.pieces, self.margin_mm)))

    def masks(
        self, pieces: Pieces, ring: NDArray[np.float64] | None, first: Point, step_mm: float
    ) -> Iterator[tuple[NDArray[np.bool_], tuple[int, int]]]:
        """Grid points first + (i, j) step at which a part lies too near, with the index of their
        corner; the part in convex pieces, and by its corners where these make a simple polygon."""
        if ring is None or len(self.pieces) * len(pieces) <= FEW_SUMS:
            region = no_fit_polygon(self.pieces, pieces, self.margin_mm)
            yield mask_of(region, first, step_mm)
            return
        mirrored = walk_of(-ring)
        for walk in self._walks:
            yield mask_within(walked_sum(walk, mirrored), first, step_mm)


def scraps_of(sheet: Sheet, margin_mm: float) -> tuple[Scrap, ...]:
    """What lies within the bounds of a sheet and is no steel; nothing of a plain one."""
    import shapely

    if not sheet.is_offcut:
        return ()
    plate = shapely.Polygon(sheet.corners, sheet.holes)
    around = shapely.box(*plate.bounds).difference(plate)
    scraps = []
    for part in shapely.get_parts(around):
        pieces = [
            list(triangle.exterior.coords)[:-1]
            for triangle in shapely.constrained_delaunay_triangles(part).geoms
        ]
        if len(pieces) > MANY_CORNERS:
            pieces = joined_convex(pieces)
        scraps.append(Scrap(pieces, margin_mm))
    return tuple(scraps)


def _simple(shape: Any) -> Iterator[NDArray[np.float64]]:
    """Corners of polygons without holes that together are the shape: it is cut through each hole.

    Only of these does the winding number tell all places where the part meets them.
    """
    import shapely

    for part in shapely.get_parts(shape):
        if part.geom_type != "Polygon" or part.is_empty:
            continue
        if not part.interiors:
            yield shapely.get_coordinates(part)[:-1]
            continue
        at = shapely.Polygon(part.interiors[0]).representative_point().x
        x0, y0, x1, y1 = part.bounds
        for half in (shapely.box(x0, y0, at, y1), shapely.box(at, y0, x1, y1)):
            yield from _simple(part.intersection(half))
