"""Where one part must not lie against another: the no-fit region, and its mask on a grid.

The region is the Minkowski sum of the fixed part and the moving part mirrored, widened by the
spacing. Source: Burke et al., "Complete and robust no-fit polygon generation", EJOR 179 (2007),
for the notion; here as a union of sums of convex pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.base.interruptible import interruptible
from platewheel.parts.geometry.outline import Point, turned

if TYPE_CHECKING:
    from numpy.typing import NDArray

Pieces = Sequence[Sequence[Point]]
HAIR_MM = 1e-6  # a part may lie just at the spacing; far below the verifier's tolerance
ROUNDING_MM = 2.0**-24  # far below HAIR_MM; sums of such numbers are exact
WITHIN = 1e-5  # of the way from a corner to the middle: off the union's own edge
MANY = 2000  # sums: to unite more takes so long that Ctrl-C must not wait for it
SIDES = 32  # of the polygon drawn round the spacing's circle: at most 0.5 % more, never less


def turned_pieces(pieces: Pieces, rotation_deg: float) -> list[list[Point]]:
    """Convex pieces turned about the origin."""
    return [[turned(point, rotation_deg) for point in piece] for piece in pieces]


def no_fit_polygon(fixed: Pieces, moving: Pieces, spacing_mm: float) -> Any:
    """Offsets (moving origin less fixed origin) at which parts come closer than the spacing.

    A shapely polygon or multipolygon; its holes are pockets that the moving part fits in. Empty
    where there is nothing fixed.
    """
    import shapely

    if not fixed:
        return shapely.Polygon()
    mirrored = [-np.asarray(piece) for piece in moving]
    return _united(_sums(_wide(fixed, spacing_mm), mirrored))


def widened(pieces: Pieces, spacing_mm: float) -> Any:
    """All that is closer to the pieces than the spacing."""
    return _united(_wide(pieces, spacing_mm))


def _wide(pieces: Pieces, spacing_mm: float) -> Sequence[Any]:
    if not spacing_mm:
        return pieces
    return list(_sums(pieces, [_round_polygon(spacing_mm - HAIR_MM)]))


def _united(rings: Any) -> Any:
    """The union, of rounded corners: of such that are the same but for the last digit GEOS now and
    then loses a part of it, or gives up. What still lacks a ring's corner is snapped to a grid."""
    import shapely

    rounded = [np.round(np.asarray(ring) / ROUNDING_MM) * ROUNDING_MM for ring in rings]
    shapes = shapely.polygons([shapely.linearrings(ring) for ring in rounded])

    def whole() -> Any:
        corners, of = shapely.get_coordinates(shapes, return_index=True)
        middles = shapely.get_coordinates(shapely.centroid(shapes))
        corners += WITHIN * (middles[of] - corners)
        try:
            union = shapely.union_all(shapes)
        except shapely.errors.GEOSException:
            union = shapely.Polygon()
        shapely.prepare(union)
        if shapely.intersects_xy(union, corners).all():
            return union
        return shapely.union_all(shapes, grid_size=ROUNDING_MM)

    return whole() if len(shapes) < MANY else interruptible(whole)


def _sums(a: Sequence[Any], b: Sequence[Any]) -> NDArray[np.float64]:
    """Sums of convex pieces, each with each: closed rings (len(a) len(b), corners, 2), where
    corners may lie on each other.

    The sum's sides are those of both, in order of their directions. Source: de Berg et al.,
    Computational Geometry, 13.3.
    """
    start_a, sides_a, turn_a = _by_direction(a)
    start_b, sides_b, turn_b = _by_direction(b)
    pairs = (len(a), len(b))
    sides = np.concatenate(
        [
            np.broadcast_to(sides_a[:, None], (*pairs, *sides_a.shape[1:])),
            np.broadcast_to(sides_b[None], (*pairs, *sides_b.shape[1:])),
        ],
        axis=2,
    )
    turn = np.concatenate(
        [
            np.broadcast_to(turn_a[:, None], (*pairs, turn_a.shape[1])),
            np.broadcast_to(turn_b[None], (*pairs, turn_b.shape[1])),
        ],
        axis=2,
    )
    order = np.argsort(turn, axis=2, kind="stable")
    start = start_a[:, None] + start_b[None]
    ring = start[:, :, None] + np.cumsum(
        np.take_along_axis(sides, order[..., None], axis=2), axis=2
    )
    ring = np.concatenate([start[:, :, None], ring], axis=2)
    ring[:, :, -1] = start  # closed to the last digit
    return ring.reshape(-1, *ring.shape[2:])


