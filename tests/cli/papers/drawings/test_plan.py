"""The picture of a plate for the machine: its lines where the layout has them, a number a part."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.cli.papers.drawings.plan.frame import BESIDE_MM, Frame, frame_in
from platewheel.cli.papers.drawings.plan.numbers import Label, kept_label, part_numbers
from platewheel.cli.papers.drawings.plan.picture import STYLES, PlateLines, plate_picture
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.outline import Circle, area_mm2
from tests.cli.papers.drawings.test_plate import path_area
from tests.nesting.plates import cutting, disc, offcut, on_plate, plate, sector, strip

SVG = "{http://www.w3.org/2000/svg}"


def group(svg: str, look: str) -> list[str]:
    """Data of the paths of the group that is drawn by this look."""
    (found,) = [one for one in svg.split("<g ")[1:] if one.startswith(STYLES[look])]
    return re.findall(r' d="([^"]+)"', found)


def grid(blanks: list[Blank], pitch_mm: float, turn_deg: float = 0.0) -> Layout:
    """The blanks in rows of ten."""
    at = [(pitch_mm * (0.5 + i % 10), pitch_mm * (0.5 + i // 10)) for i in range(len(blanks))]
    placed = [Placement(b, x, y, turn_deg) for b, (x, y) in zip(blanks, at, strict=True)]
    rows = 1 + (len(blanks) - 1) // 10
    return Layout(plate(10 * pitch_mm, rows * pitch_mm), tuple(placed))


def drawn(layout: Layout, cut: Cutting, wide: float = 200.0, high: float = 110.0) -> str:
    frame = frame_in(layout.sheet, wide, high)
    lines = PlateLines(layout.sheet, sheet_cuts(layout, cut).parts, cut.sheet_margin_mm)
    return plate_picture(lines, frame)


@given(
    st.tuples(st.floats(200, 3000), st.floats(200, 3000)),
    st.tuples(st.floats(0, 3000), st.floats(0, 3000)),
)
def test_a_place_on_the_paper_leads_back_to_the_plate(
    sides: tuple[float, float], point: tuple[float, float]
) -> None:
    frame = frame_in(plate(*sides), 200.0, 110.0)
    assert max(a - b for a, b in zip(frame.size_mm, (200.0, 110.0), strict=True)) < 1e-9
    assert frame.back(frame.at(point)) == pytest.approx(point, abs=1e-6)
    assert frame.at((0.0, 0.0)) == pytest.approx((BESIDE_MM, frame.size_mm[1] - BESIDE_MM))


@pytest.mark.parametrize("tabs", [0, 3])
def test_parts_and_holes_are_drawn_to_scale(tabs: int) -> None:
    blanks = [
        disc(80.0, holes=(Circle((0.0, 0.0), 12.0),)),
        strip(60.0, 20.0),
        sector(30.0, 40.0, 200.0),
    ]
    layout = grid(blanks, 130.0)
    svg = drawn(layout, cutting(tab_count=tabs))
    scale = frame_in(layout.sheet, 200.0, 110.0).scale
    bodies = group(svg, "part")
    assert len(bodies) == 3
    expected = {area_mm2(b.outline): b for b in blanks}
    for data in bodies:
        loops = [f"M{loop}" for loop in data.split("M") if loop]
        areas = [path_area(loop) / scale**2 for loop in loops]
        own = min(expected, key=lambda area: abs(area - areas[0]))
        assert areas[0] == pytest.approx(own, rel=2e-4)
        holes = [area_mm2(hole) for hole in expected[own].holes]
        assert areas[1:] == pytest.approx(holes, rel=1e-3)
    assert svg.count(STYLES["tab"]) == bool(tabs)
    assert not tabs or len(group(svg, "tab")) == 3 * tabs


def test_the_corner_0_0_is_below_at_the_left_and_x_runs_along() -> None:
    layout = Layout(plate(500.0, 300.0), (Placement(disc(60.0), 40.0, 40.0, 0.0),))
    frame = frame_in(layout.sheet, 200.0, 110.0)
    root = ElementTree.fromstring(drawn(layout, cutting()))
    largest = max(root.iter(f"{SVG}circle"), key=lambda one: float(one.attrib["r"]))
    x, y = float(largest.attrib["cx"]), float(largest.attrib["cy"])
    high = frame.size_mm[1]
    assert (x, y) == pytest.approx((BESIDE_MM, high - BESIDE_MM))
    assert frame.at((500.0, 0.0))[0] > x
    assert frame.at((0.0, 300.0))[1] < y


def test_the_margin_follows_the_edge_of_an_offcut_and_its_hole() -> None:
    edge = [(0.0, 0.0), (600.0, 0.0), (600.0, 200.0), (300.0, 200.0), (300.0, 400.0), (0.0, 400.0)]
    hole = ((40.0, 40.0), (90.0, 40.0), (90.0, 90.0), (40.0, 90.0))
    sheet = offcut("corner", edge, (hole,))
    layout = Layout(sheet, (Placement(disc(60.0), 450.0, 100.0, 0.0),))
    rings = group(drawn(layout, cutting(margin_mm=10.0)), "margin")
    scale = frame_in(sheet, 200.0, 110.0).scale
    areas = sorted(path_area(ring) / scale**2 for ring in rings)
    # by hand: the hole 70 x 70; the L of 580 x 180 and 280 x 200 above it
    assert areas == pytest.approx([4900.0, 580.0 * 180 + 280 * 200], rel=1e-3)


def test_centres_to_drill_are_crosses_on_steel_alone() -> None:
    marks = (MarkPoint((20.0, 0.0)), MarkPoint((0.0, 0.0)), MarkPoint((300.0, 0.0)))
    blank = replace(disc(80.0, holes=(Circle((0.0, 0.0), 12.0),)), marks=marks)
    layout = Layout(plate(500.0, 300.0), (Placement(blank, 100.0, 100.0, 90.0),))
    (cross,) = group(drawn(layout, cutting()), "mark")
    x, y = map(float, re.findall(r"-?[\d.]+", cross)[:2])
    at = frame_in(layout.sheet, 200.0, 110.0).at((100.0, 120.0))
    assert (x, y) == pytest.approx((at[0] - 0.9, at[1]), abs=1e-3)


def area(label: Label) -> shapely.Polygon:
    return shapely.Polygon(label.corners())


@settings(max_examples=8)
@given(
    st.lists(st.floats(14.0, 90.0), min_size=1, max_size=30),
    st.floats(500.0, 4000.0),
    st.floats(0.0, 360.0),
)
def test_a_number_stands_in_its_part_or_points_at_it(
    sizes: list[float], length: float, turn: float
) -> None:
    """By the reference's own outlines: inside, or beside all parts with its line ending inside;
    and no two numbers on each other."""
    blanks = [sector(0.35 * d, 0.5 * d, 120.0 + d) if d > 40 else disc(d) for d in sizes]
    layout = grid(blanks, 100.0, turn)
    layout = replace(layout, sheet=plate(length, layout.sheet.width_mm))
    parts = sheet_cuts(layout, cutting()).parts
    frame = frame_in(layout.sheet, 200.0, 110.0)
    numbers = part_numbers(parts, frame)
    assert [n.text for n in numbers] == [str(i) for i in range(1, len(sizes) + 1)]
    shapes = [paper(on_plate(part.placement), frame) for part in parts]
    for number, shape in zip(numbers, shapes, strict=True):
        if number.to is None:
            inside = shape.buffer(0.01).contains(area(number))
            assert inside or number.size_pt < 5
            assert shape.intersects(area(number))
        else:
            assert shape.contains(shapely.Point(number.to))
            assert not any(other.intersects(area(number)) for other in shapes)
    met = [(a.text, b.text) for a, b in combinations(numbers, 2) if area(a).intersects(area(b))]
    assert met == []


def paper(shape: shapely.Polygon, frame: Frame) -> shapely.Polygon:
    rings = [shape.exterior, *shape.interiors]
    edge, *holes = ([frame.at(corner) for corner in ring.coords] for ring in rings)
    return shapely.Polygon(edge, holes)


@pytest.mark.parametrize("turn", [45.0, -45.0, 90.0])
def test_a_text_turns_as_it_is_read_counter_clockwise(turn: float) -> None:
    """The middle of its right end: right and up of its middle, on paper whose y runs down."""
    corners = Label("1234", 50.0, 50.0, 10.0, None, turn).corners()
    x, y = ((a + b) / 2 - 50.0 for a, b in zip(corners[1], corners[2], strict=True))
    assert math.degrees(math.atan2(-y, x)) == pytest.approx(turn)


def test_a_number_keeps_off_the_cross_of_a_centre() -> None:
    blank = replace(strip(90.0, 40.0), marks=(MarkPoint((45.0, 20.0)),))
    layout = Layout(plate(500.0, 300.0), (Placement(blank, 100.0, 100.0, 0.0),))
    frame = frame_in(layout.sheet, 200.0, 110.0)
    (number,) = part_numbers(sheet_cuts(layout, cutting()).parts, frame)
    assert number.to is None
    assert area(number).distance(shapely.Point(frame.at((145.0, 120.0)))) > 0.9


@pytest.mark.parametrize("web_mm", [0.001, 0.3, 1.0])
def test_a_part_whose_holes_all_but_meet_has_its_number(web_mm: float) -> None:
    """Polygons about the two circles cross where the web is thinner than they stand off."""
    holes = (Circle((20.0, 25.0), 5.0), Circle((30.0 + web_mm, 25.0), 5.0))
    blank = replace(strip(80.0, 50.0), holes=holes)
    layout = Layout(plate(500.0, 300.0), (Placement(blank, 100.0, 100.0, 0.0),))
    frame = frame_in(layout.sheet, 200.0, 110.0)
    (number,) = part_numbers(sheet_cuts(layout, cutting()).parts, frame)
    assert number.to is None
    assert area(number).distance(shapely.Point(frame.at((120.0, 125.0)))) > 5.0 * frame.scale


@pytest.mark.parametrize(
    ("ring", "turn"),
    [
        ([(0.0, 0.0), (400.0, 0.0), (400.0, 60.0), (0.0, 60.0)], 0.0),
        ([(0.0, 0.0), (60.0, 0.0), (60.0, 280.0), (0.0, 280.0)], 90.0),
    ],
)
def test_the_name_of_what_is_kept_lies_along_it(
    ring: list[tuple[float, float]], turn: float
) -> None:
    frame = frame_in(plate(500.0, 300.0), 200.0, 110.0)
    label = kept_label(("pond-line 4DR4-1", "4DR4-1"), ring, (), frame)
    assert (label.text, label.turn_deg) == ("pond-line 4DR4-1", turn)
    assert shapely.Polygon([frame.at(corner) for corner in ring]).contains(area(label))


def test_a_small_piece_has_the_end_of_its_name() -> None:
    frame = frame_in(plate(2500.0, 1250.0), 200.0, 110.0)
    ring = [(0.0, 0.0), (160.0, 0.0), (160.0, 150.0), (0.0, 150.0)]
    label = kept_label(("a-long-name-of-a-railway 4DR4-1", "4DR4-1"), ring, (), frame)
    assert label.text == "4DR4-1"
