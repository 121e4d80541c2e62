"""Places of a plane region that a disc of given radius cannot reach and that vanish for it. mm.

The region is opened: shrunk by the radius and grown again (Serra, Image Analysis and Mathematical
Morphology, 1982: opening by a disc). What is left over in a corner between two edges that the disc
rolls along is the rounding of that corner, as deep as radius x (1 / cos(turn / 2) - 1), and no
narrow place. What is left over anywhere else is one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Any, Literal

import numpy as np

from platewheel.parts.geometry.outline import Arc, Loop, Point, segments

Kind = Literal["whole", "end", "between"]
FACET_MM = 0.0005  # how far chords lie off an arc here
NOTICE_MM = 0.05  # shallower places are the drawing's own roughness
QUARTER = 64  # facets of a quarter turn
SLIP = 1e-3  # of the radius: a place as wide as the disc is no narrow one
GROWN_MM = 1e-3  # opened this much wider, so that rounding leaves nothing over
NEAR_MM = 1e-3  # of boxes
RIM_MM = 1e-6  # from the rim of what the disc reaches to what is left over at it
SHORT_OF = 0.8  # an edge is rolled along if so much of it is near the disc as of a straight one


@dataclass(frozen=True)
class Narrow:
    """A narrow place: all of the region (`whole`), a dead end, or a neck between two wider parts.

    `deep_mm` is how far it reaches on from there; `contacts` are where the disc comes to rest in
    front of it, on the side of the greatest part.
    """

    kind: Kind
    place: Point
    width_mm: float
    lost: Any  # polygon
    deep_mm: float = math.inf
    contacts: tuple[Point, Point] | None = None


class Chords:
    """A line as its chords in a tree: of thousands, only those about a place are looked at."""

    def __init__(self, line: Any) -> None:
        import shapely

        self.line = line
        parts = [shapely.get_coordinates(part) for part in shapely.get_parts(line)]
        ends = [np.stack([part[:-1], part[1:]], axis=1) for part in parts]
        self.tree = shapely.STRtree(shapely.linestrings(np.concatenate(ends)) if ends else [])

    def within(self, shapes: Any, least_mm: float) -> Any:
        """Whether each shape lies as near as that to the line."""
        shapes = np.atleast_1d(shapes)
        asked = self.tree.query_nearest(shapes, max_distance=least_mm, all_matches=False)[0]
        return np.isin(np.arange(len(shapes)), asked)

    def about(self, shape: Any) -> Any:
        """Those of which the box meets that of a shape, or nearly so."""
        import shapely

        x0, y0, x1, y1 = shape.bounds
        box = shapely.box(x0 - NEAR_MM, y0 - NEAR_MM, x1 + NEAR_MM, y1 + NEAR_MM)
        return shapely.MultiLineString(list(self.tree.geometries[sorted(self.tree.query(box))]))


def region_of(loop: Loop) -> Any:
    """The area inside a loop, arcs as fine chords."""
    import shapely
    import shapely.ops

    points: list[Point] = []
    for segment in segments(loop):
        points.append(segment.start)
        if isinstance(segment, Arc):
            step = 2 * math.acos(1 - min(1.0, FACET_MM / segment.radius_mm))
            count = math.ceil(math.radians(abs(segment.sweep_deg)) / max(step, 1e-4))
            turn = segment.sweep_deg / max(1, count)
            points += [segment.at(segment.start_deg + i * turn) for i in range(1, count)]
    return shapely.Polygon(points).buffer(0)


def outside_of(loop: Loop, radius_mm: float) -> Any:
    """The area about a loop, as far as a disc of the radius meets it."""
    inside = region_of(loop)
    return inside.convex_hull.buffer(8 * radius_mm, quad_segs=QUARTER).difference(inside)


def narrow_places(region: Any, radius_mm: float) -> list[Narrow]:
    """What vanishes for a disc of the radius, from left to right."""
    radius = radius_mm * (1 - SLIP)
    inner = region.buffer(-radius, quad_segs=QUARTER)
    opened = inner.buffer(radius + GROWN_MM, quad_segs=QUARTER)
    notice = max(NOTICE_MM, 0.02 * radius_mm)
    found: list[Narrow] = []
    edge, rim = Chords(region.boundary), Chords(opened.boundary)
    for rest in _polygons(region.difference(opened)):
        found += _judged(rest, edge, inner, rim, radius, notice)
    parts = _polygons(inner)
    if len(parts) > 1:  # necks so short that the disc nearly touches itself through them
        found += _short_necks(parts, [one for one in found if one.kind == "between"], edge, radius)
    return sorted(found, key=lambda one: one.place)


def _judged(
    rest: Any,
    edge: Chords,
    inner: Any,
    rim: Chords,
    radius: float,
    notice: float,
) -> Iterator[Narrow]:
    import shapely

    corners = shapely.points(shapely.get_coordinates(shapely.segmentize(rest, radius / 4)))
    whole = inner.is_empty or not rim.within(rest, RIM_MM).all()
    if not whole and rim.within(corners, notice).all():
        return
    if whole:
        yield Narrow("whole", *_widest(rest), rest)
        return
    mouths = _lines(rest.boundary.intersection(rim.about(rest).buffer(RIM_MM)))
    mouths = [mouth for mouth in mouths if mouth.length > 1e-2 * radius]
    if len(mouths) > 1:
        main = max(_polygons(inner), key=lambda one: one.area)
        mouth = min(mouths, key=lambda one: one.distance(main))
        walls = _lines(rest.boundary.difference(shapely.union_all(mouths).buffer(1e-4)))
        place, width = _neck(walls) or _widest(rest)
        resting = _contacts(_middle(mouth, main), edge, radius)
        ends = (resting[1], resting[2]) if resting else None
        yield Narrow("between", place, width, rest, contacts=ends)
        return
    resting = _contacts(_middle(mouths[0], inner), edge, radius) if mouths else None
    if resting is None:
        yield Narrow("end", *_widest(rest), rest)
        return
    centre, first, last, rolls = resting
    turn = abs(_angle(first, centre) - _angle(last, centre)) % 360
    turn = math.radians(min(turn, 360 - turn))
    deep = max(math.dist(corner, centre) for corner in rest.exterior.coords) - radius
    rounding = radius * (1 / max(math.cos(turn / 2), 1e-6) - 1)
    if rolls == 1:  # the disc rests on the edge of a step: no more than a right angle is lost
        rounding = max(rounding, radius * (math.sqrt(2) - 1))
    if rolls and deep <= 1.1 * rounding + notice:
        return
    mouth_mm = math.dist(first, last)
    place, width = _widest(rest)
    width = mouth_mm if deep < mouth_mm else width
    yield Narrow("end", place, width, rest, deep, (first, last))


def _widest(rest: Any) -> tuple[Point, float]:
    """Where it is widest, and how wide."""
    import shapely

    widest = shapely.maximum_inscribed_circle(rest, tolerance=0.01)
    return widest.coords[0], 2 * widest.length


def _short_necks(
    parts: list[Any], known: list[Narrow], edge: Chords, radius: float
) -> Iterator[Narrow]:
    """Between parts that the disc reaches one by one, and that no neck known yet joins: from the
    greatest part on, the nearest each time."""
    import shapely
    import shapely.ops

    reached = [max(parts, key=lambda one: one.area)]
    left = [one for one in parts if one is not reached[0]]
    grown = [neck.lost.buffer(radius * 1.1) for neck in known]
    while left:
        joined = [
            part
            for part in left
            if any(
                lost.intersects(part) and lost.intersects(one) for one in reached for lost in grown
            )
        ]
        if not joined:
            here = shapely.union_all(reached)
            part = min(left, key=lambda one: one.distance(here))
            a, b = shapely.ops.nearest_points(here, part)
            place = shapely.Point((a.x + b.x) / 2, (a.y + b.y) / 2)
            resting = _contacts(a, edge, radius)
            ends = (resting[1], resting[2]) if resting else None
            width = 2 * place.distance(edge.line)
            yield Narrow("between", (place.x, place.y), width, part, contacts=ends)
            joined = [part]
        reached += joined
        left = [one for one in left if one not in joined]


def _middle(mouth: Any, inner: Any) -> Any:
    """Centre of the disc that rests in a mouth."""
    import shapely.ops

    return shapely.ops.nearest_points(inner, mouth.interpolate(0.5, normalized=True))[0]


def _contacts(centre: Any, edge: Chords, radius: float) -> tuple[Point, Point, Point, int] | None:
    """The centre of a disc that rests, the two places where it touches, furthest apart, and at
    how many of them it rolls along an edge."""
    import shapely
    import shapely.ops

    near = 0.01 * radius
    disc = shapely.Polygon(_round(radius + near) + np.array(centre.coords[0]))
    touched = [
        (shapely.ops.nearest_points(line, centre)[0].coords[0], line.length)
        for line in _lines(edge.about(disc).intersection(disc))
    ]
    if len(touched) < 2:
        return None
    (first, one), (last, other) = max(
        combinations(touched, 2), key=lambda pair: math.dist(pair[0][0], pair[1][0])
    )
    straight = 2 * math.sqrt((radius + near) ** 2 - radius**2)
    rolls = sum(length >= SHORT_OF * straight for length in (one, other))
    return centre.coords[0], first, last, rolls


@lru_cache(maxsize=8)
def _round(radius: float) -> Any:
    """Corners of a fine disc about the origin."""
    turns = np.arange(16 * QUARTER) * (2 * math.pi / (16 * QUARTER))
    return radius * np.column_stack((np.cos(turns), np.sin(turns)))


def _neck(walls: list[Any]) -> tuple[Point, float] | None:
    """The narrowest place between two walls."""
    import shapely
    import shapely.ops

    pairs = [(a.distance(b), a, b) for i, a in enumerate(walls) for b in walls[:i]]
    if not pairs:
        return None
    width, a, b = min(pairs, key=lambda pair: pair[0])
    p, q = shapely.ops.nearest_points(a, b)
    return ((p.x + q.x) / 2, (p.y + q.y) / 2), width


def _angle(point: Point, centre: Point) -> float:
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def _polygons(shape: Any) -> list[Any]:
    return [
        one
        for one in getattr(shape, "geoms", [shape])
        if one.geom_type == "Polygon" and one.area > 0
    ]


def _lines(shape: Any) -> list[Any]:
    """Its lines, those that run on into each other as one."""
    import shapely
    import shapely.ops

    parts = [one for one in getattr(shape, "geoms", [shape]) if one.geom_type == "LineString"]
    merged = shapely.line_merge(shapely.MultiLineString(parts)) if parts else None
    return [] if merged is None else list(getattr(merged, "geoms", [merged]))
