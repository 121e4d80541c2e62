"""The outline of what is really left of a plate: few straight corners, all of it free steel."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.offcuts.taken import off_plate_rings, rings_of, taken_rings
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.outline import Point

FACET_MM = 1.0  # coarse: an outline to measure by
LOSS_SHARE, LOSS_MM2 = 0.004, 3000.0  # of the area, and at most, for one corner saved
MOST_CORNERS = 40  # of an outline with its holes; more are saved at any price
SLACK_MM = 0.01  # a piece just as wide as the least is not drawn in to nothing
MITRE = 1.5  # a square corner's mitre is 1.42 times as far out as its sides
HAIR_MM, HAIR_MM2 = 1e-5, 1e-6  # of rounding; parts are widened by far more
Outline = tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]  # corners, holes


def real_outlines(layout: Layout, clear_mm: float, least_mm: float) -> list[Outline]:
    """Every free piece that is `least_mm` wide somewhere, without its narrower arms; largest first.

    The free region (plate less parts widened by `clear_mm`) is opened: drawn in and widened again
    by half the least width. Its corners are then saved inwards only and set to whole mm, so that
    nothing is told as left that is not. Pieces lie as far from each other as from a part: the
    cuts that part them do not run into each other.
    """
    import shapely

    region = _free_region(layout, clear_mm)
    half = least_mm / 2 - SLACK_MM
    opened = _widened(_drawn_in(region, half), half).intersection(region)
    found: list[Any] = []
    for opening in sorted(shapely.get_parts(opened), key=lambda shape: -shape.area):
        piece, room = opening, region
        if any(piece.distance(other) < clear_mm for other in found):
            taken = [other.buffer(clear_mm + HAIR_MM, join_style="mitre") for other in found]
            room = region.difference(shapely.union_all(taken))
            rests = shapely.get_parts(piece.intersection(room))
            piece = max(rests, key=shapely.area, default=shapely.Polygon())
        if _drawn_in(piece, 0.99 * half).is_empty:
            continue  # a crumb between a mitre and the region's own corner
        plain = _few_corners(piece)
        if _drawn_in(plain, 0.99 * half).is_empty:
            plain = piece
        found.append(_to_whole_mm(plain, room, layout))
    found.sort(key=lambda shape: -shape.area)
    return [
        (_corners(shape.exterior), tuple(_corners(ring) for ring in shape.interiors))
        for shape in found
    ]


def _drawn_in(shape: Any, by_mm: float) -> Any:
    """What lies at least so far from the edge, to hundredths; without repeated corners."""
    return shape.buffer(-by_mm, quad_segs=4).simplify(SLACK_MM / 10)


def _widened(shape: Any, by_mm: float) -> Any:
    """Square corners stay square, sharper ones are cut off."""
    return shape.buffer(by_mm, join_style="mitre", mitre_limit=MITRE)


def _free_region(layout: Layout, clear_mm: float) -> Any:
    import shapely

    sheet = layout.sheet
    shapes: list[list[Any]] = []  # rings of each: its edge, then its holes
    for ring in [*off_plate_rings(sheet), *taken_rings(layout, clear_mm, FACET_MM)]:
        if shapely.is_ccw(shapely.LinearRing(ring)):
            shapes.append([])
        shapes[-1].append(ring)
    taken = shapely.union_all([shapely.Polygon(rings[0], rings[1:]) for rings in shapes])
    return shapely.box(0, 0, sheet.length_mm, sheet.width_mm).difference(taken)


def _corners(ring: Any) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1])


def _few_corners(shape: Any) -> Any:
    """The shape with as few corners as its loss allows; never a point outside it."""
    whole, least = _prepared(shape), min(LOSS_SHARE * shape.area, LOSS_MM2)
    rings = [[tuple(xy) for xy in ring[:-1].tolist()] for ring in rings_of(shape)]
    while True:
        many = sum(len(ring) for ring in rings) > MOST_CORNERS
        for saving in sorted(_savings(rings), key=lambda one: one.loss_mm2):
            if saving.loss_mm2 > least and not many:
                return _polygon(rings)
            other = _polygon([*rings[: saving.which], saving.ring, *rings[saving.which + 1 :]])
            if _sound(other) and whole.covers(other):
                rings[saving.which] = saving.ring
                break
        else:
            return _polygon(rings)


def _sound(shape: Any) -> bool:
    """Valid, with holes that touch neither each other nor the edge: what a job file takes."""
    rings = (shape.exterior, *shape.interiors)
    return shape.is_valid and not any(a.intersects(b) for a, b in itertools.combinations(rings, 2))


def _prepared(shape: Any) -> Any:
    """A shape to ask what it covers; wider by rounding errors alone."""
    import shapely

    wider = shape.buffer(HAIR_MM, join_style="mitre")
    shapely.prepare(wider)
    return wider


def _polygon(rings: list[list[Point]]) -> Any:
    import shapely

    return shapely.Polygon(rings[0], rings[1:])


@dataclass(frozen=True)
class Saving:
    """`ring` number `which` with the corners from `at` on replaced by fewer, and what it costs."""

    loss_mm2: float
    which: int
    corners: list[Point]
    at: int
    replaced: int
    by: tuple[Point, ...]

    @property
    def ring(self) -> list[Point]:
        """Begun where corners were replaced."""
        count = len(self.corners)
        stay = [self.corners[(self.at + k) % count] for k in range(self.replaced, count)]
        return [*self.by, *stay]


def _savings(rings: list[list[Point]]) -> Iterator[Saving]:
    """Ways to save a corner without leaving the shape.

    A corner that juts out is cut straight across; the side between two corners that jut in is
    replaced by the point in which its neighbours meet.
    """
    for which, ring in enumerate(rings):
        count = len(ring)
        for i in range(count) if count > 3 else ():
            a, b, c, d = (ring[(i + k) % count] for k in range(-1, 3))
            turn = _cross(a, b, c)
            if turn >= -HAIR_MM2:
                yield Saving(abs(turn) / 2, which, ring, i, 1, ())
            elif _cross(b, c, d) < 0:
                meet = _meeting(a, b, d, c)
                if meet is not None:
                    yield Saving(abs(_cross(b, meet, c)) / 2, which, ring, i, 2, (meet,))


def _cross(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle, positive where b turns left: where it juts out."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _meeting(a: Point, b: Point, d: Point, c: Point) -> Point | None:
    """Where a to b and d to c meet when both run on past b and c; None where they do not."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - d[0], c[1] - d[1]
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9 * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    wx, wy = c[0] - b[0], c[1] - b[1]
    s, t = (wx * vy - wy * vx) / cross, (wx * uy - wy * ux) / cross
    return (b[0] + s * ux, b[1] + s * uy) if s > 0 and t > 0 else None


