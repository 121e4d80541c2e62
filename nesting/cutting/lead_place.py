"""Where a lead finds room: clear of other parts, plate edges and the leads laid before."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np

from platewheel.nesting.cutting.lead import Leads, Shape, far_half, own_gap_mm
from platewheel.nesting.geometry.gaps import Box, box_gap, loop_gap, segment_box, segment_gap
from platewheel.nesting.geometry.inside import inside
from platewheel.nesting.geometry.ring import Ring, Spot
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
    polygon,
    segments,
)

LEAST_CLEAR_MM = 0.5  # a pierce needs some room even where the kerf is told as nothing
FACET_MM = 0.002  # of parts as polygons
OWN_SHARE = {"arc": 0.5, "line": 0.8}  # of what a lead's far half keeps off a straight cut
MIDDLE_SHARE = {"arc": 0.5, "line": 0.999}  # of its length, that a pierce keeps off its hole
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
    _boxes: list[Box] = field(default_factory=list)  # of the leads

    @property
    def said(self) -> str:
        """Name, number and place."""
        at = self.placement
        return f"{at.blank.name} {self.number} at ({at.x_mm:g}, {at.y_mm:g})"

    def take(self, *leads: Segment | None) -> None:
        """Later leads stay clear of these."""
        laid = [lead for lead in leads if lead is not None]
        self.leads += laid
        self._boxes += [segment_box(lead) for lead in laid]

    def leads_near(self, lead: Segment, box: Box, clear_mm: float) -> bool:
        """Whether one of its leads lies nearer than that to another lead of this box."""
        return any(
            box_gap(box, other_box) < clear_mm and segment_gap(lead, other) < clear_mm
            for other, other_box in zip(self.leads, self._boxes, strict=True)
        )

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

    @cached_property
    def edge_lines(self) -> Any:
        """Edges of the plate as lines."""
        import shapely

        rings = [[side.start for side in segments(ring)] for ring in self.edges]
        return shapely.MultiLineString([[*ring, ring[0]] for ring in rings])

    def near(self, own: Neighbour) -> list[Neighbour]:
        """Parts whose leads, edges or tabs may matter to a part, itself among them."""
        return [part for part in self.parts if box_gap(part.box, own.box) < self.reach_mm]

    def free(self, lead: Segment, own: Neighbour, near: Sequence[Neighbour]) -> bool:
        """Whether a lead keeps clear of all but its own part."""
        plate, *cut_out = self.edges
        if not inside(plate, lead.start) or any(inside(c, lead.start) for c in cut_out):
            return False
        box, clear = segment_box(lead), self.clear_mm
        if any(loop_gap((lead,), ring, clear) < clear for ring in self.edges):
            return False
        if any(part.leads_near(lead, box, clear) for part in near):
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
        return not any(part.leads_near(spot, (*at, *at), least) for part in near)

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
    if inside(loop, tip) != hole:
        return False

    def gap(piece: Segment, enough_mm: float) -> float:
        return min(loop_gap((piece,), cut, enough_mm) for cut in cuts)

    least = OWN_SHARE[shape] * own_gap_mm(length_mm, shape, into=into, slant_deg=slant_deg)
    if gap(far, least) < least:
        return False
    near = between(lead, 0.5, 0.9) if into else between(lead, 0.1, 0.5)
    if gap(near, TOUCH_MM) <= 0:
        return False
    if not hole or not into:
        return True
    pierce = between(lead, 0.0, 1e-6)
    off = length_mm * math.sin(math.radians(slant_deg))
    room = MIDDLE_SHARE[shape] * off
    return gap(pierce, room) >= room
