"""A Blank is sound or is none: each way in which a loop can be wrong is told by its place."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.files.write_dxf import write_blank_dxf
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Wanted
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    area_mm2,
    moved,
    polygon,
    reversed_loop,
    signed_area_mm2,
)
from tests.nesting.plates import plate

SQUARE = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
HALF = (Line((-40.0, 0.0), (40.0, 0.0)), Arc((0.0, 0.0), 40.0, 0.0, 180.0))
EIGHT = polygon([(0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0)])
SPIKE = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (100.0, -20.0)])
HOLE = Circle((50.0, 50.0), 20.0)
OVER = (Arc((50.0, 0.0), 10.0, 0.0, 180.0), Line((40.0, 0.0), (60.0, 0.0)))  # base on the edge

WRONG: dict[str, tuple[Loop, tuple[Loop, ...], str, str]] = {
    "crosses itself": (EIGHT, (), "plate.outline", r"\(50.0, 50.0\).*itself"),
    "runs back over itself": (SPIKE, (), "plate.outline", "itself"),
    "twice round": ((*SQUARE, *SQUARE), (), "plate.outline", "itself"),
    "open": (SQUARE[:3], (), "plate.outline[2]", r"within 0.001 mm.*outline\[0\].*100 mm off"),
    "arc ends elsewhere": (
        (HALF[0], replace(HALF[1], sweep_deg=179.0)),
        (),
        "plate.outline[1]",
        r"end it at \(-40, 0\)",
    ),
    "no area": (polygon([(0.0, 0.0), (50.0, 0.0)]), (), "plate.outline", "encloses an area"),
    "nothing": ((), (), "plate.outline", "Lines and Arcs"),
    "nan": ((*SQUARE[:3], Line((0.0, 100.0), (0.0, math.nan))), (), "plate.outline[3].end", "nan"),
    "infinite": (Circle((math.inf, 0.0), 3.0), (), "plate.outline.centre", "inf"),
    "radius": (Circle((0.0, 0.0), -3.0), (), "plate.outline.radius_mm", "-3.0"),
    "farther than the sun": (Circle((0.0, 0.0), 1e300), (), "plate.outline.radius_mm", "1e\\+300"),
    "yes": (Circle((0.0, True), 4.0), (), "plate.outline.centre", "True"),
    "sweep": ((Arc((0.0, 0.0), 5.0, 0.0, 720.0),), (), "plate.outline[0].sweep_deg", "720"),
    "points for lines": (((0.0, 0.0), (9.0, 0.0)), (), "plate.outline[0]", "a Line or an Arc"),  # type: ignore[dict-item]
    "lists for points": ((Line([0.0, 0.0], (9.0, 0.0)),), (), "plate.outline[0].start", "finite"),  # type: ignore[arg-type]
    "hole over the edge": (SQUARE, (moved(HOLE, 40.0, 0.0),), "plate.holes[0]", "outline"),
    "hole on the edge": (SQUARE, (Circle((50.0, 20.0), 20.0),), "plate.holes[0]", r"\(50.0, 0.0\)"),
    "straight along the edge": (SQUARE, (OVER,), "plate.holes[0]", "outline"),
    "hole outside": (SQUARE, (moved(HOLE, 200.0, 0.0),), "plate.holes[0]", "inside the outline"),
    "hole around": (SQUARE, (Circle((50.0, 50.0), 500.0),), "plate.holes[0]", "inside the outline"),
    "holes that meet": (SQUARE, (HOLE, moved(HOLE, 15.0, 0.0)), "plate.holes[1]", r"holes\[0\]"),
    "the same twice": (
        Circle((0.0, 0.0), 9.0),
        (Circle((0.0, 0.0), 9.0),),
        "plate.holes[0]",
        "outline",
    ),
    "hole in a hole": (
        SQUARE,
        (HOLE, replace(HOLE, radius_mm=5.0)),
        "plate.holes[1]",
        r"lies in holes\[0\]",
    ),
}


@pytest.mark.parametrize("why", WRONG)
def test_a_wrong_loop_is_told_by_its_place(why: str) -> None:
    outline, holes, key, words = WRONG[why]
    with pytest.raises(SpecError, match=words) as told:
        Blank("plate", "extra", 6.0, outline, holes)
    assert key in {fault.key for fault in told.value.faults}


@pytest.mark.parametrize("thick", [0.0, -6.0, math.nan, math.inf, 1e300, True, "6"])
def test_a_plate_has_a_thickness(thick: float) -> None:
    with pytest.raises(SpecError, match=r"plate.thickness_mm.*above 0 mm"):
        Blank("plate", "extra", thick, SQUARE)


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(SpecError) as told:
        Blank("plate", "extra", -1.0, SQUARE[:3], (Circle((0.0, 0.0), 0.0),))
    assert [fault.key for fault in told.value.faults] == [
        "plate.thickness_mm",
        "plate.outline[2]",
        "plate.holes[0].radius_mm",
    ]


def test_a_hole_alone_is_no_tuple_of_holes() -> None:
    with pytest.raises(SpecError, match=r"plate.holes.*tuple of loops"):
        Blank("plate", "extra", 6.0, SQUARE, HOLE)  # type: ignore[arg-type]


def test_a_hole_changed_later_is_proved_too() -> None:
    good = Blank("plate", "extra", 6.0, SQUARE, (HOLE,))
    with pytest.raises(SpecError, match=r"plate.holes\[0\]"):
        replace(good, holes=(moved(HOLE, 40.0, 0.0),))


def sector(inner: float, width: float, sweep: float) -> Loop:
    return annular_sector(inner, inner + width, sweep)


@given(st.floats(20.0, 400.0), st.floats(5.0, 80.0), st.floats(1.0, 359.0), st.floats(-180, 180))
def test_sectors_are_sound_wherever_they_lie(
    inner: float, width: float, sweep: float, turn: float
) -> None:
    blank = Blank("plate", "extra", 6.0, moved(sector(inner, width, sweep), 30.0, -70.0, turn))
    whole = math.pi * ((inner + width) ** 2 - inner**2)
    assert blank.area_mm2 == pytest.approx(whole * sweep / 360, rel=1e-9)


@given(
    st.floats(20.0, 400.0),
    st.floats(5.0, 80.0),
    st.floats(1.0, 359.0),
    st.floats(-1.0, 1.0),
    st.floats(0.0, 1.0),
)
def test_a_round_hole_is_sound_where_it_keeps_clear_of_the_edge(
    inner: float, width: float, sweep: float, out: float, share: float
) -> None:
    """A circle in a sector: clear of both arcs by its place between them, of the straight ends
    by the sine of the angle to them."""
    at, radius = inner + width / 2 + out * width, width / 4
    turn = math.radians(share * sweep)
    centre = (at * math.cos(turn), at * math.sin(turn))
    ends = [math.radians(share * sweep), math.radians((1 - share) * sweep)]
    to_ends = [at * math.sin(end) if end < math.pi / 2 else at for end in ends]
    room = min(width / 2 - abs(out) * width, *to_ends) - radius
    if abs(room) < 1e-3:
        return
    try:
        Blank("plate", "extra", 6.0, sector(inner, width, sweep), (Circle(centre, radius),))
    except SpecError:
        assert room < 0
    else:
        assert room > 0


WAYS = {
    "clockwise": reversed_loop,
    "closed twice": lambda loop: (*loop, Line(loop[0].start, loop[0].start)),
    "corners named twice": lambda loop: tuple(
        one for piece in loop for one in (piece, Line(piece.end, piece.end))
    ),
    "an arc of no sweep": lambda loop: (
        (*loop, Arc((1.0, 2.0), 3.0, 0.0, 0.0))
        if loop[0].start == (4.0, 2.0)
        else (Arc((loop[0].start[0] - 3.0, loop[0].start[1]), 3.0, 0.0, 0.0), *loop)
    ),
    "a list": list,
}


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("loop", [SQUARE, HALF, sector(60.0, 30.0, 300.0)], ids=["a", "b", "c"])
def test_a_loop_told_in_another_way_is_the_same_part(way: str, loop: Loop) -> None:
    plain, other = (Blank("p", "extra", 6.0, one) for one in (loop, WAYS[way](loop)))
    assert other.area_mm2 == pytest.approx(plain.area_mm2, rel=1e-12)
    assert other.bounds == pytest.approx(plain.bounds, abs=1e-9)
    assert signed_area_mm2(other.outline) > 0
    kerfs = [area_mm2(torch_path(one.outline, 1.5, hole=False)) for one in (plain, other)]
    assert kerfs[1] == pytest.approx(kerfs[0], rel=1e-9)
    assert isinstance(other.outline, tuple)
    for a, b in pairwise(other.outline):
        assert math.dist(a.end, b.start) < 1e-6  # type: ignore[union-attr]


@pytest.mark.parametrize("sweep", [360.0, -360.0, 270.0, -270.0])
def test_a_long_arc_is_kept_in_halves(sweep: float) -> None:
    """An arc of a full turn has no bulge (tan of 90 degrees), one of 270 a poor one."""
    arc = Arc((0.0, 0.0), 40.0, 30.0, sweep)
    chord = () if abs(sweep) == 360 else (Line(arc.end, (0.0, 0.0)), Line((0.0, 0.0), arc.start))
    blank = Blank("p", "extra", 6.0, (arc, *chord))
    assert blank.area_mm2 == pytest.approx(math.pi * 1600 * abs(sweep) / 360)
    assert all(abs(piece.bulge) <= 1 + 1e-12 for piece in blank.outline)  # type: ignore[union-attr]


def test_the_files_of_both_ways_round_are_one(tmp_path: Path) -> None:
    files = []
    for way in (SQUARE, reversed_loop(SQUARE)):
        slot = sector(10.0, 8.0, 120.0)
        holes = (moved(slot if way is SQUARE else reversed_loop(slot), 40.0, 40.0),)
        files.append(tmp_path / f"{len(files)}.dxf")
        write_blank_dxf(Blank("p", "extra", 6.0, way, holes), files[-1])
    ways = [ezdxf.readfile(file).modelspace().query("LWPOLYLINE") for file in files]
    drawn = [[sorted(_rounded(line)) for line in one] for one in ways]
    assert drawn[0] == drawn[1]
    assert len(drawn[0]) == 2


def _rounded(line: Any) -> list[tuple[float, ...]]:
    return [tuple(round(x, 6) + 0.0 for x in corner) for corner in line.get_points("xyb")]


def test_both_ways_round_are_laid_alike() -> None:
    corners = [(0.0, 0.0), (200.0, 0.0), (200.0, 60.0), (60.0, 60.0), (60.0, 150.0), (0.0, 150.0)]
    spots = []
    for way in (polygon(corners), reversed_loop(polygon(corners))):
        wanted, stock = Wanted(Blank("p", "extra", 6.0, way), 6), plate(1500.0, 800.0)
        layout, *_ = nest([wanted], [stock], Cutting(), effort="quick").layouts
        spots.append([(one.x_mm, one.y_mm, one.rotation_deg) for one in layout.placements])
    assert spots[0] == spots[1]


@given(st.floats(0.0, 120.0), st.floats(1.0, 60.0), st.floats(-180.0, 180.0))
def test_round_holes_in_a_round_plate(out: float, radius: float, turn: float) -> None:
    """Sound where the hole ends within the plate of 100 and clear of the hole of 20 about 60, 0."""
    at = (out * math.cos(math.radians(turn)), out * math.sin(math.radians(turn)))
    other = Circle((60.0, 0.0), 20.0)
    room = min(100.0 - out - radius, math.dist(at, other.centre) - 20.0 - radius)
    if abs(room) < 1e-3:
        return
    try:
        Blank("plate", "extra", 6.0, Circle((0.0, 0.0), 100.0), (other, Circle(at, radius)))
    except SpecError:
        assert room < 0
    else:
        assert room > 0