def _by_direction(
    pieces: Sequence[Any],
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Lowest corner of each convex piece, its sides from there counterclockwise, and their
    directions from 0 to 2 pi; shorter ones are filled up with sides of no length."""
    import shapely

    starts, sides, turns = [], [], []
    for piece in pieces:
        hull = shapely.convex_hull(shapely.multipoints(piece))
        corners = shapely.get_coordinates(hull)
        if hull.geom_type == "Polygon":  # and not a line or a point: a piece without area
            corners = corners[:-1]
        (x, y), (u, v) = corners.T, np.roll(corners, -1, axis=0).T
        if (x * v - u * y).sum() < 0:
            corners = corners[::-1]
        first = np.lexsort((corners[:, 0], corners[:, 1]))[0]
        corners = np.roll(corners, -first, axis=0)
        side = np.roll(corners, -1, axis=0) - corners
        starts.append(corners[0])
        sides.append(side)
        turns.append(np.arctan2(side[:, 1], side[:, 0]) % (2 * np.pi))
    most = max(len(side) for side in sides)
    filled = np.zeros((len(sides), most, 2))
    turned_by = np.full((len(sides), most), 2 * np.pi)
    for k, (side, turn) in enumerate(zip(sides, turns, strict=True)):
        filled[k, : len(side)], turned_by[k, : len(turn)] = side, turn
    return np.array(starts), filled, turned_by


def _round_polygon(radius_mm: float) -> list[Point]:
    """Polygon round a circle, with sides square to x and y so that straight gaps are exact."""
    turns = (np.arange(SIDES) + 0.5) * 2 * np.pi / SIDES
    corner = radius_mm / np.cos(np.pi / SIDES)
    return [(float(corner * np.cos(t)), float(corner * np.sin(t))) for t in turns]


def mask_of(region: Any, first: Point, step_mm: float) -> tuple[NDArray[np.bool_], tuple[int, int]]:
    """Grid points first + (i, j) step inside the region, as mask[i, j], with the index of its
    corner. Exact at the grid points (even-odd rule along each column)."""
    import shapely

    if region.is_empty:
        return np.zeros((0, 0), dtype=np.bool_), (0, 0)
    x0, y0, x1, y1 = region.bounds
    low = (int(np.ceil((x0 - first[0]) / step_mm)), int(np.ceil((y0 - first[1]) / step_mm)))
    high = (int(np.floor((x1 - first[0]) / step_mm)), int(np.floor((y1 - first[1]) / step_mm)))
    shape = (max(0, high[0] - low[0] + 1), max(0, high[1] - low[1] + 1))
    odd = np.zeros((shape[0], shape[1] + 1), dtype=np.bool_)
    for ring in shapely.get_rings(shapely.get_parts(region)):
        points = shapely.get_coordinates(ring)
        _flip_columns(odd, points, first, step_mm, low)
    return np.logical_xor.accumulate(odd[:, :-1], axis=1), low


def _flip_columns(
    odd: NDArray[np.bool_],
    points: NDArray[np.float64],
    first: Point,
    step_mm: float,
    low: tuple[int, int],
) -> None:
    """Tell, for each column of constant x, where a grid point has an odd number of crossings
    between it and the one below."""
    columns, rows = odd.shape[0], odd.shape[1] - 1
    ax, ay = points[:-1, 0], points[:-1, 1]
    bx, by = points[1:, 0], points[1:, 1]
    left, right = np.minimum(ax, bx), np.maximum(ax, bx)
    start = np.ceil((left - first[0]) / step_mm).astype(int) - low[0]
    stop = np.ceil((right - first[0]) / step_mm).astype(int) - low[0]  # half open: [left, right)
    start, stop = np.clip(start, 0, columns), np.clip(stop, 0, columns)
    counts = np.maximum(stop - start, 0)
    edge = np.repeat(np.arange(len(counts)), counts)
    column = np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts - start, counts)
    x = first[0] + (column + low[0]) * step_mm
    slope = (by[edge] - ay[edge]) / (bx[edge] - ax[edge])
    y = ay[edge] + (x - ax[edge]) * slope
    row = np.ceil((y - first[1]) / step_mm).astype(int) - low[1]
    cell = column * (rows + 1) + np.clip(row, 0, rows)
    np.logical_xor.at(odd.reshape(-1), cell, True)
