"""Where a lead finds room: clear of other parts, plate edges and the leads laid before."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import islice
from typing import Any

import numpy as np

from platewheel.nesting.cutting.lead import Shape, far_half, lead_in, lead_out, own_gap_mm
from platewheel.nesting.geometry.gaps import Box, box_gap, loop_gap, segment_box, segment_gap
from platewheel.nesting.geometry.ring import Ring, Spot, spots
from platewheel.nesting.geometry.trim import between
from platewheel.nesting.offcuts.taken import faceted
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.pierce_clear import good_clear_mm, pierce_clear_mm
from platewheel.parts.geometry.outline import (
    Line,
    Loop,
    Point,
    Segment,
    bounds,
    contains,
    polygon,
    segments,
)

LEAST_CLEAR_MM = 0.5  # a pierce needs some room even where the kerf is told as nothing
FACET_MM = 0.002  # of parts as polygons
AT_ONCE = 64  # spots
HAIR_MM = 0.003  # of those and of rounding
TOUCH_MM = 1e-6  # of boxes: pieces of which no nearer ones lie do not touch


@dataclass(eq=False)
class Neighbour:
    """A part on the plate as an obstacle, with the leads laid to it so far.

    `bridges` are lines that run out from its tabs: a lead of another part across one would cut
    the part loose.
    """

    placement: Placement
    outline: Loop
    holes: tuple[Loop, ...]
    box: Box
    leads: list[Segment] = field(default_factory=list)
    bridges: tuple[Line, ...] = ()
    number: int = 0  # in the order of cuts

    @property
    def said(self) -> str:
        """Name, number and place."""
        at = self.placement
        return f"{at.blank.name} {self.number} at ({at.x_mm:g}, {at.y_mm:g})"

    @cached_property
    def steel(self) -> Any:
        """The finished part as a polygon that is nowhere smaller."""
        import shapely

        edge = np.array(faceted(self.outline, FACET_MM, bulging=True))
        holes = [np.array(faceted(hole, FACET_MM, bulging=False)) for hole in self.holes]
        return shapely.Polygon(edge, holes).buffer(0)


@dataclass(frozen=True, eq=False)
class Room:
    """The plate that leads are laid on: its parts gather the leads that are laid."""

    edges: tuple[Loop, ...]  # the plate's own first
    parts: tuple[Neighbour, ...]  # in the layout's order
    clear_mm: float
    bridge_mm: float  # length of a bridge that must hold
    kerf_mm: float
    pierce_mm: float  # that a pierce keeps off its own edge and other kerfs
    good_mm: float  # that it keeps off others where it can
    reach_mm: float  # parts further apart do not see each other's leads

    def near(self, own: Neighbour) -> list[Neighbour]:
        """Parts whose leads, edges or tabs may matter to a part, itself among them."""
        return [part for part in self.parts if box_gap(part.box, own.box) < self.reach_mm]

    def free(self, lead: Segment, own: Neighbour, near: Sequence[Neighbour]) -> bool:
        """Whether a lead keeps clear of all but its own part."""
        plate, *cut_out = self.edges
        if not contains(plate, lead.start) or any(contains(c, lead.start) for c in cut_out):
            return False
        box, clear = segment_box(lead), self.clear_mm
        if any(loop_gap((lead,), ring, clear) < clear for ring in self.edges):
            return False
        if any(segment_gap(lead, other) < clear for part in near for other in part.leads):
            return False
        far = max(clear, 2 * self.bridge_mm)
        return not any(
            self._hits(lead, part)
            for part in near
            if part is not own and box_gap(box, part.box) < far
        )

    def pierces_clear(self, at: Point, near: Sequence[Neighbour]) -> bool:
        """Whether a pierce keeps off the leads laid before."""
        least, spot = self.pierce_mm + self.kerf_mm / 2, Line(at, at)
        return not any(segment_gap(spot, lead) < least for part in near for lead in part.leads)

    def _hits(self, lead: Segment, part: Neighbour) -> bool:
        """A lead begins off all other parts, so it is clear of one that it does not come near."""
        loops = (part.outline, *part.holes)
        if any(loop_gap((lead,), loop, self.clear_mm) < self.clear_mm for loop in loops):
            return True
        return not self.bridges_free(part.bridges, (lead,))

    def bridges_free(self, bridges: Iterable[Line], leads: Sequence[Segment]) -> bool:
        """Whether leads leave the bridges whole."""
        least = self.bridge_mm / 2
        return all(segment_gap(lead, bridge) >= least for bridge in bridges for lead in leads)


def room_on(layout: Layout, cutting: Cutting) -> Room:
    """The plate of a layout before any lead is laid."""
    parts = []
    for placement in layout.placements:
        outline = placement.outline
        parts.append(Neighbour(placement, outline, placement.holes, bounds(outline)))
    edges = tuple(polygon(ring) for ring in (layout.sheet.corners, *layout.sheet.holes))
    clear = max(cutting.kerf_mm, LEAST_CLEAR_MM)
    thick = layout.sheet.thickness_mm
    pierce, good = pierce_clear_mm(cutting, thick), good_clear_mm(cutting, thick)
    bridge = cutting.tab_width_mm + cutting.kerf_mm if cutting.tab_count else 0.0
    longest = math.sqrt(2) * max(cutting.lead_in_mm, cutting.lead_out_mm)  # across an arc
    reach = 2 * longest + max(clear, 2 * bridge, good + cutting.kerf_mm)
    return Room(edges, tuple(parts), clear, bridge, cutting.kerf_mm, pierce, good, reach)


@dataclass(frozen=True)
class Leads:
    """What is wanted of a cut's leads; a length of 0 wants none."""

    in_mm: float
    out_mm: float
    shape: Shape
    slant_deg: float = 90.0  # of a line into the cut

    @property
    def off_mm(self) -> float:
        """How far from a straight cut the lead-in begins."""
        return self.in_mm * math.sin(math.radians(self.slant_deg))

    def shapes(self, spot: Spot) -> tuple[Segment | None, Segment | None]:
        """Lead-in and lead-out at a spot."""
        into = lead_in(spot, self.in_mm, self.shape, self.slant_deg) if self.in_mm else None
        off = lead_out(spot, self.out_mm, self.shape) if self.out_mm else None
        return into, off


