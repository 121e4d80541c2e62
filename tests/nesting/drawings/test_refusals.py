"""What the refusal of a drawing says: that there is one, and what it names."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from tests.nesting.drawn_files import drawing, save


@pytest.mark.parametrize("draw", ["square", "line", "circle", "zero circle", "beside words"])
def test_a_part_too_small_for_any_line_is_refused(draw: str, tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    if draw in ("square", "beside words"):
        space.add_lwpolyline([(0, 0), (0.005, 0), (0.005, 0.005), (0, 0.005)], close=True)
    elif draw == "line":
        space.add_line((0, 0), (0.001, 0))
    else:
        space.add_circle((5, 5), 0.0 if draw == "zero circle" else 0.004)
    if draw == "beside words":
        space.add_text("B2", height=5, dxfattribs={"layer": "mark"})
    with pytest.raises(SpecError) as refusal:
        read_outline(save(doc, tmp_path))
    (fault,) = refusal.value.faults
    assert "closed lines longer than 0.01 mm; all that are drawn are shorter" in fault.allowed
    assert "the key unit" in fault.advice


def test_what_is_there_instead_of_lines_is_named(tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    space.add_text("B2", height=5)
    space.add_hatch().paths.add_polyline_path([(0, 0), (50, 0), (50, 50)], is_closed=True)
    space.add_line((0, 0), (9, 0), dxfattribs={"layer": "mark"})
    with pytest.raises(SpecError) as refusal:
        read_outline(save(doc, tmp_path))
    (fault,) = refusal.value.faults
    assert "none are drawn: 1 HATCH left out, 1 TEXT left out, 1 mark" in fault.allowed


def test_a_place_where_loops_touch_is_told_once(tmp_path: Path) -> None:
    """An hourglass: four edges meet in its middle, so two pairs of them cross and touch there."""
    doc = drawing()
    corners = [(0, 0), (100, 0), (50, 50), (100, 100), (0, 100), (50, 50)]
    doc.modelspace().add_lwpolyline(corners, close=True)
    with pytest.raises(SpecError) as refusal:
        read_outline(save(doc, tmp_path))
    (fault,) = refusal.value.faults
    assert fault.advice == "part the lines at (50, 50)"


@pytest.mark.parametrize("number", [math.nan, math.inf])
@pytest.mark.parametrize("kind", ["LWPOLYLINE", "CIRCLE", "ARC", "SPLINE"])
def test_a_number_that_is_none_is_named_so(kind: str, number: float, tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    if kind == "LWPOLYLINE":
        space.add_lwpolyline([(0, 0), (number, 0), (9, 9)], close=True)
    elif kind == "CIRCLE":
        space.add_circle((0, 0), number)
    elif kind == "ARC":
        space.add_arc((0, 0), 9, 0, number)
    else:
        space.add_spline().control_points = [(0, 0, 0), (9, number, 0), (9, 9, 0), (0, 9, 0)]
    with pytest.raises(SpecError) as refusal:
        read_outline(save(doc, tmp_path))
    (fault,) = refusal.value.faults
    assert f"1 {kind} with NaN or infinity among its numbers" in fault.advice


@pytest.mark.parametrize("side", [0.011, 0.02, 0.5])
def test_a_drawing_in_another_unit_is_called_too_small(side: float, tmp_path: Path) -> None:
    """And not one of loops too slender, which its loops are too."""
    doc = drawing()
    doc.modelspace().add_lwpolyline([(0, 0), (side, 0), (side, side), (0, side)], close=True)
    with pytest.raises(SpecError) as refusal:
        read_outline(save(doc, tmp_path))
    (fault,) = refusal.value.faults
    assert f"a part of 1 to 30000 mm; this is {side:g} x {side:g} mm" in fault.allowed


def test_a_name_longer_than_any_file_has_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as refusal:
        read_outline(tmp_path / ("n" * 900 + ".dxf"))
    (fault,) = refusal.value.faults
    assert "no such file is there" in fault.advice
