"""Many short lines as arcs: within what is told of them, against closed forms."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from hypothesis import given, settings

from platewheel.nesting.drawings.curve_arcs import CURVE_MM
from platewheel.nesting.drawings.narrow_places import region_of
from platewheel.nesting.drawings.read import MOST_EDGES, read_outline
from platewheel.nesting.drawings.short_lines import by_arcs
from platewheel.parts.geometry.outline import Arc, Circle, Line, area_mm2, polygon, segments
from tests.nesting.drawn_files import drawing, parts_with_holes, save


def stadium(count: int) -> list[tuple[float, float]]:
    """Two half turns of radius 20, each by `count` lines, and two straight edges of 60."""
    left = [math.pi / 2 + math.pi * i / count for i in range(count + 1)]
    right = [-math.pi / 2 + math.pi * i / count for i in range(count + 1)]
    return [
        *((20 * math.cos(t) - 30, 20 * math.sin(t)) for t in left),
        *((20 * math.cos(t) + 30, 20 * math.sin(t)) for t in right),
    ]


@pytest.mark.parametrize("count", [40, 400, 4000])
def test_half_turns_and_straight_edges_are_found(count: int) -> None:
    loop = by_arcs(polygon(stadium(count)))
    edges = segments(loop)
    assert len(edges) <= 16
    assert area_mm2(loop) == pytest.approx(60 * 40 + math.pi * 400, rel=2e-3)
    off = region_of(loop).boundary.hausdorff_distance(shapely.Polygon(stadium(count)).boundary)
    assert off <= CURVE_MM + 1e-3
    assert sum(edge.length_mm for edge in edges if isinstance(edge, Line)) > 100
    assert any(isinstance(edge, Arc) and abs(edge.radius_mm - 20) < 0.1 for edge in edges)


def test_corners_stay_and_loops_with_arcs_are_left() -> None:
    square = polygon([(0, 0), (100, 0), (100, 50), (0, 50)])
    assert by_arcs(square) == square
    assert by_arcs(Circle((0, 0), 5)) == Circle((0, 0), 5)
    mixed = (Line((-5, 0), (5, 0)), Arc((0, 0), 5, 0, 180))
    assert by_arcs(mixed) is mixed


@settings(max_examples=20)
@given(parts_with_holes())
def test_a_finely_drawn_part_stays_within_the_tolerance(part: object) -> None:
    outline, _ = part  # type: ignore[misc]
    fine = region_of(outline)
    loop = by_arcs(polygon(list(fine.exterior.coords)[:-1]))
    back = region_of(loop)
    assert back.boundary.hausdorff_distance(fine.boundary) <= CURVE_MM + 2e-3
    assert len(segments(loop)) <= 12 * len(segments(outline))


def test_a_drawing_of_too_many_short_lines_is_read_and_told(tmp_path: Path) -> None:
    doc = drawing()
    points = stadium(MOST_EDGES)
    for a, b in pairwise([*points, points[0]]):
        doc.modelspace().add_line(a, b)
    drawn = read_outline(save(doc, tmp_path))
    count = len(segments(drawn.outline))
    assert count <= 16
    assert area_mm2(drawn.outline) == pytest.approx(60 * 40 + math.pi * 400, rel=1e-3)
    lines = 2 * MOST_EDGES + 2
    assert f"{lines} lines drawn by {count} arcs and lines within 0.02 mm of them" in drawn.notes
