"""A disc of the user's own in the deck: how it lies to the load, its shape for gmsh, its edges."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, Loop, Point, arc_pieces, moved, segments
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.own_disc import hub_hole, openings, resized
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

FINE_DEG = 2.0  # of arcs, where shapes are compared
MIRRORED_MM = 0.05  # edges that lie this near to each other's mirror image are alike


def to_the_load(disc: Blank, over: Literal["vent", "web"]) -> tuple[Blank, float, bool]:
    """The disc turned so that the patch at +X stands over its widest opening, or over its web; by
    how many degrees; and whether y = 0 is then a mirror, so that half of it does."""
    lines = mirror_directions(disc)
    mirrored = bool(lines)
    tried = lines or _over(disc, over)
    lengths = [round(open_mm(disc, turn), 1) for turn in tried]
    best = max(lengths) if over == "vent" else min(lengths)
    turn = -math.degrees(tried[lengths.index(best)]) + 0.0  # no -0
    holes = tuple(moved(hole, 0.0, 0.0, turn) for hole in disc.holes)
    return replace(disc, holes=holes, marks=()), turn, mirrored


def mirror_directions(disc: Blank) -> tuple[float, ...]:
    """Directions from the axis (radians) along which the disc is its own mirror image, both ways
    of each line; of a plain one +x alone.

    A mirror line takes the first opening to another, or to itself: only lines half way between
    two middles need be tried.
    """
    from shapely.affinity import affine_transform

    holes = [_polygon(hole) for hole in openings(disc)]
    if not holes:
        return (0.0,)
    whole, edge = _open(disc), sum(hole.length for hole in holes)
    angles = [math.atan2(hole.centroid.y, hole.centroid.x) for hole in holes]
    found = []
    for angle in angles:
        line = (angles[0] + angle) / 2
        cos, sin = math.cos(2 * line), math.sin(2 * line)
        image = affine_transform(whole, [cos, sin, sin, -cos, 0.0, 0.0])
        if whole.symmetric_difference(image).area < MIRRORED_MM * edge:
            found += [_direction(line), _direction(line + math.pi)]
    return tuple(sorted(found))


def _direction(angle: float) -> float:
    """The angle from 0 up to a full turn; a hair below 0 is 0."""
    return round(angle % (2 * math.pi), 9) % round(2 * math.pi, 9)


def _over(disc: Blank, over: Literal["vent", "web"]) -> tuple[float, ...]:
    """Where no mirror line says which: middles of the openings, or half way between neighbours."""
    middles = [_polygon(hole).centroid for hole in openings(disc)]
    angles = sorted(_direction(math.atan2(at.y, at.x)) for at in middles)
    if over == "vent":
        return tuple(angles)
    following = [*angles[1:], angles[0] + 2 * math.pi]
    return tuple(_direction((a + b) / 2) for a, b in zip(angles, following, strict=True))


def open_mm(disc: Blank, direction: float) -> float:
    """Length of a ray from the axis that lies in openings, mm."""
    from shapely.geometry import LineString

    far = 2 * max(map(abs, disc.bounds))
    ray = LineString([(0.0, 0.0), (far * math.cos(direction), far * math.sin(direction))])
    return float(_open(disc).intersection(ray).length)


@cache
def _open(disc: Blank) -> BaseGeometry:
    from shapely.ops import unary_union

    return unary_union([_polygon(hole) for hole in openings(disc)])


def _polygon(loop: Loop) -> BaseGeometry:
    from shapely.geometry import Polygon

    corners: list[Point] = []
    for piece in segments(loop):
        fine = arc_pieces(piece, FINE_DEG) if isinstance(piece, Arc) else (piece,)
        corners += [one.start for one in fine]
    return Polygon(corners)


def with_slits(disc: Blank, spec: WheelSpec) -> Blank:
    """The disc clear of ring and tube by what the wheel `spec` has: bodies of their own."""
    rim, hub = disc_diameter_mm(spec, "field"), Circle((0.0, 0.0), spec.hub_hole_diameter_mm / 2)
    drawn = hub_hole(disc)
    if isinstance(drawn, Circle) and drawn.radius_mm > hub.radius_mm:
        hub = drawn
    less = resized(disc, min(rim, disc.bounds[2] - disc.bounds[0]))
    return replace(less, holes=(hub, *openings(disc)))


def half_disc(
    occ: Any, disc: Blank, z: tuple[float, float], way: Literal[1, -1]
) -> list[tuple[int, int]]:
    """gmsh volumes of the disc between two heights, at y >= 0, or y <= 0 where `way` is -1."""
    loops = [_curve_loop(occ, loop, z[0]) for loop in (disc.outline, *disc.holes)]
    face = occ.addPlaneSurface(loops)
    whole = [pair for pair in occ.extrude([(2, face)], 0, 0, z[1] - z[0]) if pair[0] == 3]
    far = 2 * max(map(abs, disc.bounds))
    low = 0.0 if way == 1 else -far
    box = occ.addBox(-far, low, z[0] - 1, 2 * far, far, z[1] - z[0] + 2)
    return list(occ.intersect(whole, [(3, box)])[0])


def _curve_loop(occ: Any, loop: Loop, z: float) -> int:
    if isinstance(loop, Circle):
        return int(occ.addCurveLoop([occ.addCircle(*loop.centre, z, loop.radius_mm)]))
    pieces = [
        one
        for piece in loop
        for one in (arc_pieces(piece, 120.0) if isinstance(piece, Arc) else (piece,))
    ]
    points = [occ.addPoint(*piece.start, z) for piece in pieces]
    curves = []
    for piece, start, end in zip(pieces, points, points[1:] + points[:1], strict=True):
        if isinstance(piece, Arc):
            curves.append(occ.addCircleArc(start, occ.addPoint(*piece.centre, z), end))
        else:
            curves.append(occ.addLine(start, end))
    return int(occ.addCurveLoop(curves))


def off_openings_mm(disc: Blank, places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Distance of each place (n, 2) from the nearest edge of an opening; of arcs only beside them,
    as their ends are those of their neighbours."""
    away = [_off(piece, places) for hole in openings(disc) for piece in segments(hole)]
    if not away:
        return np.full(len(places), np.inf)
    return np.asarray(np.min(away, axis=0))


