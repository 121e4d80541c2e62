"""All cuts of a plate in the order in which they are made, each with its leads."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import Literal

from platewheel.nesting.cutting.begun import as_circle, begun_at, other_sides
from platewheel.nesting.cutting.clear_order import off_cut_parts
from platewheel.nesting.cutting.cut_order import cut_order, start_of
from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.cutting.lead import SHORTER, Leads, as_wanted, lead_variants, size_mm
from platewheel.nesting.cutting.lead_place import Neighbour, Room, room_on
from platewheel.nesting.cutting.lead_search import LeadSearch
from platewheel.nesting.cutting.not_as_wanted import NotAsWanted
from platewheel.nesting.cutting.tabs import (
    PHASES,
    bridge_lines,
    cut_pieces,
    from_tabs,
    opening_mm,
    outline_ring,
    tab_spots,
)
from platewheel.nesting.geometry.ring import Ring, Spot, ring_length, spot_at
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.shared_lines import cut_before
from platewheel.parts.geometry.outline import (
    Line,
    Loop,
    Point,
    Segment,
    bounds,
    segments,
)

Layer = Literal["cut-hole", "cut-outline", "offcut"]
LEAST_LEAD_MM = 0.5
MIDDLE = 0.95  # of half a hole's width


@dataclass(frozen=True)
class Cut:
    """One run of the torch; the scrap lies on its left. An open path leaves tabs at its ends, or
    `shares` the line between them, which is cut by then."""

    layer: Layer
    path: Loop
    closed: bool = True
    lead_in: Segment | None = None
    lead_out: Segment | None = None
    shares: bool = False

    @property
    def begin(self) -> Point:
        """Where the torch pierces."""
        return self.lead_in.start if self.lead_in else start_of(self.path)

    @property
    def end(self) -> Point:
        """Where it goes out."""
        return self.lead_out.end if self.lead_out else segments(self.path)[-1].end


@dataclass(frozen=True)
class PartCuts:
    """A part's cuts, holes before the outline, and its number in the plate's order of cuts."""

    placement: Placement
    number: int
    cuts: tuple[Cut, ...]

    @property
    def loose(self) -> Loop | None:
        """The outline, where no tab holds the part once it is cut."""
        held = any(not cut.closed and not cut.shares for cut in self.cuts)
        return None if held else self.placement.outline


@dataclass(frozen=True)
class SheetCuts:
    """A plate's cuts, part by part, and what could not be had as wanted, in words."""

    parts: tuple[PartCuts, ...]
    warnings: tuple[str, ...]
    travels_over: int  # parts already cut that no tab holds

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
    laid, told = [], NotAsWanted()
    own = {id(part.placement): part for part in room.parts}
    first = cut_before(layout)
    for placement in cut_order(layout, cutting):
        part = own[id(placement)]
        cuts = [_hole_cut(part, hole, cutting, wanted, room, told) for hole in part.holes]
        if id(placement) in first:
            rings = [outline_ring(one.outline, cutting) for one in (part, first[id(placement)])]
            cuts.append(Cut("cut-outline", other_sides(*rings), closed=False, shares=True))
        else:
            cuts += _outline_cuts(part, cutting, wanted, room, told)
        laid.append(PartCuts(placement, 0, tuple(cuts)))
    parts = []
    ordered, over = off_cut_parts(laid, layout, cutting)
    for number, done in enumerate(ordered, 1):
        own[id(done.placement)].number = number
        parts.append(replace(done, number=number))
    return SheetCuts(tuple(parts), tuple(told.lines(cutting)), over)


def _bridges(part: Neighbour, cutting: Cutting) -> tuple[Line, ...]:
    """Where a part's tabs lie unless they have to move."""
    ring = outline_ring(part.outline, cutting)
    return bridge_lines(ring, tab_spots(ring, cutting), opening_mm(cutting))


