"""Torch paths round corners that the kerf rounds off, and what is told where it does not go."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    area_mm2,
    length_mm,
    moved,
    polygon,
    segments,
)
from tests.nesting.plates import faceted

L_SHAPE: list[Point] = [
    (0.0, 0.0),
    (60.0, 0.0),
    (60.0, 20.0),
    (20.0, 20.0),
    (20.0, 50.0),
    (0.0, 50.0),
]
L_AREA = 60 * 20 + 20 * 30
# Outward by 1 mm: perimeter x 1, five quarter discs, less the square at the inward corner
AROUND_L = L_AREA + 220 + 5 * math.pi / 4 - 1


def cut_corner(facets: int) -> Loop:
    """The L with its inward corner bridged by facets of a quarter circle of 0.3 mm: much tighter
    than the kerf's own round of 1 mm, so the path is that of the sharp corner."""
    centre, r = (20.3, 20.3), 0.3
    turns = [math.radians(270 - 90 * k / facets) for k in range(facets + 1)]
    corner = [(centre[0] + r * math.cos(t), centre[1] + r * math.sin(t)) for t in turns]
    return polygon([*L_SHAPE[:3], *corner, *L_SHAPE[4:]])


@pytest.mark.parametrize("facets", [1, 2, 3, 5])
@pytest.mark.parametrize("turn", [0.0, 90.0, 143.0])
def test_facets_finer_than_the_kerf_are_rounded_off(facets: int, turn: float) -> None:
    """No facet is cut by itself: the two sides beside them are, up to where they meet."""
    path = torch_path(moved(cut_corner(facets), 5.0, 7.0, turn), 2.0, hole=False)
    assert area_mm2(path) == pytest.approx(AROUND_L, abs=1e-6)
    assert length_mm(path) == pytest.approx(220 + 5 * math.pi / 2 - 2, abs=1e-6)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    corner = (5 + 21 * c - 21 * s, 7 + 21 * s + 21 * c)  # (21, 21), turned and moved
    assert min(math.dist(corner, segment.start) for segment in segments(path)) < 1e-6


@pytest.mark.parametrize("facets", [1, 3])
def test_the_ring_may_begin_anywhere(facets: int) -> None:
    """The facets at its beginning, at its end and across both."""
    ring = segments(cut_corner(facets))
    for first in range(len(ring)):
        path = torch_path((*ring[first:], *ring[:first]), 2.0, hole=False)
        assert area_mm2(path) == pytest.approx(AROUND_L, abs=1e-6)


def test_a_slot_is_missed_beside_an_inward_corner_too() -> None:
    """The L with a slot of 1.9 mm from below: what is rounded off in one place excuses nothing
    in another."""
    slot = [(30.0, 0.0), (30.0, 9.0), (31.9, 9.0), (31.9, 0.0)]
    with pytest.raises(NestingError, match=r"hollow at \(30\.0, 0\.0\), narrower"):
        torch_path(polygon([L_SHAPE[0], *slot, *L_SHAPE[1:]]), 2.0, hole=False)


@pytest.mark.parametrize("facets", [1, 3])
def test_the_same_facets_of_a_hole(facets: int) -> None:
    """Inwards they stand out: a polygon library's buffer, on fine arcs."""
    path = torch_path(cut_corner(facets), 2.0, hole=True)
    inside = faceted(cut_corner(facets)).buffer(-1.0, quad_segs=256)
    assert area_mm2(path) == pytest.approx(inside.area, abs=1e-4)


def test_where_the_kerf_does_not_go_is_told_by_place() -> None:
    """A slot of 1.9 mm, 20 deep: the first of its three sides begins at its upper right."""
    slot = polygon(
        [
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 30.0),
            (21.9, 30.0),
            (21.9, 10.0),
            (20.0, 10.0),
            (20.0, 30.0),
            (0.0, 30.0),
        ]
    )
    with pytest.raises(NestingError) as told:
        torch_path(slot, 2.0, hole=False)
    assert str(told.value) == (
        "kerf in the path: the outline has a hollow at (21.9, 30.0), narrower than the kerf of 2 mm"
    )


def dumbbell(neck_mm: float) -> Loop:
    """Two squares of 20 mm joined by a neck 10 mm long."""
    low, high = 10 - neck_mm / 2, 10 + neck_mm / 2
    return polygon(
        [
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, low),
            (30.0, low),
            (30.0, 0.0),
            (50.0, 0.0),
            (50.0, 20.0),
            (30.0, 20.0),
            (30.0, high),
            (20.0, high),
            (20.0, 20.0),
            (0.0, 20.0),
        ]
    )


def test_a_neck_of_a_hole_is_cut_or_told() -> None:
    """2.1 mm of neck: the path runs through it, 0.1 wide. 1.9 mm: two holes would be left."""
    path = torch_path(dumbbell(2.1), 2.0, hole=True)
    # two squares of 18; the neck of 0.1 from one to the other, 12 long, two corners rounded at
    # either end: each takes the quarter disc's corner, 1 - pi / 4, into the neck's mouth
    assert area_mm2(path) == pytest.approx(2 * 18**2 + 12 * 0.1 + 4 * (1 - math.pi / 4), abs=1e-6)
    with pytest.raises(NestingError) as told:
        torch_path(dumbbell(1.9), 2.0, hole=True)
    assert str(told.value) == (
        "kerf in the path: the hole has a neck, narrower than the kerf of 2 mm"
    )


