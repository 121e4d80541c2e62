"""A plainer polygon about one of very many corners, and fewer convex pieces of it, for the packing.

The part itself stays as it is drawn: that is what is cut, and what a layout is verified on.
"""

from __future__ import annotations

from functools import lru_cache

from platewheel.parts.geometry.outline import Point

PLAIN_CORNERS = 60  # at most
HAIR = 0.05  # GEOS widens to within a hundredth
WIDER = 1.5  # from try to try

Ring = list[Point]


@lru_cache(maxsize=256)
def plain_about(points: tuple[Point, ...], least_mm: float) -> tuple[Point, ...]:
    """A polygon of at most PLAIN_CORNERS corners that holds another.

    That one is widened by `least_mm`, then drawn straight by no more than that, ever wider until
    so few corners do. So the edge lies at most about twice the last width off; hollows narrower
    than that, and those that they shut in, are filled: how wide it is depends on the shape alone.
    """
    import shapely

    shape, by_mm = shapely.Polygon(points), least_mm
    while True:
        wide = shape.buffer(by_mm * (1 + HAIR))
        if wide.geom_type == "Polygon":
            plain = shapely.Polygon(wide.exterior).simplify(by_mm)
            corners = tuple(plain.exterior.coords)[:-1]
            if len(corners) <= PLAIN_CORNERS and plain.covers(shape):
                return corners
        by_mm *= WIDER


def joined_convex(triangles: list[Ring]) -> list[Ring]:
    """Triangles as fewer convex pieces: a side that two pieces share is left out where they are
    one convex piece without it.

    Source: Hertel and Mehlhorn, Fast triangulation of simple polygons, 1983 (from memory).
    """
    pieces = {k: _counter_clockwise(piece) for k, piece in enumerate(triangles)}
    home = {side: k for k, piece in pieces.items() for side in _sides(piece)}
    for a, b in [side for side in home if side < side[::-1] and side[::-1] in home]:
        one, other = home[a, b], home[b, a]
        piece = [*_from(pieces[one], b), *_from(pieces[other], a)[1:-1]]
        if all(map(_turns_left, piece, _on(piece, 1), _on(piece, 2))):
            pieces[one] = piece
            del pieces[other]
            home |= dict.fromkeys(_sides(piece), one)
    return list(pieces.values())


def _on(piece: Ring, by: int) -> Ring:
    return [*piece[by:], *piece[:by]]


def _from(piece: Ring, corner: Point) -> Ring:
    return _on(piece, piece.index(corner))


def _sides(piece: Ring) -> list[tuple[Point, Point]]:
    return list(zip(piece, _on(piece, 1), strict=True))


def _counter_clockwise(piece: Ring) -> Ring:
    return piece if _turns_left(*piece[:3]) else piece[::-1]  # it is convex


def _turns_left(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) >= 0
