"""Places of a plane region that a disc of given radius cannot reach and that vanish for it. mm.

The region is opened: shrunk by the radius and grown again (Serra, Image Analysis and Mathematical
Morphology, 1982: opening by a disc). What is left over in a corner between two edges that the disc
rolls along is the rounding of that corner, as deep as radius x (1 / cos(turn / 2) - 1), and no
narrow place. What is left over anywhere else is one.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any, Literal

import numpy as np

from platewheel.nesting.drawings.chords import Chords
from platewheel.nesting.drawings.mouths import RIM_MM, heard, mouths_and_walls, neck, widest
from platewheel.parts.geometry.outline import Arc, Loop, Point, segments

Kind = Literal["whole", "end", "between"]
Resting = tuple[Point, Point, Point, int]  # centre of a disc that rests, the two places where it
# touches, furthest apart, and at how many of them it rolls along an edge
FACET_MM = 0.0005  # how far chords lie off an arc here
NOTICE_MM = 0.05  # shallower places are the drawing's own roughness
QUARTER = 64  # facets of a quarter turn
SLIP = 1e-3  # of the radius: a place as wide as the disc is no narrow one
GROWN_MM = 1e-3  # opened this much wider, so that rounding leaves nothing over,
GROWN = 0.011  # and by this share: GEOS draws an edge straight by up to a hundredth of the radius
LARGER = 1.2  # than what runs to a point: the drawing's roughness there
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
    grown = radius * (1 + GROWN) + GROWN_MM
    inner = heard(region, lambda: region.buffer(-radius, quad_segs=QUARTER))
    opened = heard(inner, lambda: inner.buffer(grown, quad_segs=QUARTER))
    notice = max(NOTICE_MM, 0.02 * radius_mm)
    edge, rim = Chords(region.boundary), Chords(opened.boundary)
    parts = _polygons(inner)
    rests = _polygons(heard(opened, lambda: region.difference(opened)))
    whole, deep = _unreached(rests, rim, radius, notice)
    found = [Narrow("whole", *widest(rests[i]), rests[i]) for i in np.flatnonzero(whole)]
    found += _judged([rests[i] for i in np.flatnonzero(deep)], edge, parts, rim, radius, notice)
    if len(parts) > 1:  # necks so short that the disc nearly touches itself through them
        found += _short_necks(parts, [one for one in found if one.kind == "between"], edge, radius)
    return sorted(found, key=lambda one: one.place)


def _unreached(rests: list[Any], rim: Chords, radius: float, notice: float) -> tuple[Any, Any]:
    """Which of them touch nothing that the disc reaches, and which others reach away from it."""
    import shapely

    if not rests or not len(rim.ends):
        return np.ones(len(rests), bool), np.zeros(len(rests), bool)
    least, most = _gaps(rests, rim, notice)  # what touches the rim has a corner there
    whole, deep = least > RIM_MM, most > notice
    unsure = np.flatnonzero(~whole & ~deep)
    if len(unsure):
        finely = shapely.segmentize([rests[i] for i in unsure], radius / 4)
        deep[unsure] = _gaps(finely, rim, notice)[1] > notice
    return whole, ~whole & deep


def _gaps(shapes: Sequence[Any], rim: Chords, notice: float) -> tuple[Any, Any]:
    """Least and greatest distance of the corners of each shape from the rim."""
    import shapely

    corners, of = shapely.get_coordinates(shapes, return_index=True)
    gaps = np.zeros(len(corners))
    off = rim.corner_numbers(corners) < 0
    gaps[off] = rim.gaps(corners[off], notice)
    first = np.searchsorted(of, np.arange(len(shapes)))
    return np.minimum.reduceat(gaps, first), np.maximum.reduceat(gaps, first)


def _judged(
    rests: list[Any], edge: Chords, parts: list[Any], rim: Chords, radius: float, notice: float
) -> Iterator[Narrow]:
    """The narrow places of those that reach away from the rim."""
    import shapely

    if not rests:
        return
    main = Chords(max(parts, key=lambda one: one.area).boundary)
    reached = main if len(parts) == 1 else Chords(shapely.MultiPolygon(parts).boundary)
    ways = mouths_and_walls(rests, rim, 1e-2 * radius)
    resting = _all_resting([mouths for mouths, _ in ways], edge, main, reached, radius)
    for rest, (mouths, walls), rests_at in zip(rests, ways, resting, strict=True):
        if len(mouths) > 1:
            place, width = neck(walls) or widest(rest)
            ends = (rests_at[1], rests_at[2]) if rests_at else None
            yield Narrow("between", place, width, rest, contacts=ends)
        elif rests_at is None:
            yield Narrow("end", *widest(rest), rest)
        else:
            yield from _dead_end(rest, rests_at, radius, notice)


def _dead_end(rest: Any, resting: Resting, radius: float, notice: float) -> Iterator[Narrow]:
    """What is left over behind a mouth, unless it is a corner's rounding."""
    import shapely

    centre, first, last, rolls = resting
    turn = abs(_angle(first, centre) - _angle(last, centre)) % 360
    turn = math.radians(min(turn, 360 - turn))
    corners = shapely.get_coordinates(rest.exterior) - centre
    away = np.hypot(*corners.T)
    deep, mouth_mm = float(away.max()) - radius, math.dist(first, last)
    rounding, lost_mm2 = radius * (1 / max(math.cos(turn / 2), 1e-6) - 1), math.inf
    if rolls == 1:  # the disc rests on the edge of a step: no more than a right angle is lost,
        rounding = max(rounding, radius * (math.sqrt(2) - 1))  # or what runs to a point: no slit
        to_point = shapely.Polygon([first, last, corners[away.argmax()] + centre]).area
        lost_mm2 = to_point - radius**2 * (turn - math.sin(turn)) / 2
        lost_mm2 = max(lost_mm2, radius**2 * (1 - math.pi / 4))
    small = rest.area <= LARGER * lost_mm2 + notice * mouth_mm
    if rolls and small and deep <= 1.1 * rounding + notice:
        return
    place, width = widest(rest)
    width = mouth_mm if deep < mouth_mm else width
    yield Narrow("end", place, width, rest, deep, (first, last))