def _to_whole_mm(shape: Any, region: Any, layout: Layout) -> Any:
    """Corners set to whole millimetres one by one, to the nearest that stay in the region.

    A corner on the height or length of one of the plate's own corners stays there, one on a
    slanted side of the plate where it is.
    """
    import shapely

    room = _prepared(region)
    slanted = _slanted(layout)
    own = [corner for ring in (layout.sheet.corners, *layout.sheet.holes) for corner in ring]
    rings = [[tuple(xy) for xy in ring[:-1].tolist()] for ring in rings_of(shape)]
    for ring in rings:
        for i, (x, y) in enumerate(ring):
            spot = shapely.Point(x, y)
            near = itertools.product(*(_near((x, y)[k], {p[k] for p in own}) for k in (0, 1)))
            places = sorted(near, key=lambda p: math.dist(p, (x, y)))
            if slanted.distance(spot) < SLACK_MM:
                on_side = slanted.interpolate(slanted.project(spot))
                places = [(on_side.x, on_side.y)]
            for corner in places:
                ring[i] = corner
                tried = _polygon(rings)
                if _sound(tried) and room.covers(tried):
                    break
                ring[i] = (x, y)
    return _polygon(rings)


def _slanted(layout: Layout) -> Any:
    """The plate's sides that run neither level nor upright."""
    import shapely

    rings = (layout.sheet.corners, *layout.sheet.holes)
    sides = [side for ring in rings for side in itertools.pairwise([*ring, ring[0]])]
    return shapely.MultiLineString([(a, b) for a, b in sides if a[0] != b[0] and a[1] != b[1]])


def _near(value: float, own: set[float]) -> list[float]:
    """The plate's own measure that this is, or else whole millimetres about it."""
    same = [one for one in own if abs(one - value) < HAIR_MM]
    return same[:1] or [float(v) for v in range(math.floor(value) - 1, math.ceil(value) + 2)]
