"""The way to mark a blank out: its figures are those of the outline itself."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.marking_way import marking_way
from platewheel.parts.geometry.outline import Arc, Circle, Line, moved, polygon
from platewheel.parts.wheel.hub_disc import disc_blank
from tests.parts.wheels import plain_wheel


def numbers(words: str) -> list[float]:
    return [float(found) for found in re.findall(r"([\d.]+) mm", words)]


def test_a_disc_by_centre_radius_and_steps() -> None:
    wheel = plain_wheel(vent_count=4, vent_diameter_mm=16.0, vent_circle_mm=210.0)
    blank = disc_blank(wheel)
    assert isinstance(blank.outline, Circle)
    first, *rest = marking_way(blank, "mm")
    assert numbers(first)[0] == pytest.approx(blank.outline.radius_mm, abs=0.05)
    (vents,) = [line for line in rest if "4 holes" in line]
    circle, size, step = numbers(vents)
    assert (circle, size) == (210.0, 16.0)
    assert step == pytest.approx(210 * math.sin(math.pi / 4), abs=0.05)  # chord of a quarter


@given(st.floats(60.0, 1400.0), st.floats(10.0, 90.0), st.floats(20.0, 175.0))
def test_a_sector_struck_as_told_is_the_outline(inner: float, wide: float, sweep: float) -> None:
    """Struck from the printed figures: both ends of the outer arc and the proof across the inner
    ends lie within 0.05 mm of the outline's corners and their distance."""
    edge = moved(annular_sector(inner, inner + wide, sweep), 40.0, 9.0, 21.0)
    blank = Blank("flange", "flange", 8.0, edge)
    scribe, strike, prove = marking_way(blank, "mm")
    corners = [s.start for s in edge if isinstance(s, Line)]
    ends = [s.end for s in edge if isinstance(s, Line)]
    outer, told_inner = numbers(scribe)[-2:]
    assert abs(outer - (inner + wide)) <= 0.05 + 1e-9
    assert abs(told_inner - inner) <= 0.05 + 1e-9
    assert abs(numbers(strike)[0] - math.dist(corners[0], ends[1])) <= 0.05 + 1e-9
    assert abs(numbers(prove)[0] - math.dist(ends[0], corners[1])) <= 0.05 + 1e-9


def test_beyond_a_trammel_the_table_is_told() -> None:
    far = Blank("flange", "flange", 8.0, annular_sector(1700.0, 1740.0, 20.0))
    assert "No trammel reaches 1740 mm" in marking_way(far, "mm")[0]
    wide = Blank("ring", "extra", 8.0, annular_sector(150.0, 170.0, 340.0))
    assert "Lay a tape along the outer arc, 1008.8 mm" in marking_way(wide, "mm")[1]


def test_a_strip_is_proved_by_its_diagonals() -> None:
    """3-4-5: 300 x 400 has diagonals of 500."""
    strip = Blank("tread", "tread", 8.0, polygon([(0, 0), (400, 0), (400, 300), (0, 300)]))
    line, square = marking_way(strip, "mm")
    assert numbers(line) == [400.0, 300.0]
    assert "both diagonals 500 mm" in square
    assert "both diagonals 19 11/16 in" in marking_way(strip, "inch")[1]


def test_any_other_outline_by_its_corners_and_arcs() -> None:
    edge = (
        Line((10.0, 20.0), (70.0, 20.0)),
        Arc((70.0, 40.0), 20.0, -90.0, 180.0),
        Line((70.0, 60.0), (10.0, 60.0)),
        Line((10.0, 60.0), (10.0, 20.0)),
    )
    plate = Blank("plate", "extra", 6.0, edge, (Circle((30.0, 40.0), 6.0),))
    frame, corners, arc, hole = marking_way(plate, "mm")
    assert numbers(frame) == [80.0, 40.0]
    assert numbers(corners) == [0, 0, 60, 0, 60, 40, 0, 40]
    assert numbers(arc) == [20, 60, 20]
    assert "from 2 to 3, radius 20 mm about" in arc
    assert numbers(hole) == [12, 20, 20]
    slot = polygon([(40.0, 30.0), (60.0, 30.0), (60.0, 34.0)])
    slotted = Blank("plate", "extra", 6.0, edge, (Circle((30.0, 40.0), 6.0), slot))
    assert marking_way(slotted, "mm")[-1].startswith("Scribe 1 cut-out that no compass")