def test_a_hole_without_room_is_told() -> None:
    with pytest.raises(NestingError) as told:
        torch_path(polygon([(0.0, 0.0), (9.0, 0.0), (9.0, 1.5), (0.0, 1.5)]), 2.0, hole=True)
    assert str(told.value) == (
        "kerf in the path: the hole has no room for the torch: all of it is, narrower than the "
        "kerf of 2 mm"
    )


@pytest.mark.parametrize("diameter", [2.02, 3.0, 4.5])
def test_a_round_hole_hardly_larger_than_the_kerf_is_cut(diameter: float) -> None:
    path = torch_path(Circle((3.0, 4.0), diameter / 2), 2.0, hole=True)
    assert path == Circle((3.0, 4.0), pytest.approx(diameter / 2 - 1))


def rounded(radius: float, bow: int) -> Loop:
    """A square of 40 mm with one corner an arc that runs smoothly on, out of it or into it."""
    if bow > 0:
        arc = Arc((40.0 - radius, 40.0 - radius), radius, 0.0, 90.0)
    else:
        arc = Arc((40.0, 40.0), radius, 270.0, -90.0)
    return (
        Line((0.0, 0.0), (40.0, 0.0)),
        Line((40.0, 0.0), arc.start),
        arc,
        Line(arc.end, (0.0, 40.0)),
        Line((0.0, 40.0), (0.0, 0.0)),
    )


@pytest.mark.parametrize(
    ("radius", "bow"), [(0.5, 1), (1.0, 1), (1.5, 1), (5.0, 1), (0.5, -1), (1.5, -1), (5.0, -1)]
)
def test_round_corners_from_outside(radius: float, bow: int) -> None:
    """Steiner: area + perimeter x 1 + pi; a bite of less than 1 mm does not let the torch in."""
    part = rounded(radius, bow)
    if bow < 0 and radius < 1:
        with pytest.raises(NestingError, match=r"hollow at \(40\.0, 39\.5\)"):
            torch_path(part, 2.0, hole=False)
        return
    path = torch_path(part, 2.0, hole=False)
    assert area_mm2(path) == pytest.approx(area_mm2(part) + length_mm(part) + math.pi)


@pytest.mark.parametrize("radius", [0.5, 1.0, 1.5, 5.0])
@pytest.mark.parametrize("bow", [1, -1])
def test_round_corners_of_a_hole(radius: float, bow: int) -> None:
    """38 mm square, its corner round by what 1 mm leaves of the radius; or bitten by a disc of
    r + 1 about the old corner, as far as it reaches past 1 mm of either side."""
    path = torch_path(rounded(radius, bow), 2.0, hole=True)
    if bow > 0:
        lost = (1 - math.pi / 4) * max(radius - 1, 0.0) ** 2
    else:
        big = radius + 1
        side = math.sqrt(big**2 - 1)
        lost = big**2 / 2 * (math.pi / 2 - 2 * math.asin(1 / big)) - (side - 1)
    assert area_mm2(path) == pytest.approx(38**2 - lost)


@pytest.mark.parametrize("turn", [0.0, 30.0, 77.0])
@pytest.mark.parametrize("kerf", [0.6, 1.0, 3.0])
def test_a_smooth_joint_gets_no_corner(turn: float, kerf: float) -> None:
    """Two lines and two half circles, however turned: four moved pieces, nothing between."""
    slot: Loop = (
        Line((0.0, -10.0), (40.0, -10.0)),
        Arc((40.0, 0.0), 10.0, -90.0, 180.0),
        Line((40.0, 10.0), (0.0, 10.0)),
        Arc((0.0, 0.0), 10.0, 90.0, 180.0),
    )
    for hole in (False, True):
        path = torch_path(moved(slot, 3.0, 4.0, turn), kerf, hole=hole)
        assert len(segments(path)) == 4
        assert area_mm2(path) == pytest.approx(
            math.pi * (10 + (-1 if hole else 1) * kerf / 2) ** 2
            + 80 * (10 + (-1 if hole else 1) * kerf / 2)
        )


def test_a_shallow_hollow_side_is_followed() -> None:
    """A square of 60 whose lower side is hollow by an arc of 5000 mm, 0.69 degrees: the torch runs
    on an arc of 4999 mm about the same centre."""
    half = math.degrees(math.asin(30 / 5000))
    centre = (30.0, -5000 * math.cos(math.radians(half)))
    hollow: Loop = (
        Arc(centre, 5000.0, 90 + half, -2 * half),
        Line((60.0, 0.0), (60.0, 60.0)),
        Line((60.0, 60.0), (0.0, 60.0)),
        Line((0.0, 60.0), (0.0, 0.0)),
    )
    path = segments(torch_path(hollow, 2.0, hole=False))
    along = [one for one in path if isinstance(one, Arc) and one.radius_mm > 2]
    assert [one.radius_mm for one in along] == [pytest.approx(4999)]
    assert along[0].sweep_deg == pytest.approx(-2 * half)
    assert len(path) == 8  # four sides, four corners rounded
    assert area_mm2(tuple(path)) == pytest.approx(
        area_mm2(hollow) + length_mm(hollow) + math.pi,
        abs=1e-6,  # a full turn in all
    )
