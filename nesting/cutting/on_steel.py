"""Marks of a blank where the steel is: in a hole or beside the part they would be on a neighbour,
or on another part that lies in the hole."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from platewheel.nesting.geometry.trim import between
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Loop,
    Point,
    arc_pieces,
    contains,
    segments,
)

SAG_MM = 0.01  # how far facets lie off their arcs
OVER_MM = 0.05  # a line that ends on an edge stays as it is
LEAST_MM = 0.5  # shorter pieces of a line are left out


def on_steel(mark: MarkPoint | Line | Arc, blank: Blank) -> tuple[MarkPoint | Line | Arc, ...]:
    """The mark itself where it lies on the part, else the pieces of it that do; none off it.

    Pieces end within 0.1 mm of the edge.
    """
    import shapely

    if isinstance(mark, MarkPoint):
        there = contains(blank.outline, mark.at)
        return (mark,) if there and not any(contains(h, mark.at) for h in blank.holes) else ()
    steel = _reach(blank)
    if steel.covers(shapely.LineString([*along(mark), mark.end])):
        return (mark,)
    found: list[Line | Arc] = []
    for segment in arc_pieces(mark) if isinstance(mark, Arc) else (mark,):  # none meets its start
        path = shapely.LineString([*along(segment), segment.end])
        for piece in shapely.get_parts(path.intersection(steel)):
            if piece.length >= LEAST_MM:
                ends = (path.project(shapely.Point(piece.coords[i])) for i in (0, -1))
                low, high = sorted(end / path.length for end in ends)
                found.append(between(segment, low, high))
    return tuple(found)


@lru_cache(maxsize=256)
def marks_on_steel(blank: Blank) -> tuple[MarkPoint | Line | Arc, ...]:
    """What is marked of a blank's own marks, its words left out."""
    return tuple(piece for mark in lines_of(blank) for piece in on_steel(mark, blank))


def lines_of(blank: Blank) -> list[MarkPoint | Line | Arc]:
    """The blank's marks without its words."""
    return [mark for mark in blank.marks if not isinstance(mark, MarkText)]


@lru_cache(maxsize=256)
def _reach(blank: Blank) -> Any:
    """The steel and a little more."""
    import shapely

    steel = steel_of(blank).buffer(OVER_MM)
    shapely.prepare(steel)
    return steel


@lru_cache(maxsize=256)
def steel_of(blank: Blank) -> Any:
    """The part as a polygon, within `SAG_MM` of its arcs."""
    import shapely

    holes = [shapely.Polygon(_points(hole)) for hole in blank.holes]
    return shapely.Polygon(_points(blank.outline)).buffer(0).difference(shapely.union_all(holes))


def _points(loop: Loop) -> list[Point]:
    return [point for segment in segments(loop) for point in along(segment)]


def along(segment: Line | Arc) -> list[Point]:
    """Points from a segment's start on, its end left out, as dense as `SAG_MM` asks."""
    if isinstance(segment, Line):
        return [segment.start]
    radius = max(segment.radius_mm, SAG_MM)
    most = min(3.0, math.degrees(2 * math.acos(1 - SAG_MM / radius)))
    count = max(2, math.ceil(abs(segment.sweep_deg) / most))
    step = segment.sweep_deg / count
    return [segment.at(segment.start_deg + k * step) for k in range(count)]
