"""What is left of a plate for the next job: free rectangles, or the outline of all that is free."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from platewheel.nesting.by_hand.rests import rests
from platewheel.nesting.offcuts.largest_rectangle import Rectangle, largest_rectangle
from platewheel.nesting.offcuts.real_outline import real_outlines
from platewheel.nesting.stock.cutting import LEAST_WEB_MM, Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.pierce_clear import SLACK_MM, pierce_clear_mm
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.outline import Loop, Point

HAIR_MM = 1e-6


@dataclass(frozen=True)
class Remnant:
    """A piece worth keeping, where it lies on one layout; as many as the layout is repeated."""

    layout: Layout
    corners: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()

    @property
    def area_mm2(self) -> float:
        """Holes taken off."""
        rings = [outline.area_mm2(outline.polygon(ring)) for ring in (self.corners, *self.holes)]
        return rings[0] - math.fsum(rings[1:])

    @property
    def bounds(self) -> Rectangle:
        """Least x, least y, greatest x, greatest y."""
        return outline.bounds(outline.polygon(self.corners))

    @property
    def length_mm(self) -> float:
        """Along x of the layout."""
        return self.bounds[2] - self.bounds[0]

    @property
    def width_mm(self) -> float:
        """Along y of the layout."""
        return self.bounds[3] - self.bounds[1]

    @property
    def is_rectangle(self) -> bool:
        return not self.holes and math.isclose(self.area_mm2, self.length_mm * self.width_mm)


def rectangle(layout: Layout, room: Rectangle) -> Remnant:
    """An upright rectangle x0, y0, x1, y1 of a layout."""
    x0, y0, x1, y1 = room
    return Remnant(layout, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def clear_distance_mm(cutting: Cutting, thickness_mm: float) -> float:
    """From a part to what is left: its leads or its kerf, a web or as far as a pierce keeps clear,
    and the kerf of the cut that parts what is kept."""
    leads = max(cutting.lead_in_mm, cutting.lead_out_mm)
    if leads:  # an arc begins no further off than it is across
        leads *= math.sqrt(2) if cutting.lead_shape == "arc" else 1.0
        leads += cutting.kerf_mm / 2 if cutting.kerf_in_path else 0.0
    clear = pierce_clear_mm(cutting, thickness_mm) + SLACK_MM if cutting.lead_in_mm else 0.0
    return leads + cutting.kerf_mm + max(cutting.kerf_mm + LEAST_WEB_MM, clear)


def remnants(layout: Layout, cutting: Cutting) -> tuple[Remnant, ...]:
    """Every piece worth keeping by the job's `offcut_outline` and `least_offcut_mm`; largest
    first. Sizes are in whole mm where neither the plate's own edge is met nor the cut of a piece
    kept before: rectangles side by side share one cut. By hand: what the straight cuts leave."""
    least = cutting.least_offcut_mm
    if cutting.process == "hand":
        found = [Remnant(layout, *one) for one in rests(layout, cutting)]
        return tuple(sorted(found, key=lambda piece: -piece.area_mm2))
    clear = clear_distance_mm(cutting, layout.sheet.thickness_mm)
    if cutting.offcut_outline == "real":
        found = [Remnant(layout, *one) for one in real_outlines(layout, clear, least)]
        return tuple(_one_a_slug(found))
    kept: list[Rectangle] = []
    while True:
        room = largest_rectangle(layout, clear, least, kept, cutting.kerf_mm)
        whole = _whole_mm(room, layout, kept, cutting.kerf_mm) if room else None
        if not whole or min(whole[2] - whole[0], whole[3] - whole[1]) < least - HAIR_MM:
            return tuple(_one_a_slug([rectangle(layout, room) for room in kept]))
        kept.append(whole)


def slug_hole(piece: Remnant) -> Loop | None:
    """The hole of a part that a piece lies in: it falls out with the hole's slug, before any
    cut could part it from that; None for all others."""
    corner = piece.corners[0]
    holes = (hole for part in piece.layout.placements for hole in part.holes)
    return next((hole for hole in holes if outline.contains(hole, corner)), None)


def _one_a_slug(pieces: Sequence[Remnant]) -> Iterator[Remnant]:
    """The first piece of each slug, and all that lie in none."""
    met: list[Loop] = []
    for piece in pieces:
        hole = slug_hole(piece)
        if hole is None or hole not in met:
            yield piece
        if hole is not None:
            met.append(hole)


def _whole_mm(
    room: Rectangle, layout: Layout, kept: Sequence[Rectangle], kerf_mm: float
) -> Rectangle:
    """Sides set inwards to whole millimetres; those on a measure of the plate's own corners, or
    a kerf beside a piece kept before, stay. Others keep a web's room for their cut, from that
    measure and from the cut of that piece: no sliver is cut off, and no two cuts run together."""
    rings = (layout.sheet.corners, *layout.sheet.holes)
    own = [{corner[axis] for ring in rings for corner in ring} for axis in (0, 1)]
    x0, y0, x1, y1 = room
    level = [k for k in kept if _beside(k, room, 1)]  # to the left or right
    upright = [k for k in kept if _beside(k, room, 0)]
    return (
        0.0 - _side(-x0, {-x for x in own[0]}, [-k[2] for k in level], kerf_mm),
        0.0 - _side(-y0, {-y for y in own[1]}, [-k[3] for k in upright], kerf_mm),
        _side(x1, own[0], [k[0] for k in level], kerf_mm),
        _side(y1, own[1], [k[1] for k in upright], kerf_mm),
    )


def _beside(other: Rectangle, room: Rectangle, axis: int) -> bool:
    """Whether two rectangles overlap in their measures along an axis."""
    return other[axis] < room[axis + 2] and other[axis + 2] > room[axis]


def _side(at: float, own: set[float], others: Sequence[float], kerf_mm: float) -> float:
    """The right or upper side of a rectangle; `others` are the sides that face it."""
    wall = min((other for other in others if other >= at), default=math.inf)
    for exact in (*own, wall - kerf_mm):
        if abs(at - exact) < HAIR_MM:
            return exact
    edge = min((one for one in own if one > at), default=math.inf)
    most = min(edge, wall - kerf_mm) - kerf_mm - LEAST_WEB_MM
    return float(math.floor(min(at, most) + HAIR_MM))
