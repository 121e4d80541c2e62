"""Which place of a cut its leads are laid at: thousands of places of a winding one asked at once.

What is asked of many together only leaves out where a lead cannot be; every place taken is
measured exactly (`leads_at`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from itertools import chain, count, islice, repeat
from typing import TYPE_CHECKING, Any, Generic, TypeVar

import numpy as np

from platewheel.nesting.cutting.lead import Leads, lead_in, lead_out, own_gap_mm
from platewheel.nesting.cutting.lead_place import (
    MIDDLE_SHARE,
    OWN_SHARE,
    Neighbour,
    Room,
    leads_at,
)
from platewheel.nesting.geometry.ring import Ring, Spot, spots
from platewheel.nesting.geometry.trim import between
from platewheel.parts.geometry.outline import Loop, Point, Segment

if TYPE_CHECKING:
    from numpy.typing import NDArray

ORIGIN = Spot(0.0, (0.0, 0.0), (1.0, 0.0))
AT_ONCE = (1, 64, 64, 64, 64, 512)  # spots: the first is mostly taken; a stop is heard between
HAIR_MM = 0.003  # of parts as polygons, and of rounding


Found = tuple[Spot, Segment | None, Segment | None]
Batch = tuple[list[Spot], "NDArray[np.float64]"]  # and x, y, direction of travel: rows of 4
T = TypeVar("T")


class _Kept(Generic[T]):
    """What comes one by one, kept for the next time it is gone through."""

    def __init__(self, source: Iterator[T]) -> None:
        self._source = source
        self._known: list[T] = []

    def __iter__(self) -> Iterator[T]:
        for k in count():
            if k == len(self._known):
                more = next(self._source, None)
                if more is None:
                    return
                self._known.append(more)
            yield self._known[k]


class LeadSearch:
    """The places of one cut, asked for leads of one kind after the other.

    The pierce keeps `pierce_mm` off its own part, else what the room asks; off others as good as
    it goes. `there` are the places that it may begin at, else all along the path.
    """

    def __init__(
        self,
        path: Ring,
        room: Room,
        own: Neighbour,
        loop: Loop,
        *,
        hole: bool,
        pierce_mm: float | None = None,
        there: Iterable[Spot] | None = None,
    ) -> None:
        import shapely

        self._path, self._room, self._own = path, room, own
        self._loop, self._hole = loop, hole
        self._pierce_mm = room.pierce_mm if pierce_mm is None else pierce_mm
        self._near = room.near(own)
        self._batches = _Kept(_batches(spots(path) if there is None else iter(there)))
        others = [part.steel for part in self._near if part is not own]
        self._others = shapely.get_parts(others)
        self._open: dict[Leads, _Kept[Spot]] = {}

    def first(
        self, wanted: Leads, allowed: Callable[[Spot], bool] = lambda _: True
    ) -> Found | None:
        """First place with room for the leads wanted; None where there is none."""
        if wanted not in self._open:
            self._open[wanted] = _Kept(self._with_room(wanted))
        for spot in filter(allowed, self._open[wanted]):
            found = leads_at(
                spot,
                wanted,
                self._room,
                self._own,
                self._loop,
                hole=self._hole,
                path=self._path,
                near=self._near,
            )
            if found is not None:
                return spot, *found
        return None

    def _with_room(self, wanted: Leads) -> Iterator[Spot]:
        """Places where leads may lie: those first whose pierce has good room to other parts."""
        room = self._room
        good, some_room = (
            max(clear + room.kerf_mm - HAIR_MM, 0.0) for clear in (room.good_mm, room.pierce_mm)
        )
        narrow = []
        for some, rows in self._batches:
            clear = self._clear(rows, wanted)
            free = self._free_mm(rows[clear], wanted)
            for k, off in zip(np.flatnonzero(clear).tolist(), free.tolist(), strict=True):
                if off >= good:
                    yield some[k]
                elif off >= some_room:
                    narrow.append(some[k])
        yield from narrow

    def _clear(self, rows: NDArray[np.float64], wanted: Leads) -> NDArray[np.bool_]:
        """Where ends and middles of the leads are as far from their own part, and the ends from
        the plate's edges, as `leads_at` asks at the least."""
        import shapely

        room, steel = self._room, self._own.steel
        clear = np.ones(len(rows), dtype=bool)
        if len(rows) > 1:
            shapely.prepare([steel, room.edge_lines])

        def keep(at: Point, off_mm: float, shape: Any) -> None:
            left = np.flatnonzero(clear)
            near = shapely.dwithin(shape, shapely.points(_off(rows[left], at)), off_mm - HAIR_MM)
            clear[left[near]] = False

        for end, middle, end_off, middle_off in self._least(wanted):
            keep(end, end_off, steel)
            keep(middle, middle_off, steel)
            if not self._hole:
                keep(end, room.clear_mm, room.edge_lines)
        return clear

    def _least(self, wanted: Leads) -> Iterator[tuple[Point, Point, float, float]]:
        """End and middle of each lead, ahead and to the left of its place, and how far each is at
        the least from its own part."""
        shape, slant = wanted.shape, wanted.slant_deg
        if wanted.in_mm:
            least = OWN_SHARE[shape] * own_gap_mm(wanted.in_mm, shape, into=True, slant_deg=slant)
            middle = MIDDLE_SHARE[shape] * wanted.off_mm if self._hole else 0.0
            into = lead_in(ORIGIN, wanted.in_mm, shape, slant)
            yield into.start, _middle(into), max(least, middle, self._pierce_mm), least
        if wanted.out_mm:
            least = OWN_SHARE[shape] * own_gap_mm(wanted.out_mm, shape, into=False)
            off = lead_out(ORIGIN, wanted.out_mm, shape)
            yield off.end, _middle(off), least, least

    def _free_mm(self, rows: NDArray[np.float64], wanted: Leads) -> NDArray[np.float64]:
        """How far the lead-in of each begins from other parts."""
        import shapely

        if not wanted.in_mm or not len(self._others) or not len(rows):
            return np.full(len(rows), math.inf)
        start = lead_in(ORIGIN, wanted.in_mm, wanted.shape, wanted.slant_deg).start
        # each whole: a shape drawn with a doubled corner may come out as several
        free: NDArray[np.float64] = shapely.distance(
            shapely.points(_off(rows, start)), shapely.multipolygons(self._others)
        )
        return free


def _batches(there: Iterator[Spot]) -> Iterator[Batch]:
    for at_once in chain(AT_ONCE, repeat(AT_ONCE[-1])):
        some = list(islice(there, at_once))
        if not some:
            return
        yield some, np.array([(*spot.point, *spot.ahead) for spot in some])


def _off(rows: NDArray[np.float64], at: Point) -> NDArray[np.float64]:
    """Points so far ahead of each place and so far to its left."""
    (ahead, left), way = at, rows[:, 2:]
    found: NDArray[np.float64] = rows[:, :2] + ahead * way + left * way[:, ::-1] * (-1.0, 1.0)
    return found


def _middle(lead: Segment) -> Point:
    return between(lead, 0.5, 1.0).start
