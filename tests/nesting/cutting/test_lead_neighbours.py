"""What a lead must keep clear of on the plate: each thing alone, at its limit and a hair within."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.cutting.lead_place import Room, room_on
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.outline import Arc, Circle, Line, contains
from tests.nesting.plates import cutting, disc, offcut, plate, strip

HAIR = 1e-6
HOLED = offcut(
    "holed",
    [(0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0)],
    (((200.0, 100.0), (240.0, 100.0), (240.0, 140.0), (200.0, 140.0)),),
)


def room_of(sheet: Sheet = HOLED, cut: Cutting | None = None) -> Room:
    """Two strips of 60 x 20, the first at (20, 20), the second 30 mm above it."""
    first, second = (Placement(strip(60.0, 20.0), 20.0, y, 0.0) for y in (20.0, 70.0))
    return room_on(Layout(sheet, (first, second)), cut or cutting(kerf_mm=1.5))


def free(lead: Line | Arc, room: Room | None = None) -> bool:
    """Whether a lead of the first strip keeps clear of all but its own part."""
    room = room or room_of()
    return room.free(lead, room.parts[0], room.parts)


def upright(x: float, y0: float, y1: float) -> Line:
    return Line((x, y0), (x, y1))


@pytest.mark.parametrize(
    ("told", "clear", "bridge", "longest"),
    [
        ({"kerf_mm": 1.5, "lead_in_mm": 5.0, "lead_out_mm": 7.0}, 1.5, 0.0, 7.0),
        ({"kerf_mm": 0.2, "lead_in_mm": 9.0}, 0.5, 0.0, 9.0),
        ({"kerf_mm": 1.5, "tab_count": 3, "tab_width_mm": 2.0, "lead_in_mm": 4.0}, 1.5, 3.5, 4.0),
        ({"kerf_mm": 1.5, "tab_count": 1, "tab_width_mm": 0.1, "lead_in_mm": 4.0}, 1.5, 1.6, 4.0),
    ],
)
def test_what_a_room_keeps(
    told: dict[str, float], clear: float, bridge: float, longest: float
) -> None:
    """A kerf clear, half a millimetre at least; a tab and the kerf beside it; two leads as long
    as an arc is across, radius x sqrt 2, and what must lie between them: 1.5 thicknesses and a
    kerf at a pierce."""
    room = room_of(cut=cutting(**told))
    assert (room.clear_mm, room.bridge_mm) == (pytest.approx(clear), pytest.approx(bridge))
    across = 2 * math.sqrt(2) * longest
    assert room.reach_mm == pytest.approx(
        across + max(clear, 2 * bridge, 1.5 * 6.0 + told.get("kerf_mm", 1.5))
    )
    edge, hole = room.edges
    assert contains(edge, (1.0, 1.0))
    assert contains(hole, (220.0, 120.0))
    assert [part.box for part in room.parts] == [(20, 20, 80, 40), (20, 70, 80, 90)]


def test_parts_within_reach_are_near() -> None:
    """Boxes 30 mm apart: a reach of 30 does not see it, more does."""
    below, above = room_of().parts
    for reach, near in ((30.0, [below]), (30.0 + HAIR, [below, above])):
        room = Room(room_of().edges, (below, above), 1.5, 0.0, 1.5, 1.5, 9.0, reach)
        assert room.near(below) == near


def test_a_lead_begins_on_the_plate() -> None:
    assert free(upright(150.0, 50.0, 60.0))
    assert not free(upright(150.0, 300.0, 310.0))  # wholly beside the plate
    assert not free(upright(220.0, 115.0, 125.0))  # wholly in its hole


@pytest.mark.parametrize(
    ("lead", "way"),
    [
        (upright(298.5, 50.0, 60.0), (1, 0)),  # right edge
        (upright(150.0, 1.5, 20.0), (0, -1)),  # lower edge
        (upright(198.5, 110.0, 120.0), (1, 0)),  # hole, beside
        (upright(220.0, 141.5, 160.0), (0, -1)),  # hole, above
        (upright(81.5, 72.0, 80.0), (-1, 0)),  # the other strip, beside
        (upright(50.0, 45.0, 68.5), (0, 1)),  # the other strip, below
        (Arc((50.0, 58.5), 10.0, 0.0, 90.0), (0, 1)),  # its crown below the other strip
    ],
)
def test_a_kerf_off_edges_holes_and_other_parts(lead: Line | Arc, way: tuple[int, int]) -> None:
    """1.5 mm of kerf off: clear there, and not a hair nearer."""
    for off, clear in ((-HAIR, True), (HAIR, False)):
        dx, dy = way[0] * off, way[1] * off
        moved: Line | Arc
        if isinstance(lead, Line):
            (ax, ay), (bx, by) = lead.start, lead.end
            moved = Line((ax + dx, ay + dy), (bx + dx, by + dy))
        else:
            x, y = lead.centre
            moved = Arc((x + dx, y + dy), lead.radius_mm, lead.start_deg, lead.sweep_deg)
        assert free(moved) == clear


def test_its_own_part_is_not_asked() -> None:
    assert free(upright(50.0, 40.0, 45.0))  # ends on its own upper side
    assert not free(upright(50.0, 65.0, 70.0))  # ends on the other's lower side


def test_a_kerf_off_leads_that_are_laid_whosever() -> None:
    for k in (0, 1):
        room = room_of()
        room.parts[k].take(upright(150.0, 50.0, 60.0))
        assert free(upright(151.5 + HAIR, 50.0, 60.0), room)
        assert not free(upright(151.5 - HAIR, 50.0, 60.0), room)


def test_holes_of_other_parts_are_edges_too() -> None:
    """A lead in the hole of a ring, which its own part lies in: 1.5 mm off the hole's edge."""
    ring = Placement(disc(120.0, "ring", (Circle((0.0, 0.0), 40.0),)), 100.0, 100.0, 0.0)
    core = Placement(disc(60.0, "core"), 100.0, 100.0, 0.0)
    room = room_on(Layout(HOLED, (core, ring)), cutting(kerf_mm=1.5))
    for tip, clear in ((138.5 - HAIR, True), (138.5 + HAIR, False)):
        assert room.free(Line((tip, 100.0), (130.0, 100.0)), room.parts[0], room.parts) == clear