def leads_at(
    spot: Spot,
    wanted: Leads,
    room: Room,
    own: Neighbour,
    loop: Loop,
    *,
    hole: bool,
    path: Ring,
    near: Sequence[Neighbour] | None = None,
) -> tuple[Segment | None, Segment | None] | None:
    """The leads wanted at a spot of the path cut round a loop; None where there is no room."""
    into, off = wanted.shapes(spot)
    sides = segments(loop)
    cuts = (sides,) if path is sides else (sides, path)
    for lead, length in ((into, wanted.in_mm), (off, wanted.out_mm)):
        if lead is None:
            continue
        leads_in = lead is into
        slant = wanted.slant_deg if leads_in else 90.0
        if not _clears_own(lead, length, wanted.shape, slant, cuts, loop, leads_in, hole):
            return None
    around = room.near(own) if near is None else near
    for lead in (into, off):
        if lead is not None and not room.free(lead, own, around):
            return None
    if into is not None and not room.pierces_clear(into.start, around):
        return None
    return into, off


def _clears_own(
    lead: Segment,
    length_mm: float,
    shape: Shape,
    slant_deg: float,
    cuts: Sequence[Ring],
    loop: Loop,
    into: bool,
    hole: bool,
) -> bool:
    """On the scrap side, never across its own part or along its own path, as an arc would in a
    hole that is hardly rounder; inside a hole at most to its middle."""
    far = far_half(lead, into=into)
    tip = lead.start if into else lead.end
    if contains(loop, tip) != hole:
        return False

    def gap(piece: Segment, enough_mm: float) -> float:
        return min(loop_gap((piece,), cut, enough_mm) for cut in cuts)

    share = 0.5 if shape == "arc" else 0.8
    least = share * own_gap_mm(length_mm, shape, into=into, slant_deg=slant_deg)
    if gap(far, least) < least:
        return False
    near = between(lead, 0.5, 0.9) if into else between(lead, 0.1, 0.5)
    if gap(near, TOUCH_MM) <= 0:
        return False
    if not hole or not into:
        return True
    pierce = between(lead, 0.0, 1e-6)
    off = length_mm * math.sin(math.radians(slant_deg))
    room = (0.5 if shape == "arc" else 0.999) * off
    return gap(pierce, room) >= room


def place_leads(
    ring: Ring,
    wanted: Leads,
    room: Room,
    own: Neighbour,
    loop: Loop,
    *,
    hole: bool,
    allowed: Iterable[Spot] | None = None,
    pierce_mm: float | None = None,
) -> tuple[Spot, Segment | None, Segment | None] | None:
    """First spot of the cut with room for the leads wanted; None where there is none. The pierce
    keeps `pierce_mm` off its own part, else what the room asks; off others as good as it goes."""
    near = room.near(own)
    there = spots(ring) if allowed is None else allowed
    for spot in _with_room_to_pierce(there, wanted, room, own, near, pierce_mm):
        found = leads_at(spot, wanted, room, own, loop, hole=hole, path=ring, near=near)
        if found is not None:
            return spot, *found
    return None


def _with_room_to_pierce(
    there: Iterable[Spot],
    wanted: Leads,
    room: Room,
    own: Neighbour,
    near: Sequence[Neighbour],
    pierce_mm: float | None,
) -> Iterator[Spot]:
    """Spots where the lead-in may begin: those with good room to other parts first. The first
    is asked about alone, as it is mostly taken, the thousands of a long edge so many at once."""
    if not wanted.in_mm:
        yield from there
        return
    least = room.pierce_mm if pierce_mm is None else pierce_mm
    others = [part.steel for part in near if part is not own]
    good, some_room = (
        max(clear + room.kerf_mm - HAIR_MM, 0.0) for clear in (room.good_mm, room.pierce_mm)
    )
    narrow, rest, at_once = [], iter(there), 1
    while some := list(islice(rest, at_once)):
        at_once = AT_ONCE
        for spot, free in zip(some, _free_mm(some, wanted, own.steel, others, least), strict=True):
            if free >= good:
                yield spot
            elif free >= some_room:
                narrow.append(spot)
    yield from narrow


def _free_mm(
    some: Sequence[Spot], wanted: Leads, steel: Any, others: Sequence[Any], least_mm: float
) -> list[float]:
    """How far the lead-in of each begins from other parts; -1 where nearer than that to its own."""
    import shapely

    starts = [lead_in(spot, wanted.in_mm, wanted.shape, wanted.slant_deg).start for spot in some]
    points = shapely.points(starts)
    away = [math.inf] * len(some)
    if others:  # each whole: a shape drawn with a doubled corner may come out as several
        away = shapely.distance(points, shapely.multipolygons(shapely.get_parts(others))).tolist()
    far = (shapely.distance(points, steel) >= least_mm - HAIR_MM).tolist()
    return [free if clear else -1.0 for free, clear in zip(away, far, strict=True)]
