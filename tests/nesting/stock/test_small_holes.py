"""Which holes the torch is not sent to, and what is left of them on the sheet."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.stock.small_holes import (
    least_hole,
    marked_holes,
    narrow_holes,
    round_hole,
    without_small_holes,
)
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, arc_pieces, polygon
from tests.nesting.plates import cutting, disc


def drilled(*diameters: float, marks: tuple[MarkPoint, ...] = ()) -> Blank:
    """A disc 6 mm thick with holes 30 mm apart along x."""
    holes = tuple(Circle((30.0 * i - 60, 0.0), d / 2) for i, d in enumerate(diameters))
    return Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 100.0), holes, marks)


# Rules of thumb: plasma 1.5 x thickness, laser 1 x, oxy-fuel 1.5 x and at least 10 mm, by hand
# 25 mm. Common practice, from memory, no source.
@pytest.mark.parametrize(
    ("process", "thickness", "least"),
    [
        ("plasma", 6, 9),
        ("plasma", 12, 18),
        ("laser", 6, 6),
        ("oxy-fuel", 5, 10),
        ("oxy-fuel", 20, 30),
        ("hand", 12, 25),
    ],
)
def test_the_rule_of_each_process(process: str, thickness: float, least: float) -> None:
    assert least_hole(cutting(process=process), thickness) == least
    if process != "hand":
        assert least_hole(cutting(process=process, least_hole_mm=7.5), thickness) == 7.5


def test_by_hand_every_hole_stays_on_the_sheet() -> None:
    blank = drilled(5.0, 12.0, 24.0)
    assert without_small_holes(blank, cutting(process="hand")) is blank


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.floats(1, 25), max_size=5), st.floats(0, 30))
def test_small_ones_become_centres_and_large_ones_stay(sizes: list[float], least: float) -> None:
    blank, cut = drilled(*sizes), cutting(least_hole_mm=least)
    sheet = without_small_holes(blank, cut)
    assert [2 * hole.radius_mm for hole in sheet.holes] == [
        pytest.approx(d) for d in sizes if d >= least
    ]
    points = [mark.at for mark in sheet.marks]
    assert points == [(30.0 * i - 60, 0.0) for i, d in enumerate(sizes) if d < least]
    told = marked_holes([blank], cut)
    assert sum(row.count for row in told) == len(points)
    assert (sheet.name, sheet.outline, sheet.sizes) == (blank.name, blank.outline, blank.sizes)
    gone = math.fsum(math.pi * d * d / 4 for d in sizes if d < least)
    assert sheet.area_mm2 == pytest.approx(blank.area_mm2 + gone)


def test_the_least_itself_is_cut() -> None:
    blank = drilled(9.0, 8.9)
    assert without_small_holes(blank, cutting()).holes == blank.holes[:1]
    assert without_small_holes(drilled(9.0), cutting()) == drilled(9.0)


def test_rows_by_size_and_in_words() -> None:
    big, small = marked_holes([drilled(8.0, 5.0, 8.0, 16.0)], cutting())[::-1]
    assert (big.blank, big.diameter_mm, big.count, big.least_mm) == ("disc", 8.0, 2, 9.0)
    assert (small.diameter_mm, small.count) == (5.0, 1)
    assert str(big).startswith("disc: the 2 holes of 8 mm are smaller than 9 mm")
    assert str(small).startswith("disc: the hole of 5 mm is smaller than 9 mm")


def test_a_centre_that_is_marked_already_is_not_marked_twice() -> None:
    there = MarkPoint((-60.0, 0.0))
    assert without_small_holes(drilled(5.0, 6.0, marks=(there,)), cutting()).marks == (
        there,
        MarkPoint((-30.0, 0.0)),
    )


def test_a_round_hole_drawn_as_arcs_is_round() -> None:
    ring = arc_pieces(Arc((7.0, 8.0), 4.0, 10.0, -360.0), 90.0)
    assert round_hole(ring) == Circle((7.0, 8.0), 4.0)
    blank = disc(200.0, holes=(ring,))
    assert without_small_holes(blank, cutting()).marks == (MarkPoint((7.0, 8.0)),)


def slot(width: float, length: float) -> Loop:
    """Straight sides of `length`, round ends, turned so that its bounds do not tell its width."""
    r, half = width / 2, length / 2
    turn = math.radians(30)

    def at(x: float, y: float) -> tuple[float, float]:
        return (
            x * math.cos(turn) - y * math.sin(turn),
            x * math.sin(turn) + y * math.cos(turn),
        )

    return (
        Line(at(-half, -r), at(half, -r)),
        Arc(at(half, 0.0), r, -60.0, 180.0),
        Line(at(half, r), at(-half, r)),
        Arc(at(-half, 0.0), r, 120.0, 180.0),
    )


def test_a_narrow_slot_is_cut_and_told() -> None:
    blank = disc(200.0, holes=(slot(6.0, 30.0), Circle((60.0, 0.0), 3.0)))
    assert round_hole(blank.holes[0]) is None
    assert without_small_holes(blank, cutting()).holes == blank.holes[:1]
    (line,) = narrow_holes([blank], cutting())
    assert "(6." in line
    assert "9 mm" in line
    assert narrow_holes([disc(200.0, holes=(slot(9.5, 30.0),))], cutting()) == ()
    square = disc(200.0, holes=(polygon([(0.0, 0.0), (0.0, 8.0), (8.0, 8.0), (8.0, 0.0)]),))
    assert "8.0 mm" in narrow_holes([square], cutting())[0]