TABBED = {"kerf_mm": 1.5, "tab_count": 2, "tab_width_mm": 2.5}  # bridge 4 mm


def test_a_bridge_of_another_part_is_left_whole() -> None:
    """It runs out 8 mm above the second strip; a lead keeps half a bridge, 2 mm, off it."""
    for x, clear in ((52.0 + HAIR, True), (52.0 - HAIR, False)):
        room = room_of(cut=cutting(**TABBED))
        room.parts[1].bridges = (upright(50.0, 90.0, 98.0),)
        assert free(upright(x, 92.0, 105.0), room) == clear


def test_a_bridge_is_seen_two_bridges_off_its_part() -> None:
    """A lead that crosses it 7 mm above the strip, nearer than 2 x 4 mm to its box."""
    room = room_of(cut=cutting(**TABBED))
    room.parts[1].bridges = (upright(50.0, 90.0, 98.0),)
    assert not free(Line((40.0, 97.0), (60.0, 97.0)), room)
    assert free(Line((40.0, 100.1), (60.0, 100.1)), room)
    room.parts[0].bridges = (upright(150.0, 50.0, 60.0),)
    assert free(Line((140.0, 55.0), (160.0, 55.0)), room)  # its own are asked elsewhere


def test_bridges_are_free_of_every_lead_or_of_none() -> None:
    room = room_of(cut=cutting(**TABBED))
    bridges = (upright(50.0, 90.0, 98.0), upright(70.0, 90.0, 98.0))
    near, far = upright(72.0 - HAIR, 90.0, 98.0), upright(60.0, 90.0, 98.0)
    assert room.bridges_free(bridges, (far,))
    assert not room.bridges_free(bridges, (far, near))
    assert room.bridges_free(bridges, (upright(72.0, 90.0, 98.0),))
    assert room.bridges_free((), (near,))


def test_rooms_and_parts_are_told_apart_by_identity() -> None:
    """Two equal plates have each their own leads."""
    one, other = room_of(plate(300.0, 200.0)), room_of(plate(300.0, 200.0))
    assert one != other
    assert one.parts[0] != other.parts[0]
    assert {one.parts[0]: 1}[one.parts[0]] == 1
