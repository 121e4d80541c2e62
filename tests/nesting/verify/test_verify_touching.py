"""Layouts without spacing or margin, where parts may touch: each fault beside its sound brother.

A fault is planted by 0.01 mm, a thousand times the verifier's tolerance; its brother is the same
layout with the part a hundredth the other way, or just touching.
"""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.nesting.verify.verify import TOLERANCE_MM, faults
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, polygon
from tests.nesting.plates import disc, offcut, on_plate, plate, sector, steel, strip

OFF = 0.01
SHEET = plate(400.0, 300.0)
L_PLATE = offcut(
    "l", [(0.0, 0.0), (400.0, 0.0), (400.0, 150.0), (200.0, 150.0), (200.0, 300.0), (0.0, 300.0)]
)
SLANT = offcut("slant", [(0.0, 0.0), (400.0, 0.0), (0.0, 300.0)])  # 3, 4, 5
HOLED = offcut(
    "holed",
    [(0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0)],
    (((100.0, 100.0), (200.0, 100.0), (200.0, 150.0), (100.0, 150.0)),),
)
RING = disc(200.0, "ring", (Circle((0.0, 0.0), 60.0),))
TWO_HOLES = disc(200.0, "two", (Circle((-50.0, 0.0), 30.0), Circle((50.0, 0.0), 30.0)))
Placed = tuple[Blank, float, float, float]


def told(sheet: Sheet, *placed: Placed) -> list[str]:
    """Faults with nothing wanted between the parts, nor at the edge."""
    return list(faults(Layout(sheet, tuple(Placement(*one) for one in placed)), 0.0, 0.0))


def bar(x: float, y: float, turn: float = 0.0) -> Placed:
    return strip(100.0, 40.0, "bar"), x, y, turn


def dot(size: float, x: float, y: float) -> Placed:
    return disc(size, "dot"), x, y, 0.0


# name, plate, what lies there, what is moved towards the fault by 0.01 mm, and how
CASES: dict[str, tuple[Sheet, list[Placed], Placed, tuple[float, float], str]] = {
    "side by side": (SHEET, [bar(50, 50)], bar(150, 50), (-1, 0), "overlap"),
    "one above the other": (SHEET, [bar(50, 50)], bar(50, 90), (0, -1), "overlap"),
    "corner to corner": (SHEET, [bar(50, 50)], bar(150, 90), (-1, -1), "overlap"),
    "two discs": (SHEET, [dot(80, 100, 100)], dot(60, 170, 100), (-1, 0), "overlap"),
    "disc on a bar": (SHEET, [bar(50, 50)], dot(60, 100, 120), (0, -1), "overlap"),
    "disc in a hole": (SHEET, [(RING, 200, 150, 0)], dot(100, 210, 150), (1, 0), "overlap"),
    "disc in the second hole": (
        SHEET,
        [(TWO_HOLES, 200, 150, 0)],
        dot(50, 255, 150),
        (1, 0),
        "overlap",
    ),
    "disc in a mouth": (
        SHEET,
        [(sector(60.0, 75.0, 200.0), 200, 150, 0)],
        dot(100, 200, 160),
        (0, 1),
        "overlap",
    ),
    "left edge": (SHEET, [], bar(0, 50), (-1, 0), "off the plate"),
    "lower edge": (SHEET, [], bar(50, 0), (0, -1), "off the plate"),
    "right edge": (SHEET, [], bar(300, 50), (1, 0), "off the plate"),
    "upper edge": (SHEET, [], bar(50, 260), (0, 1), "off the plate"),
    "disc at the left": (SHEET, [], dot(80, 40, 100), (-1, 0), "off the plate"),
    "disc at the foot": (SHEET, [], dot(80, 100, 40), (0, -1), "off the plate"),
    "disc at the right": (SHEET, [], dot(80, 360, 100), (1, 0), "off the plate"),
    "disc at the top": (SHEET, [], dot(80, 100, 260), (0, 1), "off the plate"),
    "in the corner of a notch": (L_PLATE, [], bar(200, 150, 90), (1, 0), "off the plate"),
    "below a notch": (L_PLATE, [], bar(220, 110), (0, 1), "off the plate"),
    # the slant is 3 x + 4 y = 1200, of which (150, 125) lies 50 off
    "disc on a slanted edge": (SLANT, [], dot(100, 150, 125), (0.6, 0.8), "off the plate"),
    # a bar at 45 degrees, the middle of its upper side on the notch's corner (200, 150)
    "bar across a notch's corner": (
        L_PLATE,
        [],
        (strip(100.0, 20.0, "bar"), 200 - 70 * math.sqrt(0.5), 150 + 30 * math.sqrt(0.5), -45),
        (1, 1),
        "off the plate",
    ),
    "beside a hole": (HOLED, [], bar(200, 105), (-1, 0), "off the plate"),
    "above a hole": (HOLED, [], bar(100, 150), (0, -1), "off the plate"),
    "disc beside a hole": (HOLED, [], dot(60, 70, 125), (1, 0), "off the plate"),
    "disc below a hole": (HOLED, [], dot(60, 150, 70), (0, 1), "off the plate"),
}


