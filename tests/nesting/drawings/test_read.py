"""Outlines read back from drawings, against closed forms and what was drawn."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from ezdxf.math import Vec2

from platewheel.nesting.drawings.read import Outline, read_outline
from platewheel.parts.geometry.blank import MarkPoint
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    area_mm2,
    bounds,
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
        "1 entity on hidden layers",
        "2 lines or loops drawn twice",
    ):
        assert words in told
    assert drawn.marks == (Line((10, 10), (40, 10)), MarkPoint((20, 20)))
    assert drawn.outline == polygon([(0, 0), (50, 0), (50, 50), (0, 50)])


@pytest.mark.parametrize("gap", [0.008, 0.04, 0.06, 0.9])
@pytest.mark.parametrize("join_mm", [0.001, 0.05, 1.0])
@pytest.mark.parametrize("unit_mm", [1.0, 25.4])
def test_ends_a_hair_apart_are_joined_and_wider_gaps_told(
    gap: float, join_mm: float, unit_mm: float, tmp_path: Path
) -> None:
    doc = drawing(insunits=4 if unit_mm == 1 else 1)
    space = doc.modelspace()
    for ends in (
        ((0, 0), (50, 0)),
        ((50, gap), (50, 50)),
        ((50, 50), (0, 50)),
        ((0, 50), (0, 0)),
    ):
        space.add_line(*([x / unit_mm, y / unit_mm] for x, y in ends))
    path = save(doc, tmp_path)
    if gap < join_mm:
        assert net_area(read_outline(path, join_mm=join_mm)) == pytest.approx(2500, abs=50 * gap)
        return
    with pytest.raises(ValueError, match=f"close the gap of {gap:g} mm from ") as told:
        read_outline(path, join_mm=join_mm)
    assert f"ends that meet within {join_mm:g} mm" in str(told.value)
    assert f"({50 / unit_mm:.6g}, 0) to ({50 / unit_mm:.6g}, {gap / unit_mm:.6g})" in str(
        told.value
    )


def test_a_line_shorter_than_the_joint_between_two_others_is_no_branch(tmp_path: Path) -> None:
    doc = drawing()
    corners = [(0, 0), (50, 0), (50, 50), (49.98, 50.03), (0, 50)]
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        doc.modelspace().add_line(a, b)
    drawn = read_outline(save(doc, tmp_path), join_mm=0.05)
    assert len(segments(drawn.outline)) == 5
    assert net_area(drawn) == pytest.approx(shapely.Polygon(corners).area)


def test_of_three_ends_that_nearly_meet_none_are_chosen(tmp_path: Path) -> None:
    doc = drawing()
    for a, b in (
        ((0, 0), (50, 0)),
        ((50, 0.03), (50, 50)),
        ((50, 50), (0, 0)),
        ((50.03, 0), (90, -40)),
    ):
        doc.modelspace().add_line(a, b)
    path = save(doc, tmp_path)
    with pytest.raises(ValueError, match=r"leave two of the 3 lines that meet at \(50, 0\)"):
        read_outline(path)
    with pytest.raises(ValueError, match=r"close the gap of 0\.03 mm"):
        read_outline(path, join_mm=0.02)


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
