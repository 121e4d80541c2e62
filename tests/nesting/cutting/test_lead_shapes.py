"""A single lead: its shape at a spot, and whether it keeps off its own part, at each limit."""

from __future__ import annotations

import math

import pytest
import shapely

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.cutting.lead import Leads, Shape, far_half, lead_in, lead_out, own_gap_mm
from platewheel.nesting.cutting.lead_place import leads_at, room_on
from platewheel.nesting.cutting.lead_search import LeadSearch
from platewheel.nesting.geometry.ring import Spot, spot_on, spots
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    polygon,
    reversed_loop,
    segments,
)
from tests.nesting.leads import drawn
from tests.nesting.plates import cutting, plate

HEADINGS = [(1.0, 0.0), (0.0, 1.0), (-0.6, 0.8), (0.8, -0.6), (-1.0, 0.0)]


def at(heading: Point) -> Spot:
    return Spot(0.0, (3.0, 4.0), heading)


def seen(heading: Point, ahead: float, left: float) -> Point:
    """The place so far ahead and to the left of (3, 4), by the turned axes."""
    (c, s), (x, y) = heading, (3.0, 4.0)
    return pytest.approx((x + ahead * c - left * s, y + ahead * s + left * c))  # type: ignore[return-value]


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_line_comes_in_square_and_goes_off_at_45_degrees(heading: Point) -> None:
    into, off = lead_in(at(heading), 5.0, "line"), lead_out(at(heading), 5.0, "line")
    assert isinstance(into, Line)
    assert isinstance(off, Line)
    assert (into.start, into.end) == (seen(heading, 0, 5), seen(heading, 0, 0))
    leg = 5 / math.sqrt(2)
    assert (off.start, off.end) == (seen(heading, 0, 0), seen(heading, leg, leg))


@pytest.mark.parametrize("heading", HEADINGS)
def test_an_arc_is_a_quarter_circle_that_runs_smoothly_on(heading: Point) -> None:
    """Centre to the left of the spot by the radius; comes from behind, goes off ahead."""
    into, off = lead_in(at(heading), 5.0, "arc"), lead_out(at(heading), 5.0, "arc")
    assert isinstance(into, Arc)
    assert isinstance(off, Arc)
    for arc in (into, off):
        assert arc.centre == seen(heading, 0, 5)
        assert (arc.radius_mm, arc.sweep_deg) == (5.0, 90.0)
    assert (into.start, into.end) == (seen(heading, -5, 5), seen(heading, 0, 0))
    assert (off.start, off.end) == (seen(heading, 0, 0), seen(heading, 5, 5))


@pytest.mark.parametrize("shape", ["line", "arc"])
@pytest.mark.parametrize("into", [True, False])
@pytest.mark.parametrize("length", [0.7, 5.0, 12.0])
def test_the_far_half_stays_as_far_off_a_straight_cut_as_told(
    shape: Shape, into: bool, length: float
) -> None:
    """By a polygon library: the half beyond the middle, against a long straight cut."""
    lead = (lead_in if into else lead_out)(at((1.0, 0.0)), length, shape)
    far = far_half(lead, into=into)
    assert far.length_mm == pytest.approx(lead.length_mm / 2)
    assert (far.start if into else far.end) == pytest.approx(lead.start if into else lead.end)
    cut = shapely.LineString([(-100, 4), (100, 4)])
    gap = drawn(far).distance(cut)
    assert own_gap_mm(length, shape, into=into) == pytest.approx(gap, abs=1e-6)


def slotted(width: float) -> Loop:
    """A plate of 200 x 100 with a slot of this width and 60 mm deep from above, at x = 60."""
    right = 60.0 + width
    return polygon(
        [
            (0.0, 0.0),
            (200.0, 0.0),
            (200.0, 100.0),
            (right, 100.0),
            (right, 40.0),
            (60.0, 40.0),
            (60.0, 100.0),
            (0.0, 100.0),
        ]
    )


def found(loop: Loop, spot: Spot, wanted: Leads, *, hole: bool) -> bool:
    """Whether the leads have room at a spot of a part that lies alone on a large plate."""
    whole = polygon([(-50.0, -50.0), (250.0, -50.0), (250.0, 150.0), (-50.0, 150.0)])
    blank = Blank("p", "extra", 6.0, *((whole, (loop,)) if hole else (loop, ())))
    room = room_on(
        Layout(plate(500.0, 400.0), (Placement(blank, 100.0, 100.0, 0.0),)), cutting(kerf_mm=0.5)
    )
    (own,) = room.parts
    placed = own.holes[0] if hole else own.outline
    there = Spot(0.0, (spot.point[0] + 100, spot.point[1] + 100), spot.ahead)
    path = segments(placed)
    return leads_at(there, wanted, room, own, placed, hole=hole, path=path) is not None


