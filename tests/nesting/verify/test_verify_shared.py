"""Strips that share a line: a kerf apart, edge to whole edge, and nothing else so near."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.stock.layout import Layout, NestingError, Placement
from platewheel.nesting.verify.verify import faults, verify
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import moved_point, polygon
from tests.nesting.plates import disc, plate, strip

KERF, SPACING, MARGIN = 1.5, 6.0, 10.0
STRIP = strip(200.0, 40.0)


def two(gap: float = KERF, along: float = 0.0, turn: float = 0.0, *more: Placement) -> Layout:
    """At 150, 150 and turned there; the second beside the long edge of the first."""
    u, v = moved_point((along, 40.0 + gap), 150.0, 150.0, turn)
    placed = (Placement(STRIP, 150.0, 150.0, turn), Placement(STRIP, u, v, turn), *more)
    return Layout(plate(600.0, 600.0), placed, shared=((0, 1),))


def told(layout: Layout) -> list[str]:
    return list(faults(layout, SPACING, MARGIN, kerf_mm=KERF))


@given(turn=st.floats(0.0, 90.0))
def test_a_kerf_apart_at_any_turn(turn: float) -> None:
    assert told(two(turn=turn)) == []
    verify(two(turn=turn), SPACING, MARGIN, kerf_mm=KERF)


@pytest.mark.parametrize("first", [0, 1])
def test_either_may_be_cut_first(first: int) -> None:
    layout = two()
    assert told(Layout(layout.sheet, layout.placements, shared=((first, 1 - first),))) == []


@pytest.mark.parametrize(
    ("gap", "along"),
    [(KERF + 1e-5, 0.0), (KERF - 1e-5, 0.0), (KERF, 0.01), (KERF, 50.0), (0.0, 0.0), (6.0, 0.0)],
)
def test_another_gap_or_edges_shifted_are_told(gap: float, along: float) -> None:
    (line,) = told(two(gap, along))
    assert "share a line and lie" in line
    assert "1.5 mm and 2 wanted" in line
    with pytest.raises(NestingError, match="share a line"):
        verify(two(gap, along), SPACING, MARGIN, kerf_mm=KERF)


def test_corners_across_from_each_other_are_not_enough() -> None:
    """A narrower strip that lies on the other, a kerf inside its edge."""
    narrow = Placement(strip(200.0, 30.0, "narrow"), 150.0, 150.0 + 40.0 - KERF - 30.0, 0.0)
    layout = Layout(plate(600.0, 600.0), (two().placements[0], narrow), shared=((0, 1),))
    (line,) = told(layout)
    assert "lie 0.000000 mm apart with 2 corners" in line


def test_a_strip_within_the_other_is_told() -> None:
    """Below a notch as wide as it is long, a kerf from the notch's floor."""
    inside = strip(60.0, 20.0, "inside")
    notch = [(130.0, 100.0), (130.0, 60.0), (70.0, 60.0), (70.0, 100.0)]
    block = [(0.0, 0.0), (200.0, 0.0), (200.0, 100.0), *notch, (0.0, 100.0)]
    around = Blank("around", "part", 6.0, polygon(block))
    x, y = inside.bounds[:2]
    laid = (
        Placement(around, 100.0, 100.0, 0.0),
        Placement(inside, 170.0 - x, 160.0 - KERF - 20.0 - y, 0.0),
    )
    (line,) = told(Layout(plate(600.0, 600.0), laid, shared=((0, 1),)))
    assert line.endswith("overlap")


def test_no_others_may_lie_so_near() -> None:
    layout = two()
    (line,) = told(Layout(layout.sheet, layout.placements))
    assert "lie 1.5000 mm apart, 6 mm wanted" in line
    near = Placement(disc(60.0), 350.0 + 30.0 + 5.9, 180.0, 0.0)
    (line,) = told(two(KERF, 0.0, 0.0, near))
    assert "disc at" in line
