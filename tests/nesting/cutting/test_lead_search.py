"""Thousands of places of a winding cut: those left out at once are those where no lead can be."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from platewheel.nesting.cutting import lead_search
from platewheel.nesting.cutting.lead import Leads, Shape
from platewheel.nesting.cutting.lead_place import Neighbour, Room, leads_at, room_on
from platewheel.nesting.cutting.lead_search import LeadSearch
from platewheel.nesting.geometry.ring import Ring, Spot, spots
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Line, Loop, Point, polygon, reversed_loop, segments
from tests.nesting.plates import cutting, plate

Way = Callable[[float], Point]


def band(corners: int, inner: Way, outer: Way) -> Loop:
    """Outline between two ways, each run from 0 to 1; counter-clockwise where the outer one is to
    the right."""
    shares = [k / (corners - 1) for k in range(corners)]
    return polygon([*map(outer, shares), *map(inner, reversed(shares))])


def wound(wide: float) -> Loop:
    """A slot of three rounds in the middle of a plate of 400 mm."""

    def way(more: float) -> Way:
        def at(share: float) -> Point:
            turn = 6 * math.pi * share
            r = 40 + 20 * turn / (2 * math.pi) + more
            return 200 + r * math.cos(turn), 200 + r * math.sin(turn)

        return at

    return band(120, way(0.0), way(wide))


def zigzag(wide: float) -> Loop:
    def way(more: float) -> Way:
        return lambda share: (50 + 300 * share, 150 + more + 60 * (round(share * 39) % 2))

    return reversed_loop(band(40, way(0.0), way(5 * wide)))


def comb(wide: float) -> Loop:
    """Teeth 6 mm wide and gaps as wide as told."""
    points = [(20.0, 20.0)]
    for k in range(12):
        x = 30.0 + k * (6 + wide)
        points += [(x, 20.0), (x, 120.0), (x + wide, 120.0), (x + wide, 20.0)]
    return polygon([*points, (points[-1][0] + 10, 20.0), (points[-1][0] + 10, 10.0), (20.0, 10.0)])


def plain_first(
    path: Ring, wanted: Leads, room: Room, own: Neighbour, loop: Loop, hole: bool
) -> tuple[Any, ...] | None:
    """One place after the other: those with good room to other parts first."""
    import shapely

    steel = [part.steel for part in room.parts if part is not own]
    others = shapely.union_all(steel) if steel else None
    narrow: list[tuple[Any, ...]] = []
    for spot in spots(path):
        got = leads_at(spot, wanted, room, own, loop, hole=hole, path=path)
        if got is None:
            continue
        far = others.distance(shapely.Point(got[0].start)) if others and got[0] else math.inf
        if far >= room.good_mm + room.kerf_mm - lead_search.HAIR_MM:
            return spot, *got
        narrow.append((spot, *got))
    return narrow[0] if narrow else None


SLOTS = {"spiral": wound, "zigzag": zigzag, "comb": comb}
WANTED = [(4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 3.0)]


@pytest.mark.parametrize("shape", ["line", "arc"])
@pytest.mark.parametrize("wide", [3.0, 5.0, 9.0])
@pytest.mark.parametrize("slot", SLOTS)
def test_the_place_taken_in_a_winding_hole_is_the_first_that_has_room(
    slot: str, wide: float, shape: Shape
) -> None:
    hole = SLOTS[slot](wide)
    whole = polygon([(0.0, 0.0), (400.0, 0.0), (400.0, 400.0), (0.0, 400.0)])
    blank = Blank("p", "extra", 6.0, whole, (hole,))
    room = room_on(Layout(plate(500.0, 500.0), (Placement(blank, 20.0, 20.0, 0.0),)), cutting())
    (own,) = room.parts
    path = segments(own.holes[0])
    search = LeadSearch(path, room, own, own.holes[0], hole=True, pierce_mm=0.0)
    for into, off in WANTED:
        wanted = Leads(into, off, shape)
        assert search.first(wanted) == plain_first(path, wanted, room, own, own.holes[0], True)


@pytest.mark.parametrize("slant", [90.0, 45.0])
@pytest.mark.parametrize("slot", SLOTS)
def test_the_place_taken_on_a_winding_outline_is_the_first_that_has_room(
    slot: str, slant: float
) -> None:
    """Hemmed by the plate's edge and by another part close above."""
    outline = SLOTS[slot](6.0)
    blank = Blank("p", "extra", 6.0, outline)
    top = max(segment.start[1] for segment in segments(outline))
    above = Blank("q", "extra", 6.0, polygon([(0.0, 0.0), (380.0, 0.0), (380.0, 30.0)]))
    both = (Placement(blank, 0.0, 0.0, 0.0), Placement(above, 0.0, top + 7.0, 0.0))
    room = room_on(Layout(plate(400.0, 500.0), both), cutting())
    own = room.parts[0]
    path = segments(reversed_loop(own.outline))
    search = LeadSearch(path, room, own, own.outline, hole=False, pierce_mm=0.0)
    for into, off in WANTED:
        wanted = Leads(into, off, "line", slant)
        assert search.first(wanted) == plain_first(path, wanted, room, own, own.outline, False)


def test_few_places_of_a_narrow_slot_are_measured(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a slot of 5 mm a lead of 4 mm ends 1 mm before the other side everywhere."""
    asked: list[Spot] = []

    def counted(spot: Spot, *rest: Any, **more: Any) -> Any:
        asked.append(spot)
        return leads_at(spot, *rest, **more)

    monkeypatch.setattr(lead_search, "leads_at", counted)
    whole = polygon([(0.0, 0.0), (400.0, 0.0), (400.0, 400.0), (0.0, 400.0)])
    blank = Blank("p", "extra", 6.0, whole, (wound(5.0),))
    room = room_on(Layout(plate(500.0, 500.0), (Placement(blank, 20.0, 20.0, 0.0),)), cutting())
    (own,) = room.parts
    path = segments(own.holes[0])
    assert len(list(spots(path))) > 500
    search = LeadSearch(path, room, own, own.holes[0], hole=True, pierce_mm=0.0)
    assert search.first(Leads(4.0, 0.0, "line")) is None
    assert search.first(Leads(2.0, 0.0, "line")) is not None
    assert len(asked) < 20


def test_places_are_gone_through_once_for_all_leads() -> None:
    """What is allowed is asked of places already known: tabs that move on start no search anew."""
    drawn: list[int] = []
    path = segments(polygon([(0.0, 0.0), (0.0, 90.0), (90.0, 90.0), (90.0, 0.0)]))

    def there() -> Any:
        for k, spot in enumerate(spots(path)):
            drawn.append(k)
            yield spot

    blank = Blank("p", "extra", 6.0, polygon([(0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (0.0, 90.0)]))
    room = room_on(Layout(plate(300.0, 300.0), (Placement(blank, 100.0, 100.0, 0.0),)), cutting())
    (own,) = room.parts
    path = segments(reversed_loop(own.outline))
    search = LeadSearch(path, room, own, own.outline, hole=False, there=there())
    for wanted in (Leads(5.0, 0.0, "line"), Leads(4.0, 0.0, "line")):
        assert search.first(wanted, lambda _: False) is None
        found = search.first(wanted, lambda spot: spot.along_mm > 200)
        assert found is not None
        assert found[0].along_mm > 200
        assert isinstance(found[1], Line)
    assert drawn == list(range(len(list(spots(path)))))
