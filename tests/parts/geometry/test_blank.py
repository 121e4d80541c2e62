"""Blanks drawn by a user: the way round in which a loop is given makes no difference."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Loop,
    area_mm2,
    polygon,
    reversed_loop,
    signed_area_mm2,
)

CORNERS = [(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (0.0, 80.0)]
SQUARE = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)]
SLOT: Loop = (  # 40 x 20 with round ends of radius 10
    Line((30.0, 30.0), (70.0, 30.0)),
    Arc((70.0, 40.0), 10.0, -90.0, 180.0),
    Line((70.0, 50.0), (30.0, 50.0)),
    Arc((30.0, 40.0), 10.0, 90.0, 180.0),
)


def plate(clockwise: bool, hole_clockwise: bool) -> Blank:
    edge = polygon(CORNERS)
    return Blank(
        "plate",
        "extra",
        6.0,
        reversed_loop(edge) if clockwise else edge,
        (reversed_loop(SLOT) if hole_clockwise else SLOT,),
    )


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("hole_clockwise", [False, True])
def test_loops_are_kept_counter_clockwise(clockwise: bool, hole_clockwise: bool) -> None:
    blank = plate(clockwise, hole_clockwise)
    assert signed_area_mm2(blank.outline) == pytest.approx(8000.0)
    assert signed_area_mm2(blank.holes[0]) == pytest.approx(800.0 + 3.14159265358979 * 100)


@given(kerf=st.floats(0.2, 4.0), clockwise=st.booleans(), hole_clockwise=st.booleans())
def test_the_torch_runs_outside_the_outline_and_inside_the_hole(
    kerf: float, clockwise: bool, hole_clockwise: bool
) -> None:
    """Steiner: an outline moved outward by d grows by length x d + pi d2; the slot, round at its
    ends, shrinks by length x d - pi d2."""
    blank, d, pi = plate(clockwise, hole_clockwise), kerf / 2, 3.14159265358979
    outer = area_mm2(torch_path(blank.outline, kerf, hole=False))
    inner = area_mm2(torch_path(blank.holes[0], kerf, hole=True))
    assert outer == pytest.approx(8000 + 360 * d + pi * d**2)
    assert inner == pytest.approx(800 + 100 * pi - (80 + 20 * pi) * d + pi * d**2)


def test_equal_blanks_are_one_to_a_set_whatever_else_is_known_of_them() -> None:
    """Their hash is made of their area, not of all their corners."""
    ring = polygon([(0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (0.0, 10.0)])
    one = Blank("plate", "extra", 6.0, ring, sizes={"long_mm": 30.0})
    assert one.area_mm2 == 300.0
    twin, wider = Blank("plate", "extra", 6.0, ring), replace(one, outline=polygon(SQUARE))
    assert len({one, twin, wider}) == 2
    assert wider.area_mm2 == 400.0
    assert wider.bounds == (0.0, 0.0, 20.0, 20.0)
    assert wider.cut_length_mm == 80.0