def _off(piece: object, places: NDArray[np.float64]) -> NDArray[np.float64]:
    if isinstance(piece, Arc):
        out = places - np.asarray(piece.centre)
        turn = np.degrees(np.arctan2(out[:, 1], out[:, 0])) - piece.start_deg
        turn = np.mod(turn if piece.sweep_deg >= 0 else -turn, 360.0)
        beside = (turn <= abs(piece.sweep_deg) + 1e-6) | (turn >= 360.0 - 1e-6)
        gap = np.abs(np.hypot(out[:, 0], out[:, 1]) - piece.radius_mm)
        return np.asarray(np.where(beside, gap, np.inf))
    start, end = (np.asarray(at) for at in (piece.start, piece.end))  # type: ignore[attr-defined]
    way = end - start
    share = np.clip((places - start) @ way / (way @ way), 0.0, 1.0)
    return np.asarray(np.hypot(*(places - start - share[:, None] * way).T))


def edge_curves(gmsh: Any, disc: Blank, curves: list[int]) -> Iterator[int]:
    """Those of gmsh's curves that lie on an opening's edge."""
    for tag in curves:
        low, high = (float(bound[0]) for bound in gmsh.model.getParametrizationBounds(1, tag))
        at = np.linspace(low, high, 5)
        places = np.reshape(gmsh.model.getValue(1, tag, at.tolist()), (-1, 3))[:, :2]
        if (off_openings_mm(disc, places) < 1e-5).all():
            yield tag