HALF = 1 - math.sqrt(0.5)  # of an arc's radius, how far its far half stays off


@pytest.mark.parametrize(
    ("wanted", "least"),
    [
        # reach across the slot, and what must be left: a share of what the far half keeps
        (Leads(10.0, 0.0, "line"), 10 + 0.8 * 5),
        (Leads(0.0, 10.0, "line"), 10 * math.sqrt(0.5) + 0.8 * 5 * math.sqrt(0.5)),
        (Leads(10.0, 0.0, "arc"), 10 + 0.5 * 10 * HALF),
        (Leads(0.0, 10.0, "arc"), 10 + 0.5 * 10 * HALF),
    ],
)
def test_a_lead_in_a_slot_of_its_own_part_at_the_limit(wanted: Leads, least: float) -> None:
    """From the slot's left side, run downwards, so that the scrap is on the left: across it."""
    for width, fits in ((least + 1e-6, True), (least - 1e-6, False)):
        part = slotted(width)
        spot = Spot(0.0, (60.0, 70.0), (0.0, -1.0))
        assert found(part, spot, wanted, hole=False) == fits


@pytest.mark.parametrize(
    ("wanted", "least"),
    [
        (Leads(10.0, 0.0, "line"), 10 + 0.999 * 10),
        (Leads(10.0, 0.0, "arc"), 10 + 0.5 * 10),
        (Leads(0.0, 10.0, "line"), 10 * math.sqrt(0.5) + 0.8 * 5 * math.sqrt(0.5)),
        (Leads(0.0, 10.0, "arc"), 10 + 0.5 * 10 * HALF),
    ],
)
def test_a_lead_in_a_hole_begins_no_further_than_its_middle(wanted: Leads, least: float) -> None:
    """A hole 100 mm long and as wide as told, from the middle of its lower side; off it the torch
    may go nearer to the other side."""
    for width, fits in ((least + 1e-3, True), (least - 1e-3, False)):
        hole = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, width), (0.0, width)])
        spot = Spot(0.0, (50.0, 0.0), (1.0, 0.0))
        assert found(hole, spot, wanted, hole=True) == fits


@pytest.mark.parametrize("into", [True, False])
@pytest.mark.parametrize("kerf", [0.4, 1.5, 3.0])
def test_an_arc_parts_soon_from_its_torch_path_in_a_round_hole(into: bool, kerf: float) -> None:
    """By a polygon library: its far half stays half as far off the path as off a straight one,
    whichever side of the kerf is drawn; an arc nearly as round as the path would run along it."""
    whole, taken = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (0.0, 80.0)]), []
    for tenths in range(30, 160):
        hole = Circle((50.0, 40.0), tenths / 10)
        blank = Blank("p", "extra", 6.0, whole, (hole,))
        in_path = cutting(kerf_mm=kerf, kerf_in_path=True)
        room = room_on(Layout(plate(500.0, 400.0), (Placement(blank, 100.0, 100.0, 0.0),)), in_path)
        (own,) = room.parts
        path = segments(torch_path(own.holes[0], kerf, hole=True))
        wanted = Leads(5.0 * into, 5.0 * (not into), "arc")
        search = LeadSearch(path, room, own, own.holes[0], hole=True, pierce_mm=0.0)
        got = search.first(wanted)
        if got is None:
            continue
        (lead,) = [one for one in got[1:] if one is not None]
        way = shapely.Point(150.0, 140.0).buffer(tenths / 10 - kerf / 2, 1024).exterior
        gap = drawn(far_half(lead, into=into)).distance(way)
        assert gap >= 0.5 * 5.0 * (1 - math.sqrt(0.5)) - 1e-3
        taken.append(tenths)
    assert taken == list(range(taken[0], 160))


@pytest.mark.parametrize("shape", ["line", "arc"])
@pytest.mark.parametrize("hole", [False, True])
def test_a_lead_on_the_side_of_the_steel_is_refused(shape: Shape, hole: bool) -> None:
    """The same ring run the other way round has the part on its left."""
    square = polygon([(0.0, 0.0), (80.0, 0.0), (80.0, 80.0), (0.0, 80.0)])
    for loop, right in ((square, hole), (reversed_loop(square), not hole)):
        spot = spot_on(segments(loop), 0, 0.5)
        for wanted in (Leads(10.0, 0.0, shape), Leads(0.0, 10.0, shape)):
            assert found(square, spot, wanted, hole=hole) == right