def _hole_cut(
    part: Neighbour, hole: Loop, cutting: Cutting, wanted: Leads, room: Room, told: NotAsWanted
) -> Cut:
    path = torch_path(hole, cutting.kerf_mm if cutting.kerf_in_path else 0.0, hole=True)
    ring = segments(path)
    longest = max(wanted.in_mm, wanted.out_mm)
    if not longest:
        return Cut("cut-hole", path)
    x0, y0, x1, y1 = bounds(path)
    half = min(x1 - x0, y1 - y0) / 2
    most = min(longest, half)
    pierce = min(room.pierce_mm, MIDDLE * half)  # in the middle of a hole that is too small
    search = LeadSearch(ring, room, part, hole, hole=True, pierce_mm=pierce)
    for leads in _hole_leads(wanted, longest, most):
        # a circle is the same all round: a few places tell
        found = search.first(leads)
        if found is not None:
            spot, into, off = found
            part.take(into, off)
            length = max(leads.in_mm, leads.out_mm)
            name = part.placement.blank.name
            if length < longest:
                told.short.append((name, length))
            if into is not None and pierce < room.pierce_mm:
                told.pierced(name, hole, into, room.pierce_mm)
            return Cut("cut-hole", begun_at(ring, spot), True, into, off)
    told.no_lead.append(("a hole of ", part))
    return Cut("cut-hole", path)


def _hole_leads(wanted: Leads, longest: float, most: float) -> Iterator[Leads]:
    """The longest first; at last lines in place of arcs, which begin nearer to a small hole's
    edge."""
    for shape in dict.fromkeys((wanted.shape, "line")):
        for length in dict.fromkeys([longest, *(most * share for share in SHORTER)]):
            if length >= LEAST_LEAD_MM or length == longest:
                into, off = min(wanted.in_mm, length), min(wanted.out_mm, length)
                yield Leads(into, off, shape)


def _outline_cuts(
    part: Neighbour, cutting: Cutting, wanted: Leads, room: Room, told: NotAsWanted
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
            told.no_lead.append(("", part))
        else:
            tabs, start, into, off = found
            part.bridges = bridge_lines(ring, tabs, opening_mm(cutting))
            part.take(into, off)
            if wanted.in_mm and wanted.out_mm and off is None:
                told.no_run_off.append(part)
            if into is not None and not as_wanted(into, wanted):
                told.hemmed.append((part, size_mm(into)))
    if not tabs:
        path: Loop = begun_at(ring, start) if start else as_circle(ring)
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
            if ahead is None and part not in told.bare:
                told.bare.append(part)
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
    """Where the outline begins: with both leads if it can be, or with the lead-in alone, at last
    with a shorter or slanted one; the tabs are moved on where they are in the way."""
    beside = cutting.kerf_mm / 2 if cutting.kerf_in_path else 0.0  # from the part to the path
    least = room.pierce_mm - beside
    opening, total = opening_mm(cutting), ring_length(ring)
    search = LeadSearch(ring, room, part, loop, hole=False)
    for leads in lead_variants(wanted, least):
        for phase in PHASES if tabs else (0.0,):
            moved = tab_spots(ring, cutting, phase) if phase else tabs
            bridges = bridge_lines(ring, moved, opening)
            if len(moved) != len(tabs) or not _whole(bridges, part, room):
                continue
            away = opening + (max(leads.in_mm, leads.out_mm) if tabs else 0.0)
            found = search.first(leads, partial(_off_tabs, moved, away, total))
            if found is not None:
                return moved, *found
    return None


def _off_tabs(tabs: tuple[float, ...], away: float, total: float, spot: Spot) -> bool:
    return from_tabs(spot.along_mm, tabs, total) >= away


def _lead_behind_tab(
    piece: Ring, part: Neighbour, loop: Loop, wanted: Leads, room: Room
) -> Segment | None:
    """A line square to the cut, whatever the shape of the others: an arc would cut the bridge."""
    spot = spot_at(piece, 0.0)
    least = room.pierce_mm
    upright = Leads(wanted.in_mm, 0.0, "line")
    search = LeadSearch(piece, room, part, loop, hole=False, there=[spot])
    for leads in lead_variants(upright, least):
        found = search.first(leads)
        if found is not None:
            part.take(found[1])
            return found[1]
    return None


def _whole(bridges: tuple[Line, ...], part: Neighbour, room: Room) -> bool:
    """Whether the leads laid to other parts leave a part's bridges whole."""
    leads = [lead for other in room.near(part) if other is not part for lead in other.leads]
    return room.bridges_free(bridges, leads)