def _short_necks(
    parts: list[Any], known: list[Narrow], edge: Chords, radius: float
) -> Iterator[Narrow]:
    """Between parts that the disc reaches one by one, and that no neck known yet joins: from the
    greatest part on, the nearest each time."""
    import shapely
    import shapely.ops

    tree = shapely.STRtree(parts)
    joined: dict[int, set[int]] = {}  # by a known neck
    for neck_there in known:
        at_it = tree.query(neck_there.lost, predicate="dwithin", distance=1.1 * radius).tolist()
        for one in at_it:
            joined.setdefault(one, set()).update(at_it)
    left, reach = set(range(len(parts))), 4 * radius
    first = max(left, key=lambda k: parts[k].area)
    ways = [(-1.0, first, first)]
    reached: list[int] = []
    while left:
        while ways and left:
            gap, here, part = heapq.heappop(ways)
            if part not in left:
                continue
            if gap >= 0:
                yield _short_neck(parts[here], parts[part], edge, radius)
            left.discard(part)
            reached.append(part)
            for other in joined.get(part, ()):
                heapq.heappush(ways, (-1.0, part, other))
            _push_near(ways, tree, [part], left, reach)
        if left:  # the next lie further off
            reach *= 4
            _push_near(ways, tree, reached, left, reach)


def _push_near(
    ways: list[tuple[float, int, int]],
    tree: Any,
    parts: list[int],
    left: Collection[int],
    reach: float,
) -> None:
    """The parts left that lie within reach of these, and how near."""
    import shapely

    shapes = tree.geometries
    here, there = tree.query(shapes[parts], predicate="dwithin", distance=reach)
    pairs = [(parts[i], k) for i, k in zip(here.tolist(), there.tolist(), strict=True) if k in left]
    for one, other in pairs:
        gap = float(shapely.distance(shapes[one], shapes[other]))
        heapq.heappush(ways, (gap, one, other))


def _short_neck(here: Any, part: Any, edge: Chords, radius: float) -> Narrow:
    import shapely
    import shapely.ops

    a, b = shapely.ops.nearest_points(here, part)
    place = ((a.x + b.x) / 2, (a.y + b.y) / 2)
    (resting,) = _resting(np.array([(a.x, a.y)]), edge, radius)
    ends = (resting[1], resting[2]) if resting else None
    width = 2 * float(np.hypot(*(edge.nearest(np.array([place]))[0] - place)))
    return Narrow("between", place, width, part, contacts=ends)


def _all_resting(
    mouths: list[Any], edge: Chords, main: Chords, reached: Chords, radius: float
) -> list[Resting | None]:
    """How the disc rests in the mouth of each place, in the one nearest to the greatest part."""
    import shapely

    chosen = [list(lines)[:1] for lines in mouths]
    for k, lines in enumerate(mouths):
        if len(lines) > 1:
            gaps = main.tree.query_nearest(lines, return_distance=True, all_matches=False)[1]
            chosen[k] = [lines[int(np.argmin(gaps))]]
    asked = np.array([k for k, lines in enumerate(chosen) if lines], dtype=int)
    found: list[Resting | None] = [None] * len(mouths)
    if not len(asked):
        return found
    middles = shapely.line_interpolate_point([chosen[k][0] for k in asked], 0.5, normalized=True)
    middles = shapely.get_coordinates(middles)
    necks = np.array([len(mouths[k]) > 1 for k in asked])
    centres = np.empty_like(middles)
    centres[necks], centres[~necks] = main.nearest(middles[necks]), reached.nearest(middles[~necks])
    for k, resting in zip(asked, _resting(centres, edge, radius), strict=True):
        found[k] = resting
    return found


def _resting(centres: Any, edge: Chords, radius: float) -> list[Resting | None]:
    """How a disc rests about each of the centres; None where it touches in less than two places."""
    near = 0.01 * radius
    straight = 2 * math.sqrt((radius + near) ** 2 - radius**2)
    found: list[Resting | None] = []
    for centre, touched in zip(centres, edge.runs_in(centres, radius + near), strict=True):
        if len(touched) < 2:
            found.append(None)
            continue
        (first, one), (last, other) = max(
            combinations(touched, 2), key=lambda pair: math.dist(pair[0][0], pair[1][0])
        )
        rolls = sum(length >= SHORT_OF * straight for length in (one, other))
        found.append(((float(centre[0]), float(centre[1])), first, last, rolls))
    return found


def _angle(point: Point, centre: Point) -> float:
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def _polygons(shape: Any) -> list[Any]:
    return [
        one
        for one in getattr(shape, "geoms", [shape])
        if one.geom_type == "Polygon" and one.area > 0
    ]