@pytest.mark.parametrize(
    ("wanted", "spike_x"), [(Leads(10.0, 0.0, "arc"), 96.0), (Leads(0.0, 10.0, "arc"), 104.0)]
)
def test_an_arc_low_over_its_part_crosses_no_spike_of_it(wanted: Leads, spike_x: float) -> None:
    """An upright of 0.7 mm, 0.2 wide, 4 mm before or behind the spot: the arc of 10 mm is 0.83
    high there, and clears it; one of 1.2 mm is cut off although the far half is clear of it."""
    assert 10 - math.sqrt(100 - 16) == pytest.approx(0.835, abs=1e-3)
    for height, fits in ((0.7, True), (1.2, False)):
        part = polygon(
            [
                (0.0, 0.0),
                (200.0, 0.0),
                (200.0, 50.0),
                (spike_x + 0.1, 50.0),
                (spike_x + 0.1, 50.0 + height),
                (spike_x - 0.1, 50.0 + height),
                (spike_x - 0.1, 50.0),
                (0.0, 50.0),
            ]
        )
        assert found(part, Spot(0.0, (100.0, 50.0), (1.0, 0.0)), wanted, hole=False) == fits


def places(width: float, height: float) -> list[tuple[float, float]]:
    ring = segments(polygon([(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]))
    return [(round(s.point[0], 9), round(s.point[1], 9)) for s in spots(ring)]


def test_spots_are_tried_on_the_longest_stretches_first() -> None:
    """40 x 12: the four middles, quarters of all, tenths of the long sides alone (above 16 mm),
    and at last sixteen places of those (above 24 mm)."""
    found_at = places(40.0, 12.0)
    assert found_at[:4] == [(20, 0), (20, 12), (40, 6), (0, 6)]
    assert found_at[4:12] == [
        (10, 0), (30, 0), (30, 12), (10, 12), (40, 3), (40, 9), (0, 9), (0, 3),
    ]  # fmt: skip
    assert found_at[12:20] == [
        (4, 0),
        (16, 0),
        (24, 0),
        (36, 0),
        (36, 12),
        (24, 12),
        (16, 12),
        (4, 12),
    ]
    fine = [round(1.25 + 2.5 * k, 9) for k in range(16)]
    assert found_at[20:36] == [(x, 0) for x in fine]
    assert found_at[36:] == [(x, 12) for x in reversed(fine)]


@pytest.mark.parametrize(
    ("length", "count"), [(8.0, 4), (8.1, 4 + 4), (16.0, 8), (16.1, 16), (24.0, 16), (24.1, 48)]
)
def test_short_stretches_are_tried_less_often(length: float, count: int) -> None:
    """Of a strip 6 mm wide: 1, 3, 7 or 23 places on each long side, above 8, 16 and 24 mm."""
    assert len(places(length, 6.0)) == count


def test_lengths_that_differ_by_rounding_are_taken_in_their_order() -> None:
    """A tenth of a micrometre is rounding, two micrometres are not."""
    for longer, first in ((1e-7, 0.0), (2e-6, 12.0)):
        ring = segments(polygon([(0.0, 0.0), (30.0, 0.0), (30.0 + longer, 12.0), (0.0, 12.0)]))
        assert next(iter(spots(ring))).point[1] == first


def test_the_first_spot_with_room_is_taken() -> None:
    """A square against the plate's left and lower edge has room above and at its right: the
    middle of the first of these, run clockwise, is at its top."""
    square = Blank("p", "extra", 6.0, polygon([(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)]))
    room = room_on(Layout(plate(300.0, 300.0), (Placement(square, 5.0, 5.0, 0.0),)), cutting())
    (own,) = room.parts
    ring = segments(reversed_loop(own.outline))
    search = LeadSearch(ring, room, own, own.outline, hole=False)
    told = search.first(Leads(8.0, 0.0, "line"))
    assert told is not None
    spot, into, off = told
    assert spot.point == pytest.approx((35, 65))
    assert into is not None
    assert into.start == pytest.approx((35, 73))
    assert off is None
    nowhere = Leads(400.0, 0.0, "line")
    assert search.first(nowhere) is None


def test_in_a_round_hole_a_line_reaches_the_middle() -> None:
    """Radius 20: 20 mm are the middle; 20.05 would begin nearer to the other side than 0.999."""
    for length, fits in ((20.0, True), (20.05, False)):
        spot = Spot(0.0, (70.0, 50.0), (0.0, 1.0))
        assert (
            found(Circle((50.0, 50.0), 20.0), spot, Leads(length, 0.0, "line"), hole=True) == fits
        )