def by(placed: Placed, way: tuple[float, float], mm: float) -> Placed:
    blank, x, y, turn = placed
    return blank, x + mm * way[0], y + mm * way[1], turn


@pytest.mark.parametrize("name", CASES)
def test_a_hundredth_too_far_is_told_and_a_hundredth_less_is_sound(name: str) -> None:
    sheet, others, last, way, says = CASES[name]
    bad = told(sheet, *others, by(last, way, OFF))
    assert len(bad) == 1
    assert bad[0].endswith(says) or says in bad[0]
    assert told(sheet, *others, by(last, way, -OFF)) == []
    assert len(told(sheet, by(last, way, OFF), *others)) == 1  # told first, or last
    assert told(sheet, by(last, way, -OFF), *others) == []


@pytest.mark.parametrize("name", CASES)
def test_touching_is_sound(name: str) -> None:
    sheet, others, last, way, _ = CASES[name]
    assert told(sheet, *others, last) == []
    assert told(sheet, *others, by(last, way, TOLERANCE_MM / 4)) == []  # rounding is no fault


@pytest.mark.parametrize(
    ("sheet", "placed", "says"),
    [
        (SHEET, [bar(50, 50), bar(50, 50)], "overlap"),
        (SHEET, [dot(80, 100, 100), dot(80, 100, 100)], "overlap"),
        (SHEET, [(RING, 200, 150, 0), dot(150, 200, 150)], "overlap"),
        (SHEET, [(RING, 200, 150, 0), dot(10, 280, 150)], "overlap"),
        (SHEET, [dot(10, 100, 100), dot(80, 100, 100)], "overlap"),
        (SHEET, [bar(450, 50)], "off the plate"),
        (SHEET, [dot(80, -100, 100)], "off the plate"),
        (SHEET, [bar(350, 50)], "off the plate"),
        (L_PLATE, [dot(60, 300, 250)], "off the plate"),
        (HOLED, [dot(20, 150, 125)], "off the plate"),
        (HOLED, [dot(180, 150, 125)], "off the plate"),
        (HOLED, [bar(100, 100)], "off the plate"),
    ],
)
def test_gross_faults_are_told(sheet: Sheet, placed: list[Placed], says: str) -> None:
    assert any(says in fault for fault in told(sheet, *placed))


def test_an_overlap_is_told_with_both_names_and_what_was_wanted() -> None:
    (fault,) = told(SHEET, bar(50, 50), dot(60, 100, 100))
    assert fault == "dot at (100, 100) and bar at (50, 50) overlap, 0 mm wanted"


def test_a_third_part_is_looked_at_after_one_far_away() -> None:
    """Neighbours in any order: far, near, and near again."""
    three = [bar(50, 50), bar(250, 200), bar(100, 60)]
    for order in itertools.permutations(three):
        assert len(told(SHEET, *order)) == 1
        layout = Layout(SHEET, tuple(Placement(*one) for one in order))
        assert len(list(faults(layout, 5.0, 5.0))) == 1


