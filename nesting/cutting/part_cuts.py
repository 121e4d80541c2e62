"""All cuts of a plate in the order in which they are made, each with its leads."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from platewheel.nesting.cutting.cut_order import cut_order
from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.cutting.lead_place import (
    Leads,
    Neighbour,
    Room,
    leads_at,
    place_leads,
    room_on,
    spots,
)
from platewheel.nesting.cutting.tabs import (
    PHASES,
    bridge_lines,
    cut_pieces,
    from_tabs,
    opening_mm,
    outline_ring,
    tab_spots,
)
from platewheel.nesting.geometry.ring import Ring, Spot, ring_length, spot_at, stretch
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Segment,
    arc_pieces,
    bounds,
    segments,
)

Layer = Literal["cut-hole", "cut-outline"]
SHORTER = (1.0, 0.75, 0.5, 0.35, 0.25)  # of the lead that a hole has room for at the most
LEAST_LEAD_MM = 0.5


@dataclass(frozen=True)
class Cut:
    """One run of the torch; the scrap lies on its left. An open path leaves tabs at its ends."""

    layer: Layer
    path: Loop
    closed: bool = True
    lead_in: Segment | None = None
    lead_out: Segment | None = None


@dataclass(frozen=True)
class PartCuts:
    """A part's cuts, holes before the outline, and its number in the plate's order of cuts."""

    placement: Placement
    number: int
    cuts: tuple[Cut, ...]


@dataclass(frozen=True)
class SheetCuts:
    """A plate's cuts, part by part, and what could not be had as wanted, in words."""

    parts: tuple[PartCuts, ...]
    warnings: tuple[str, ...]

    @property
    def pierces(self) -> int:
        """Runs of the torch on one plate."""
        return sum(len(part.cuts) for part in self.parts)


@lru_cache(maxsize=128)
def sheet_cuts(layout: Layout, cutting: Cutting) -> SheetCuts:
    """Cuts of a layout. Raises: NestingError where the kerf does not go into a hole or hollow."""
    room = room_on(layout, cutting)
    if cutting.tab_count:
        for part in room.parts:
            part.bridges = _bridges(part, cutting)
    wanted = Leads(cutting.lead_in_mm, cutting.lead_out_mm, cutting.lead_shape)
    parts, told = [], _Told()
    own = {id(part.placement): part for part in room.parts}
    for number, placement in enumerate(cut_order(layout, cutting), 1):
        part = own[id(placement)]
        cuts = [_hole_cut(part, hole, cutting, wanted, room, told) for hole in part.holes]
        cuts += _outline_cuts(part, cutting, wanted, room, told)
        parts.append(PartCuts(placement, number, tuple(cuts)))
    return SheetCuts(tuple(parts), tuple(told.lines(cutting)))


class _Told:
    """What is not as wanted, gathered while the cuts are laid."""

    def __init__(self) -> None:
        self.no_lead: list[str] = []
        self.no_run_off: list[str] = []
        self.short: list[tuple[str, float]] = []
        self.fewer_tabs: dict[str, int] = {}
        self.bare: list[str] = []

    def lines(self, cutting: Cutting) -> Iterator[str]:
        if self.no_lead:
            names = ", ".join(self.no_lead)
            length = cutting.lead_in_mm or cutting.lead_out_mm
            kind = "lead-in" if cutting.lead_in_mm else "lead-out"
            yield f"no room for a {kind} of {length:g} mm: {names}"
        if self.no_run_off:
            yield (
                f"no room for a lead-out of {cutting.lead_out_mm:g} mm beside the lead-in: "
                + ", ".join(self.no_run_off)
            )
        if self.short:
            least = min(length for _, length in self.short)
            names = ", ".join(sorted({name for name, _ in self.short}))
            yield (
                f"{len(self.short)} holes are too small for the lead, it is shorter there "
                f"(down to {least:.1f} mm): {names}"
            )
        for name, count in self.fewer_tabs.items():
            yield f"{name}: room for {count} tabs of the {cutting.tab_count} wanted"
        if self.bare:
            names = ", ".join(self.bare)
            yield f"no room for a lead behind a tab, the torch pierces on the edge: {names}"


def said(placement: Placement) -> str:
    """Name and place."""
    return f"{placement.blank.name} at ({placement.x_mm:g}, {placement.y_mm:g})"


def _bridges(part: Neighbour, cutting: Cutting) -> tuple[Line, ...]:
    """Where a part's tabs lie unless they have to move."""
    ring = outline_ring(part.outline, cutting)
    return bridge_lines(ring, tab_spots(ring, cutting), opening_mm(cutting))


def _hole_cut(
    part: Neighbour, hole: Loop, cutting: Cutting, wanted: Leads, room: Room, told: _Told
) -> Cut:
    path = torch_path(hole, cutting.kerf_mm if cutting.kerf_in_path else 0.0, hole=True)
    ring = segments(path)
    longest = max(wanted.in_mm, wanted.out_mm)
    if not longest:
        return Cut("cut-hole", path)
    x0, y0, x1, y1 = bounds(path)
    most = min(longest, min(x1 - x0, y1 - y0) / 2)
    lengths = dict.fromkeys([longest, *(most * share for share in SHORTER)])
    for length in (one for one in lengths if one >= LEAST_LEAD_MM or one == longest):
        leads = replace(wanted, in_mm=min(wanted.in_mm, length), out_mm=min(wanted.out_mm, length))
        # a circle is the same all round: a few places tell
        found = place_leads(ring, leads, room, part, hole, hole=True)
        if found is not None:
            spot, into, off = found
            _take(part, into, off)
            if length < longest:
                told.short.append((part.placement.blank.name, length))
            return Cut("cut-hole", _begun(ring, spot), True, into, off)
    told.no_lead.append(f"a hole of {said(part.placement)}")
    return Cut("cut-hole", path)


