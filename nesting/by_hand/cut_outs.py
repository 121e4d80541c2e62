"""Cut-outs that are not round, and hollows too small for a chain: how they are made by hand. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.nesting.by_hand.hole_ways import (
    DRILL_MM,
    LAND_MM,
    LARGE_DRILL_MM,
    SMALL_DRILL_MM,
    THICK_MM,
    WEB_MM,
    chain_along_arc,
    chain_drill_mm,
    hollows,
)
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Loop, Point, segments
from platewheel.parts.geometry.round_hole import round_hole

FACET_DEG = 3.0


@dataclass(frozen=True)
class CutOut:
    """One cut-out: holes of `drill_mm` along its line, half a drill and the land inside; none
    where it is too narrow for any: its ends are drilled and the rest is sawn."""

    width_mm: float
    length_mm: float
    drill_mm: float
    drilled_centres: tuple[Point, ...]
    pitch_mm: float


def cut_outs(blank: Blank) -> tuple[CutOut, ...]:
    """Each cut-out that is not round, by the largest drill of a chain that goes into it."""
    return tuple(
        _cut_out(hole, blank.thickness_mm) for hole in blank.holes if round_hole(hole) is None
    )


def small_hollows(blank: Blank) -> tuple[Arc, ...]:
    """Hollow arcs of the outline that no chain goes along: drilled as one hole, or filed."""
    return tuple(
        arc
        for arc in hollows(blank.outline)
        if chain_along_arc(arc, chain_drill_mm(2 * arc.radius_mm, blank.thickness_mm)) is None
    )


def _cut_out(hole: Loop, thickness_mm: float) -> CutOut:
    import shapely

    shape = shapely.Polygon(list(_points(hole)))
    corners = list(shape.minimum_rotated_rectangle.exterior.coords)
    sides = sorted((math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2])))
    first = LARGE_DRILL_MM if thickness_mm > THICK_MM else DRILL_MM
    for drill in (first, SMALL_DRILL_MM):
        inside = shape.buffer(-(drill / 2 + LAND_MM))
        if inside.geom_type != "Polygon" or inside.is_empty:
            continue
        ring = inside.exterior
        count = math.floor(ring.length / (drill + WEB_MM))
        if count < 3:
            continue
        spots = (ring.interpolate(k * ring.length / count) for k in range(count))
        at = tuple((float(spot.x), float(spot.y)) for spot in spots)
        return CutOut(sides[0], sides[1], drill, at, ring.length / count)
    return CutOut(sides[0], sides[1], SMALL_DRILL_MM, (), 0.0)


def _points(loop: Loop) -> Iterator[Point]:
    """Corners of the loop, arcs in short chords."""
    for segment in segments(loop):
        yield segment.start
        if isinstance(segment, Arc):
            count = math.ceil(abs(segment.sweep_deg) / FACET_DEG)
            step = segment.sweep_deg / count
            yield from (segment.at(segment.start_deg + k * step) for k in range(1, count))
