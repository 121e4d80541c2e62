"""Holes for the drill: which are too small to cut, and the next drill that there is."""

from __future__ import annotations

import pytest

from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.small_holes import marked_holes
from platewheel.nesting.templates.drill import RoundHoles, drill_size, least_source, round_holes
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, polygon


def plate(*holes: Circle) -> Blank:
    edge = polygon([(0, 0), (250, 0), (250, 100), (0, 100)])
    slot = (*polygon([(200, 40), (240, 40), (240, 60), (200, 60)]),)
    return Blank("plate", "extra", 8.0, edge, (*holes, slot))


TWO_ARCS = (Arc((150.0, 50.0), 5.0, 0.0, 180.0), Arc((150.0, 50.0), 5.0, 180.0, 180.0))


@pytest.mark.parametrize("process", ["plasma", "laser", "oxy-fuel", "hand"])
def test_drilled_are_those_that_the_sheet_only_marks(process: str) -> None:
    blank = plate(*(Circle((24.0 * i, 50.0), d / 2) for i, d in enumerate((6, 10, 10, 14, 30), 1)))
    blank = Blank("plate", "extra", 8.0, blank.outline, (*blank.holes, TWO_ARCS))
    cutting = Cutting(process=process)
    found = round_holes(blank, cutting)
    assert [(hole.diameter_mm, hole.count) for hole in found] == [(6, 1), (10, 3), (14, 1), (30, 1)]
    marked = {row.diameter_mm for row in marked_holes([blank], cutting)}
    assert {hole.diameter_mm for hole in found if hole.drilled} == marked


def test_rule_of_the_job_file_goes_first() -> None:
    cutting = Cutting(process="laser", least_hole_mm=20.0)
    assert round_holes(plate(Circle((50.0, 50.0), 9.0)), cutting) == (RoundHoles(18.0, 1, True),)
    assert "least_hole_mm" in least_source(cutting)
    assert "1.5 t" in least_source(Cutting(process="plasma"))


# Metric drills: steps of 0.1 mm up to 14, of 0.25 mm above (ISO 235, from memory). Inch drills:
# 1/64 steps, decimal equivalents as on any drill chart: 13/32 = 10.319, 41/64 = 16.272 mm.
@pytest.mark.parametrize(
    ("hole", "metric", "inch"),
    [
        (10.0, "drill 10 mm", "drill 13/32 in"),
        (16.0, "drill 16 mm", "drill 41/64 in"),
        (10.25, "drill 10.3 mm", "drill 13/32 in"),
        (16.3, "drill 16.5 mm", "drill 21/32 in"),
        (25.4, "drill 25.5 mm", "drill 1 in"),
        (52.5, "hole saw, or bore it", "hole saw, or bore it"),
    ],
)
def test_next_drill(hole: float, metric: str, inch: str) -> None:
    assert (drill_size(hole, "mm"), drill_size(hole, "inch")) == (metric, inch)