def _outline_cuts(
    part: Neighbour, cutting: Cutting, wanted: Leads, room: Room, told: _Told
) -> list[Cut]:
    loop = part.outline
    ring = outline_ring(loop, cutting)
    tabs = tab_spots(ring, cutting)
    if len(tabs) < cutting.tab_count:
        told.fewer_tabs[part.placement.blank.name] = len(tabs)
    start, into, off = None, None, None
    if wanted.in_mm or wanted.out_mm:
        found = _start(part, loop, ring, tabs, cutting, wanted, room)
        if found is None:
            told.no_lead.append(said(part.placement))
        else:
            tabs, start, into, off = found
            part.bridges = bridge_lines(ring, tabs, opening_mm(cutting))
            _take(part, into, off)
            if wanted.in_mm and wanted.out_mm and off is None:
                told.no_run_off.append(said(part.placement))
    if not tabs:
        path: Loop = _begun(ring, start) if start else _as_circle(ring)
        return [Cut("cut-outline", path, True, into, off)]
    opening = opening_mm(cutting)
    begun = start.along_mm if start else 0.0
    pieces = cut_pieces(ring, begun, tabs, opening, led=start is not None)
    cuts = []
    for i, piece in enumerate(pieces):
        first, last = start is not None and i == 0, start is not None and i == len(pieces) - 1
        ahead = into if first else None
        if not first and wanted.in_mm:
            ahead = _lead_behind_tab(piece, part, loop, wanted, room)
            if ahead is None and said(part.placement) not in told.bare:
                told.bare.append(said(part.placement))
        cuts.append(Cut("cut-outline", piece, False, ahead, off if last else None))
    return cuts


Found = tuple[tuple[float, ...], Spot, Segment | None, Segment | None]


def _start(
    part: Neighbour,
    loop: Loop,
    ring: Ring,
    tabs: tuple[float, ...],
    cutting: Cutting,
    wanted: Leads,
    room: Room,
) -> Found | None:
    """Where the outline begins: with both leads if it can be, or with the lead-in alone; the
    tabs are moved on where they are in the way."""
    both = [wanted]
    if wanted.in_mm and wanted.out_mm:
        both.append(replace(wanted, out_mm=0.0))
    opening = opening_mm(cutting)
    for leads in both:
        for phase in PHASES if tabs else (0.0,):
            moved = tab_spots(ring, cutting, phase) if phase else tabs
            bridges = bridge_lines(ring, moved, opening)
            if len(moved) != len(tabs) or not _whole(bridges, part, room):
                continue
            away = opening + (max(leads.in_mm, leads.out_mm) if tabs else 0.0)
            allowed = _spots_off_tabs(ring, moved, away)
            found = place_leads(ring, leads, room, part, loop, hole=False, allowed=allowed)
            if found is not None:
                return moved, *found
    return None


def _spots_off_tabs(ring: Ring, tabs: tuple[float, ...], away: float) -> Iterator[Spot]:
    total = ring_length(ring)
    return (s for s in spots(ring) if from_tabs(s.along_mm, tabs, total) >= away)


def _lead_behind_tab(
    piece: Ring, part: Neighbour, loop: Loop, wanted: Leads, room: Room
) -> Segment | None:
    """A line square to the cut, whatever the shape of the others: an arc would cut the bridge."""
    spot = spot_at(piece, 0.0)
    for share in (1.0, 0.75, 0.5):
        leads = Leads(share * wanted.in_mm, 0.0, "line")
        found = leads_at(spot, leads, room, part, loop, hole=False)
        if found is not None:
            _take(part, *found)
            return found[0]
    return None


def _take(part: Neighbour, *leads: Segment | None) -> None:
    """Later leads stay clear of these."""
    part.leads += [lead for lead in leads if lead is not None]


def _whole(bridges: tuple[Line, ...], part: Neighbour, room: Room) -> bool:
    """Whether the leads laid to other parts leave a part's bridges whole."""
    leads = [lead for other in room.near(part) if other is not part for lead in other.leads]
    return room.bridges_free(bridges, leads)


def _begun(ring: Ring, spot: Spot) -> Ring:
    """The closed path begun at a spot; a circle as two half turns."""
    circle, first = _as_circle(ring), ring[0]
    if isinstance(circle, Circle) and isinstance(first, Arc):
        (x, y), (px, py) = circle.centre, spot.point
        turn = math.copysign(360.0, first.sweep_deg)
        angle = math.degrees(math.atan2(py - y, px - x))
        return arc_pieces(Arc(circle.centre, circle.radius_mm, angle, turn))
    return stretch(ring, spot.along_mm, spot.along_mm + ring_length(ring))


def _as_circle(ring: Ring) -> Loop:
    """A circle that was taken apart, whole again; other paths as they are."""
    first = ring[0]
    if not isinstance(first, Arc):
        return ring
    turn = 0.0
    for arc in ring:
        if not isinstance(arc, Arc) or arc.centre != first.centre:
            return ring
        if arc.radius_mm != first.radius_mm:
            return ring
        turn += arc.sweep_deg
    return Circle(first.centre, first.radius_mm) if abs(turn) > 359.999 else ring
