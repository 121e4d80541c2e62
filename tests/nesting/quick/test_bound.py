"""The bound on plates: a number that no nest goes below, and proofs where it is reached."""

from __future__ import annotations

import math

import pytest
import shapely

from platewheel.nesting.quick.bound import plate_bounds, widened_mm2
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Layout, Placement, Sheet, Wanted
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle, Loop, polygon, segments

CUTTING = Cutting(part_spacing_mm=6.0, sheet_margin_mm=10.0)


def faceted(loop: Loop) -> shapely.Polygon:
    points = []
    for segment in segments(loop):
        steps = 400
        for i in range(steps):
            if hasattr(segment, "centre"):
                points.append(segment.at(segment.start_deg + segment.sweep_deg * i / steps))
            else:
                (ax, ay), (bx, by) = segment.start, segment.end
                points.append((ax + (bx - ax) * i / steps, ay + (by - ay) * i / steps))
    return shapely.Polygon(points)


@pytest.mark.parametrize(
    "loop",
    [
        Circle((0.0, 0.0), 60.0),
        polygon([(0.0, 0.0), (300.0, 0.0), (300.0, 40.0), (0.0, 40.0)]),
        annular_sector(150.0, 170.0, 110.0),
        annular_sector(150.0, 170.0, 340.0),
        annular_sector(150.0, 170.0, 358.5),
    ],
    ids=["disc", "strip", "segment", "cone", "narrow mouth"],
)
def test_widened_area_is_never_too_much(loop: Loop) -> None:
    """Against shapely's buffer of the outline on fine facets."""
    blank = Blank("part", "disc", 6.0, loop)
    true = faceted(loop).buffer(3.0, quad_segs=64).area
    assert 0.97 * true < widened_mm2(blank, 6.0) <= true * (1 + 1e-4)


def test_strips_that_fill_a_plate_are_proved_least() -> None:
    strip = Blank("tread", "tread", 6.0, polygon([(0, 0), (380.0, 0), (380.0, 45.0), (0, 45.0)]))
    sheet = Sheet("one", 6.0, 400.0, 167.0, None, 0.0)  # three strips: 10 + 3 x 45 + 2 x 6 + 10
    found = nest([Wanted(strip, 9)], [sheet], CUTTING)
    (bound,) = plate_bounds(found.layouts, [sheet], CUTTING)
    assert (bound.used, bound.least, bound.proved) == (3, 3, True)


def test_plates_half_empty_are_not_proved() -> None:
    disc = Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 60.0))
    sheet = Sheet("one", 6.0, 400.0, 400.0, None, 0.0)
    layouts = [Layout(sheet, (Placement(disc, 100.0, 100.0, 0.0),), 3)]
    (bound,) = plate_bounds(layouts, [sheet], CUTTING)
    assert math.pi * 63.0**2 * 3 < 386.0**2  # all three on one plate, by area
    assert (bound.used, bound.least, bound.proved) == (3, 1, False)


def test_no_bound_over_several_sizes() -> None:
    disc = Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 60.0))
    sheets = [Sheet(n, 6.0, x, 400.0, None, 0.0) for n, x in (("a", 400.0), ("b", 500.0))]
    layouts = [Layout(sheets[0], (Placement(disc, 100.0, 100.0, 0.0),))]
    assert plate_bounds(layouts, sheets, CUTTING) == ()


def test_an_offcut_counts_as_filled() -> None:
    disc = Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 60.0))
    corners = ((0.0, 0.0), (900.0, 0.0), (900.0, 900.0), (0.0, 900.0))
    offcut = Sheet("left", 6.0, 900.0, 900.0, 1, 0.0, edge=corners)
    sheet = Sheet("one", 6.0, 400.0, 400.0, None, 0.0)
    layouts = [
        Layout(offcut, (Placement(disc, 100.0, 100.0, 0.0),)),
        Layout(sheet, (Placement(disc, 100.0, 100.0, 0.0),), 2),
    ]
    (bound,) = plate_bounds(layouts, [offcut, sheet], CUTTING)
    assert bound.least == 1


def test_parts_in_holes_take_no_more_of_the_plate() -> None:
    """Counted beside their holder they would need a second plate, which the nest does without."""
    ring = Blank("ring", "disc", 6.0, Circle((0.0, 0.0), 100.0), (Circle((0.0, 0.0), 85.0),))
    cap = Blank("cap", "disc", 6.0, Circle((0.0, 0.0), 20.0))
    sheet = Sheet("one", 6.0, 222.0, 222.0, None, 0.0)
    found = nest([Wanted(ring, 2), Wanted(cap, 14)], [sheet], CUTTING, effort="quick")
    assert sum(layout.repeat for layout in found.layouts) == 2
    assert math.pi * (103.0**2 + 7 * 23.0**2) > 208.0**2
    (bound,) = plate_bounds(found.layouts, [sheet], CUTTING)
    assert bound.least <= bound.used == 2
