"""Holes by hand: which tool, and chains of holes against figures worked out by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.by_hand.hole_ways import (
    LAND_MM,
    WEB_MM,
    HoleTools,
    arc_ways,
    chain_along_arc,
    chain_in_hole,
    hole_ways,
    way_of,
)
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle

HERE = [(0.0, 0.0)]


def test_chain_in_a_hole_of_60() -> None:
    """Worked by hand: centres on 60 - 2 x 0.75 - 6 = 52.5; 6.8 mm of chord is 14.884 degrees of
    it, so 24 holes go round; 15 degrees of 52.5 have the chord 52.5 x sin 7.5 = 6.853."""
    chain = chain_in_hole(60.0, 6.0)
    assert chain is not None
    assert (chain.count, chain.circle_mm) == (24, 52.5)
    assert chain.pitch_mm == pytest.approx(6.853, abs=5e-4)
    assert chain.web_mm == pytest.approx(0.853, abs=5e-4)
    assert chain.most_land_mm == pytest.approx(30 - 26.025, abs=1e-3)


def test_chain_along_a_third_of_a_turn() -> None:
    """Worked by hand: R 150, 120 degrees, drill 6: centres on R 146.25; 6.8 mm are 2.6643 degrees,
    45 spaces, 46 holes; 120 / 45 = 2.6667 degrees have the chord 292.5 x sin 1.33333 = 6.806."""
    chain = chain_along_arc(Arc((0.0, 0.0), 150.0, 120.0, -120.0), 6.0)
    assert chain is not None
    assert (chain.count, chain.radius_mm) == (46, 146.25)
    assert chain.pitch_mm == pytest.approx(6.806, abs=5e-4)


@given(st.floats(14.0, 400.0), st.sampled_from([5.0, 6.0, 8.0]))
def test_holes_of_a_chain_stay_inside_the_line_and_apart(size: float, drill: float) -> None:
    chain = chain_in_hole(size, drill)
    if chain is None:
        assert size < 2 * (drill + WEB_MM) + drill + 2 * LAND_MM
        return
    way = way_of(size, [(3.0, -7.0)], 8.0, HoleTools(most_drill_mm=9.5))
    assert way.chain is not None
    points = way.drilled_centres
    assert len(points) == way.chain.count
    off = [math.dist(at, (3.0, -7.0)) + way.tool_mm / 2 for at in points]
    assert max(off) == pytest.approx(size / 2 - LAND_MM)
    gaps = [math.dist(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)]
    assert min(gaps) == pytest.approx(max(gaps)) == pytest.approx(way.chain.pitch_mm)
    assert way.tool_mm + WEB_MM - 1e-6 <= min(gaps)


@pytest.mark.parametrize(
    ("size", "saws", "drill", "how", "tool"),
    [
        (57.75, (57.0, 60.0), 13.0, "hole saw", 57.0),
        (16.0, (16.0, 20.0), 13.0, "hole saw", 16.0),
        (57.75, (51.0,), 13.0, "chain", 6.0),  # too much to grind
        (16.0, (), 13.0, "drill", 13.0),  # 1.5 mm to grind, a chain leaves up to 4.6
        (17.2, (), 13.0, "chain", 5.0),
        (16.0, (), 20.0, "drill", 16.0),
        (12.0, (), 13.0, "drill", 12.0),
        (13.1, (), 13.0, "drill", 13.0),  # too small for a chain
    ],
)
def test_tool(size: float, saws: tuple[float, ...], drill: float, how: str, tool: float) -> None:
    way = way_of(size, HERE, 6.0, HoleTools(saws, drill))
    assert (way.how, way.tool_mm) == (how, tool)


def test_ways_of_a_blank() -> None:
    ring = Blank("ring", "extra", 8.0, annular_sector(150.0, 190.0, 200.0))
    (arc,) = arc_ways(ring)  # drawn in two pieces
    assert arc.arc.sweep_deg == pytest.approx(-200)
    assert all(math.hypot(*at) == pytest.approx(146.25) for at in arc.drilled_centres)
    assert arc.drilled_centres[-1] == pytest.approx((146.25, 0.0))
    holes = tuple(Circle((x, 0.0), r) for x, r in ((-20.0, 8.0), (20.0, 8.0), (0.0, 5.0)))
    disc = Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 50.0), holes)
    assert [(w.how, w.diameter_mm, w.count) for w in hole_ways(disc, HoleTools())] == [
        ("drill", 10.0, 1),
        ("drill", 16.0, 2),
    ]
    assert arc_ways(disc) == ()
