"""Marks are made on the steel of their part alone: by a polygon library and by sums."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.cutting.on_steel import on_steel
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop
from tests.nesting.drawn_files import parts_with_holes
from tests.nesting.plates import along as points_along
from tests.nesting.plates import cutting, faceted, plate, strip

EDGE, HOLES = strip(120.0, 40.0).outline, (Circle((60.0, 20.0), 10.0),)
BAR = Blank("bar", "extra", 6.0, EDGE, HOLES)
STAY: tuple[MarkPoint | Line | Arc, ...] = (
    Line((10.0, 0.0), (10.0, 40.0)),  # from edge to edge
    MarkPoint((100.0, 30.0)),
    Arc((60.0, 20.0), 15.0, 0.0, 360.0),
)
LOST: tuple[MarkPoint | Line | Arc, ...] = (
    MarkPoint((60.0, 20.0)),
    MarkPoint((130.0, 20.0)),
    Line((55.0, 20.0), (65.0, 20.0)),
    Line((0.0, 50.0), (120.0, 50.0)),
)


@pytest.mark.parametrize("mark", STAY)
def test_marks_on_the_steel_stay_as_they_are(mark: MarkPoint | Line | Arc) -> None:
    assert on_steel(mark, BAR) == (mark,)


@pytest.mark.parametrize("mark", LOST)
def test_marks_in_a_hole_or_beside_the_part_are_not_made(mark: MarkPoint | Line | Arc) -> None:
    assert on_steel(mark, BAR) == ()


def test_a_bend_line_across_a_hole_and_over_the_edge_is_made_in_pieces() -> None:
    first, last = on_steel(Line((-30.0, 20.0), (110.0, 20.0)), BAR)
    ends = [
        x for line in (first, last) if isinstance(line, Line) for x, _ in (line.start, line.end)
    ]
    assert ends == pytest.approx([0.0, 50.0, 70.0, 110.0], abs=0.1)


@pytest.mark.parametrize("sweep", [360.0, -360.0])
def test_an_arc_keeps_its_centre_and_its_way_round(sweep: float) -> None:
    """A circle of 25 mm about the hole runs over both long edges, 20 mm off its centre: each time
    between the angles whose sine is 20 / 25."""
    arcs = on_steel(Arc((60.0, 20.0), 25.0, 0.0, sweep), BAR)
    assert all(isinstance(a, Arc) and a.centre == (60.0, 20.0) for a in arcs)
    assert all(a.sweep_deg * sweep > 0 for a in arcs if isinstance(a, Arc))
    total = sum(abs(a.sweep_deg) for a in arcs if isinstance(a, Arc))
    assert total == pytest.approx(4 * math.degrees(math.asin(20 / 25)), abs=1.5)


@given(
    parts_with_holes(), st.floats(0, 360), st.floats(-40, 40), st.sampled_from([0.0, 90.0, 320.0])
)
def test_pieces_are_what_a_polygon_library_cuts_out(
    drawn: tuple[Loop, tuple[Loop, ...]], turn: float, off: float, sweep: float
) -> None:
    blank = Blank("lug", "extra", 6.0, *drawn)
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    mark: Line | Arc = Line(
        (-150 * cos - off * sin, -150 * sin + off * cos),
        (150 * cos - off * sin, 150 * sin + off * cos),
    )
    if sweep:
        mark = Arc((off, 0.0), 45.0, turn, sweep)
    holes = shapely.union_all([faceted(hole) for hole in drawn[1]])
    steel = faceted(drawn[0]).difference(holes)
    path = shapely.LineString([*points_along(mark), mark.end])
    lines = [
        shapely.LineString([*points_along(piece), piece.end])
        for piece in on_steel(mark, blank)
        if not isinstance(piece, MarkPoint)
    ]
    made = shapely.union_all(lines)
    assert made.is_empty or steel.buffer(0.1).covers(made)  # nothing covers what is empty
    assert made.is_empty or path.buffer(0.01).covers(made)
    # nothing that lies well in the steel is left out
    rest = path.intersection(steel.buffer(-0.3)).difference(made.buffer(0.02))
    assert all(piece.length < 0.5 for piece in shapely.get_parts(rest))  # each


def test_what_is_not_marked_is_told_of_ones_own_parts(tmp_path: Path) -> None:
    marks: tuple[Mark, ...] = (*STAY, *LOST, Line((30.0, 20.0), (80.0, 20.0)))
    for kind, told in (
        (
            "extra",
            (
                "bar: 5 of 8 marks lie in a hole that is cut or beside the part, or run there: "
                "marked on the steel alone",
            ),
        ),
        ("disc", ()),  # a wheel's parts have centres in their holes by design
    ):
        bar = Blank("bar", kind, 6.0, EDGE, HOLES, marks)
        layout = Layout(plate(500.0, 300.0), (Placement(bar, 50.0, 50.0, 0.0),))
        assert write_sheet_dxf(layout, cutting(mark_names=False), tmp_path / "s.dxf") == told