@pytest.mark.parametrize("gap", [0.0, 0.5, 0.999, 1.0])
def test_gaps_below_a_millimetre_are_told_as_gaps(gap: float) -> None:
    """Nothing between 0 and 1 mm is an overlap; touching is one where a spacing is wanted."""
    layout = Layout(SHEET, (Placement(*bar(50, 50)), Placement(*bar(150 + gap, 50))))
    said = list(faults(layout, 2.0, 5.0))
    assert len(said) == 1
    assert ("overlap" in said[0]) == (gap == 0)
    assert (f"lie {gap:.4f} mm apart, 2 mm wanted" in said[0]) == (gap > 0)
    ring = Layout(SHEET, (Placement(RING, 200, 150, 0), Placement(*dot(120 - 2 * gap, 200, 150))))
    assert ("overlap" in next(faults(ring, 2.0, 5.0))) == (gap == 0)
    aside = Layout(SHEET, (Placement(RING, 200, 150, 0), Placement(*dot(100, 190 + gap, 150))))
    assert ("overlap" in next(faults(aside, 2.0, 5.0))) == (gap == 0)  # touches at its left


BLANKS = [
    disc(60.0),
    RING,
    strip(150.0, 30.0),
    sector(50.0, 70.0, 120.0),
    sector(60.0, 75.0, 330.0),
]
throws = st.lists(
    st.tuples(
        st.sampled_from(BLANKS),
        st.floats(0, 400),
        st.floats(0, 300),
        st.integers(0, 11).map(lambda n: 30.0 * n),
    ),
    min_size=1,
    max_size=2,
)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(throws, st.sampled_from([SHEET, L_PLATE, SLANT, HOLED]))
def test_verdict_is_that_of_the_reference(placed: list[Placed], sheet: Sheet) -> None:
    """A polygon library's verdict on parts a hundredth smaller, or larger, where both agree. A
    ring round a hole of the plate is refused by choice: what it holds would fall out with it."""
    layout = Layout(sheet, tuple(Placement(*one) for one in placed))
    shapes, whole = [on_plate(p) for p in layout.placements], steel(sheet)

    def sound(by_mm: float) -> bool:
        grown = [shape.buffer(by_mm) for shape in shapes]
        apart = all(not a.intersects(b) for a, b in itertools.combinations(grown, 2))
        return apart and all(whole.contains(shape) for shape in grown)

    if sound(-OFF) != sound(OFF):
        return
    cut_out = [shapely.Polygon(ring) for ring in sheet.holes]
    around = any(shapely.Polygon(s.exterior).contains(c) for s in shapes for c in cut_out)
    assert (not told(sheet, *placed)) == (sound(OFF) and not around)


def test_an_offcut_whose_edge_does_not_begin_at_its_bounds_corner() -> None:
    """An offcut drawn away from the origin: what fills it to the edge lies on it."""
    away = offcut("away", [(10.0, 20.0), (210.0, 20.0), (210.0, 120.0), (10.0, 120.0)])
    assert told(away, bar(10, 20), bar(110, 80)) == []
    assert "off the plate" in told(away, bar(10 - OFF, 20))[0]
    assert "off the plate" in told(away, bar(10, 20 - OFF))[0]


def test_a_part_that_leaves_the_plate_at_its_own_corners_is_told() -> None:
    """Two corners on a slanting edge but for the last digit: neither crossing is found there."""
    slant = [(1000.0, 138.81103662006527), (188.92208957980375, 1000.0)]
    corners = [
        (236.68790258140274, 861.7697369686372),
        (407.22158783266997, 680.6999214353624),
        (450.89973580755134, 721.8365157217684),
        (356.082982816849, 823.969913989356),  # beyond the edge
        (280.3660505562841, 902.9063312550431),
    ]
    part = Blank("part", "part", 6.0, polygon(corners))
    sheet = offcut("slanting", [(0.0, 0.0), (1000.0, 0.0), *slant, (0.0, 1000.0)])
    out = shapely.Polygon(corners).difference(shapely.Polygon(sheet.corners))
    assert out.area > 10.0
    (fault,) = told(sheet, (part, 0.0, 0.0, 0.0))
    assert "off the plate" in fault
