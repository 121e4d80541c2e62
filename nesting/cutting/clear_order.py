"""The order of cutting once more: travel keeps off parts already cut, for one that has tipped up
catches the torch.

The order of least travel is changed as long as less of its travel runs over parts already cut. The
work is bounded, and the same plate gives the same order.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from platewheel.nesting.cutting.cut_order import HOME, places_of, rows_between
from platewheel.nesting.cutting.short_path import Places, keeps_rules
from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.shared_lines import hull_of
from platewheel.parts.geometry.outline import Loop, Point

if TYPE_CHECKING:
    from platewheel.nesting.cutting.part_cuts import PartCuts

OVER_MM = 1000.0  # of way that a travel not run over a part is worth; our own figure
LONGEST_PIECE = 3  # parts that are moved together
NEAREST = 24  # parts that each may go on to
TRIED_A_PART = 100  # orders that are looked at
EDGE_MM = 0.5  # travel along a part's very edge is not over it


@dataclass(frozen=True)
class Stop:
    """A part as the torch meets it: where its first cut begins and its last one ends, and its
    outline if nothing holds it once that is cut."""

    begin: Point
    end: Point
    loose: Loop | None


class Below:
    """What lies below straight travel: the loose parts of a plate, each by its place in a list."""

    def __init__(self, loose: Sequence[Loop | None]) -> None:
        import shapely

        self._steel = shapely.empty(len(loose))
        self._steel[:] = [_inside(loop) for loop in loose]
        shapely.prepare(self._steel)
        self._tree = shapely.STRtree(self._steel)

    def parts(self, here: Point, there: Point) -> int:
        """The parts that a travel runs over, as bits of a number."""
        import shapely

        way = shapely.LineString((here, there))
        near = self._tree.query(way)
        return sum(1 << int(k) for k in near[shapely.intersects(self._steel[near], way)])


@lru_cache(maxsize=1024)  # a plate is asked about for each of its orders
def _inside(loop: Loop | None) -> Any:
    import shapely

    if loop is None:
        return shapely.Polygon()
    return shapely.Polygon(outer_polygon(loop)).buffer(-EDGE_MM).simplify(EDGE_MM / 2)


def clear_order(
    stops: Sequence[Stop], order: Sequence[int], places: Places, home: Point
) -> list[int]:
    """An order of the stops with no more travel over parts already cut than the one given; it
    keeps the rules of `places` where that does."""
    plate = _Plate(stops, home)
    best = _Order(plate, list(order))
    at, idle, tried = 0, 0, 0
    most = TRIED_A_PART * len(order)
    while best.over[-1] and idle < len(order) - 1 and tried < most:
        idle += 1
        for first, piece in best.changes(at):
            tried += 1
            change = best.change(first, piece)
            if change and OVER_MM * change[0] + change[1] < -1e-6:
                other = best.with_piece(first, piece)
                if keeps_rules(places, other):
                    best, idle = _Order(plate, other), 0
                    break
            if tried >= most:
                break
        if idle:
            at = (at + 1) % (len(order) - 1)
    return best.order


class _Plate:
    """Ways between the stops, and what lies below them, worked out once each."""

    def __init__(self, stops: Sequence[Stop], home: Point) -> None:
        self.stops = stops
        self.below = Below([stop.loose for stop in stops])
        self.ways = [[math.dist(a.end, b.begin) for b in stops] for a in stops]
        self.first = [math.dist(home, b.begin) for b in stops]
        self.nearest = [
            sorted(range(len(stops)), key=lambda j, row=row: (row[j], j))[:NEAREST]  # type: ignore[misc]
            for row in self.ways
        ]
        self.known: list[dict[int, int]] = [{} for _ in stops]  # from each, to others

    def over(self, a: int, b: int) -> int:
        """The parts below the travel from a to b, a itself where it runs back over it."""
        found = self.known[a].get(b)
        if found is None:
            found = self.below.parts(self.stops[a].end, self.stops[b].begin)
            self.known[a][b] = found
        return found


class _Order:
    """An order with its travels over parts already cut, and its way, up to each position."""

    def __init__(self, plate: _Plate, order: list[int]) -> None:
        self.plate, self.order = plate, order
        self.cut = [0]  # before each position, as bits
        for part in order:
            self.cut.append(self.cut[-1] | 1 << part)
        self.over, self.way = [0], [0.0]
        for i, part in enumerate(order):
            over, way = self._step(order[i - 1] if i else None, part, self.cut[i])
            self.over.append(self.over[-1] + over)
            self.way.append(self.way[-1] + way)

    def _step(self, a: int | None, b: int, cut: int) -> tuple[int, float]:
        if a is None:
            return 0, self.plate.first[b]
        return int(self.plate.over(a, b) & cut != 0), self.plate.ways[a][b]

    def with_piece(self, first: int, piece: list[int]) -> list[int]:
        """The order with other parts from a position on: the same ones, in another order."""
        return [*self.order[:first], *piece, *self.order[first + len(piece) :]]

    def change(self, first: int, piece: list[int]) -> tuple[int, float] | None:
        """Of travels over cut parts and of way, with that piece; all after it stays as it is.
        None as soon as more of them run over cut parts."""
        after = first + len(piece)
        follow = self.order[after : after + 1]
        last = after + len(follow)
        most = self.over[last] - self.over[first]
        plate, cut, over, way = self.plate, self.cut[first], 0, 0.0
        here = self.order[first - 1] if first else None
        known, ways = plate.known, plate.ways
        for part in (*piece, *follow):  # by far the most steps: not through `_step`
            if here is None:
                way += plate.first[part]
            else:
                below = known[here].get(part)
                if below is None:
                    below = plate.over(here, part)
                if below & cut:
                    over += 1
                    if over > most:
                        return None
                way += ways[here][part]
            here, cut = part, cut | 1 << part
        return over - most, way - self.way[last] + self.way[first]

    def changes(self, at: int) -> Iterator[tuple[int, list[int]]]:
        """Pieces without the travel that leaves position `at`, where that is over a part."""
        order, plate, cut = self.order, self.plate, self.cut[at + 1]
        a, b = order[at], order[at + 1]
        if not plate.over(a, b) & cut:
            return
        place = {part: i for i, part in enumerate(order)}
        for near in plate.nearest[a]:
            to = place[near]
            if to > at + 1 and not plate.over(a, near) & cut:
                yield from _brought(order, at + 1, to)
            elif to < at:
                yield from _taken_back(order, at, to)
        for near in (a, *plate.nearest[b]):
            if place[near] <= at:
                yield from _taken_back(order, at + 1, place[near])


def _brought(order: list[int], at: int, to: int) -> Iterator[tuple[int, list[int]]]:
    """The part at `to`, later, comes to `at`: alone or with what follows it, or all between is
    turned round."""
    between, rest = order[at:to], order[to:]
    for piece in sorted({*range(1, 1 + min(LONGEST_PIECE, len(rest))), len(rest)}):
        yield at, rest[:piece] + between
    yield at, [rest[0], *between[::-1]]


def _taken_back(order: list[int], at: int, to: int) -> Iterator[tuple[int, list[int]]]:
    """The part at `at`, alone or with what it follows, goes before the earlier one at `to`; or
    that one, alone or with what follows it, comes after it."""
    between = order[to : at + 1]
    for piece in range(1, min(LONGEST_PIECE, len(between) - 1) + 1):
        yield to, between[-piece:] + between[:-piece]
    for piece in range(1, min(LONGEST_PIECE, len(between) - 1) + 1):
        yield to, between[piece:] + between[:piece]


def travels_over(parts: Iterable[tuple[Sequence[tuple[Point, Point]], Loop | None]]) -> int:
    """How many travels between runs of the torch, begin and end of each, part by part in the
    order of cutting, run over a loose part cut before."""
    all_parts = list(parts)
    below = Below([loose for _, loose in all_parts])
    here: Point | None = None
    cut, count = 0, 0
    for k, (runs, _) in enumerate(all_parts):
        for begin, end in runs:
            if here is not None and below.parts(here, begin) & cut:
                count += 1
            here = end
        cut |= 1 << k
    return count


def off_cut_parts(
    laid: list[PartCuts], layout: Layout, cutting: Cutting
) -> tuple[list[PartCuts], int]:
    """The parts, their leads laid, in the order in which travel keeps off those cut before; and
    how many travels run over one all the same."""
    if not laid:
        return [], 0
    where = {id(placement): i for i, placement in enumerate(layout.placements)}
    parts = {where[id(part.placement)]: part for part in laid}
    on_plate = (layout.placements, cutting.heat_apart_mm, layout.shared)
    rows = rows_between(*on_plate)
    stops = [_stop([parts[i] for i in row]) for row in rows]
    firsts = {row[0]: k for k, row in enumerate(rows)}
    wanted = [firsts[i] for i in parts if i in firsts]
    order = [
        parts[i] for k in clear_order(stops, wanted, places_of(*on_plate), HOME) for i in rows[k]
    ]
    both = [order] if order == laid else [order, laid]
    over = [_over(parts) for parts in both]  # travel within a hollow part counts here alone
    least = min(over)
    return both[over.index(least)], least


def _over(parts: list[PartCuts]) -> int:
    return travels_over(([(c.begin, c.end) for c in part.cuts], part.loose) for part in parts)


def _stop(row: list[PartCuts]) -> Stop:
    loose = row[0].loose if len(row) == 1 else hull_of([part.placement for part in row])
    return Stop(row[0].cuts[0].begin, row[-1].cuts[-1].end, loose)
