"""Outlines read back from drawings, against closed forms and what was drawn."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from ezdxf.math import Vec2, rational_bspline_from_arc

from platewheel.nesting.drawings.read import Outline, read_outline
from platewheel.parts.geometry.blank import MarkPoint
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    area_mm2,
    bounds,
    moved,
    polygon,
    segments,
)
from tests.nesting.drawn_files import add_loose, drawing, save
from tests.nesting.plates import faceted


def net_area(drawn: Outline) -> float:
    return area_mm2(drawn.outline) - math.fsum(area_mm2(hole) for hole in drawn.holes)


def square(doc, x: float, y: float, side: float, **more) -> None:
    corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    doc.modelspace().add_lwpolyline(corners, close=True, **more)


def test_an_inch_is_25_4_mm(tmp_path: Path) -> None:
    # International yard and pound agreement, 1959: 1 inch = 25.4 mm exactly
    doc = drawing(insunits=1)
    square(doc, 3, 3, 2)
    doc.modelspace().add_circle((4, 4), 0.5)
    drawn = read_outline(save(doc, tmp_path))
    assert net_area(drawn) == pytest.approx((4 - math.pi / 4) * 645.16, rel=1e-12)
    assert drawn.holes == (Circle((pytest.approx(25.4), pytest.approx(25.4)), pytest.approx(12.7)),)
    assert drawn.notes == ()


@pytest.mark.parametrize(
    ("version", "insunits", "unit", "side_mm"),
    [("R2000", 0, "file", 2), ("R12", None, "file", 2), ("R12", None, "cm", 20)],
)
def test_no_unit_is_mm_and_told(version, insunits, unit, side_mm, tmp_path: Path) -> None:
    doc = drawing(version, insunits)
    doc.modelspace().add_polyline2d([(0, 0), (2, 0), (2, 2), (0, 2)], close=True)
    drawn = read_outline(save(doc, tmp_path), unit)
    assert net_area(drawn) == pytest.approx(side_mm**2)
    assert ("the drawing names no unit: taken as mm" in drawn.notes) == (unit == "file")


def test_a_bulge_of_more_than_half_a_turn(tmp_path: Path) -> None:
    # circle of radius 10 less the segment beyond a chord at 5 from its centre: closed form
    doc = drawing()
    half = math.sqrt(75)
    sweep = 2 * math.pi - 2 * math.acos(0.5)
    doc.modelspace().add_lwpolyline(
        [(-half, -5, 0), (half, -5, math.tan(sweep / 4))], format="xyb", close=True
    )
    drawn = read_outline(save(doc, tmp_path))
    assert net_area(drawn) == pytest.approx(100 * (sweep - math.sin(sweep)) / 2, rel=1e-9)


@pytest.mark.parametrize("split", [[0, 360], [10, 370], [0, 90, 200, 360]])
def test_arcs_of_one_circle_are_a_circle(split: list[float], tmp_path: Path) -> None:
    doc = drawing()
    for first, last in pairwise(split):
        doc.modelspace().add_arc((5, 5), 40, first, last)
    drawn = read_outline(save(doc, tmp_path))
    assert isinstance(drawn.outline, Circle)
    assert drawn.outline.radius_mm == pytest.approx(40, abs=1e-9)
    assert drawn.outline.centre == pytest.approx((40, 40), abs=1e-9)


def test_ellipses_and_splines_by_chords_within_the_tolerance_told(tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    space.add_ellipse((0, 0), (60, 0), ratio=0.5)
    ring = rational_bspline_from_arc((0, 0), 20, 0, 360)  # a circle without loss
    space.add_spline().apply_construction_tool(ring)
    drawn = read_outline(save(doc, tmp_path))
    assert area_mm2(drawn.outline) == pytest.approx(math.pi * 60 * 30, abs=0.02 * 2 * math.pi * 50)
    assert area_mm2(drawn.holes[0]) == pytest.approx(math.pi * 400, abs=0.02 * 2 * math.pi * 20)
    hole = moved(drawn.holes[0], -60, -30)
    for s in segments(hole):
        middle = ((s.start[0] + s.end[0]) / 2, (s.start[1] + s.end[1]) / 2)
        assert 20 - 0.02 <= math.hypot(*middle) <= 20 + 1e-6
    assert [note for note in drawn.notes if "0.02 mm" in note and "ELLIPSE" in note]
    assert [note for note in drawn.notes if "0.02 mm" in note and "SPLINE" in note]


@pytest.mark.parametrize(
    ("insert", "factor"),
    [
        ({}, 1),
        ({"rotation": 33}, 1),
        ({"xscale": -1}, 1),
        ({"xscale": -2, "yscale": 2, "rotation": 10}, 4),
        ({"xscale": 3, "yscale": 2}, 6),
    ],
)
def test_blocks_are_taken_apart(insert: dict, factor: float, tmp_path: Path) -> None:
    doc = drawing()
    inner, outer = doc.blocks.new("inner"), doc.blocks.new("outer")
    inner.add_circle((10, 12), 4)
    outer.add_blockref("inner", (5, 0))
    slot = (
        Line((0, 0), (30, 0)),
        Arc((30, 15), 15, -90, 180),
        Line((30, 30), (0, 30)),
        Arc((0, 15), 15, 90, 180),
    )
    add_loose(outer, [slot])
    doc.modelspace().add_blockref("outer", (100, -7), dxfattribs=insert)
    drawn = read_outline(save(doc, tmp_path))
    area = 30 * 30 + math.pi * 225 - math.pi * 16  # a slot and its hole
    exact = factor != 6
    assert net_area(drawn) == pytest.approx(factor * area, abs=1e-6 if exact else 0.02 * 400)
    assert isinstance(drawn.holes[0], Circle) == exact


def test_a_plane_seen_from_behind_is_turned_face_up(tmp_path: Path) -> None:
    doc = drawing()
    behind = {"extrusion": (0, 0, -1)}  # x of its own plane runs the other way
    doc.modelspace().add_arc((0, 0), 20, 90, 270, dxfattribs=behind)  # so this bulges to +x
    doc.modelspace().add_line((0, -20), (0, 20))
    drawn = read_outline(save(doc, tmp_path))
    assert bounds(drawn.outline) == pytest.approx((0, 0, 20, 40))
    arc = next(s for s in segments(drawn.outline) if isinstance(s, Arc))
    assert arc.centre == pytest.approx((0, 20))


def test_what_is_left_out_is_told(tmp_path: Path) -> None:
    doc = drawing()
    square(doc, 0, 0, 50)
    space = doc.modelspace()
    space.add_text("bracket")
    space.add_point((1, 1))
    doc.layers.add("aids").off()
    space.add_line((-100, 0), (100, 3), dxfattribs={"layer": "aids"})
    space.add_line((0, 50), (50, 50))  # over an edge
    space.add_line((10, 10), (40, 10), dxfattribs={"layer": "Mark"})
    space.add_point((20, 20), dxfattribs={"layer": "mark"})
    square(doc, 0, 0, 50)
    drawn = read_outline(save(doc, tmp_path))
    told = "; ".join(drawn.notes)
    for words in (
        "1 TEXT left out",
        "1 POINT left out",
        "1 entities on hidden layers",
        "2 lines or loops drawn twice",
    ):
        assert words in told
    assert drawn.marks == (Line((10, 10), (40, 10)), MarkPoint((20, 20)))
    assert drawn.outline == polygon([(0, 0), (50, 0), (50, 50), (0, 50)])


def test_ends_a_hair_apart_are_joined_and_wider_gaps_told(tmp_path: Path) -> None:
    for gap, fits in ((0.008, True), (0.02, False)):
        doc = drawing()
        space = doc.modelspace()
        for a, b in (
            ((0, 0), (50, 0)),
            ((50, gap), (50, 50)),
            ((50, 50), (0, 50)),
            ((0, 50), (0, 0)),
        ):
            space.add_line(a, b)
        path = save(doc, tmp_path)
        if fits:
            assert net_area(read_outline(path)) == pytest.approx(2500, abs=50 * gap)
        else:
            with pytest.raises(
                ValueError, match=r"gap of 0\.02 mm from \(50, 0\) to \(50, 0\.02\)"
            ):
                read_outline(path)


def test_a_fillet_rounded_to_few_digits_is_no_crossing(tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    r, low = 10.0, 9.999  # the line dips into its own fillet by a thousandth
    space.add_line((0, 0), (100, 0))
    space.add_line((100, 0), (100, 60))
    space.add_line((100, 60), (r, 59.9995))
    space.add_arc((r, 60 - low), low, 90, 180)
    space.add_line((r - low, 60 - low), (0, 0))
    drawn = read_outline(save(doc, tmp_path))
    whole = 6000 - (1 - math.pi / 4) * 100
    assert net_area(drawn) == pytest.approx(whole, abs=0.2)
    assert faceted(drawn.outline).buffer(0).area == pytest.approx(whole, abs=0.2)
    assert shapely.Point(50, 30).within(faceted(drawn.outline))


def test_frame_points_of_a_fit_polyline_are_no_corners(tmp_path: Path) -> None:
    doc = drawing("R12", None)
    line = doc.modelspace().add_polyline2d(
        [Vec2(0, 0), Vec2(40, 0), Vec2(40, 40), Vec2(0, 40)], close=True
    )
    line.append_vertex((99, 99), {"flags": 16})
    assert len(line.vertices) == 5
    assert net_area(read_outline(save(doc, tmp_path))) == pytest.approx(1600)
