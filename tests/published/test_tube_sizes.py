"""Tubes that are stocked: sizes and masses of EN 10220, table 1, and of EN 10305-1, from memory.

Masses there, kg/m, follow (D - T) T x 0.0246615 (EN 10220, 5): pi x 7.85 kg/dm3.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.wheel.stock_pipe import EN_10220_WALL, MOST_WALL, TABLES, stock_pipe

# outside, wall, kg/m
EN_10220 = (
    (21.3, 2.6, 1.20),
    (48.3, 3.2, 3.56),
    (57.0, 2.9, 3.87),
    (60.3, 2.9, 4.11),
    (88.9, 3.2, 6.76),
    (114.3, 3.6, 9.83),
    (168.3, 4.5, 18.2),
    (219.1, 6.3, 33.1),
)


@pytest.mark.parametrize(("outside", "wall", "kg_m"), EN_10220)
def test_a_size_of_the_table_is_its_own(outside: float, wall: float, kg_m: float) -> None:
    found = stock_pipe(outside, outside - 2 * wall)
    assert found
    assert (found.outside_mm, found.wall_mm, found.standard) == (outside, wall, "EN 10220")
    area = math.pi / 4 * (found.outside_mm**2 - found.bore_mm**2)
    assert area * 1000 * DENSITY_KG_MM3 == pytest.approx(kg_m, rel=0.005)


def test_walls_are_those_of_iso_4200() -> None:
    """The thicknesses of ISO 4200 from 1.6 to 12.5 mm, which EN 10220 has too."""
    iso_4200 = (1.6, 1.8, 2.0, 2.3, 2.6, 2.9, 3.2, 3.6, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 8.8)
    assert set(iso_4200) | {10.0, 11.0, 12.5} <= set(EN_10220_WALL)


def test_the_next_wall_is_bored_and_the_next_outside_turned() -> None:
    """57 x 8.5 is in no table: 8.8 is the next wall, its bore 39.4 mm."""
    found = stock_pipe(57.0, 40.0)
    assert found
    assert (found.outside_mm, found.wall_mm, found.standard) == (57.0, 8.8, "EN 10220")
    assert found.bore_mm == pytest.approx(39.4)
    precise = stock_pipe(42.0, 30.0)  # drawn tube, 42 x 6
    assert precise
    assert (precise.outside_mm, precise.wall_mm, precise.standard) == (42.0, 6.0, "EN 10305-1")


@given(st.floats(20.0, 400.0), st.floats(0.55, 0.98))
def test_what_is_bought_holds_the_tube_and_none_is_lighter(outside: float, share: float) -> None:
    bore = share * outside
    found = stock_pipe(outside, bore)
    lightest = min(
        (
            o * o - (o - 2 * w) ** 2
            for _, outsides, walls in TABLES
            for o in outsides
            for w in walls
            if o >= outside and o - 2 * w <= bore and w <= MOST_WALL * o
        ),
        default=None,
    )
    if found is None:
        assert lightest is None
        return
    assert found.outside_mm >= outside - 0.01
    assert found.bore_mm <= bore + 0.01
    assert lightest is None or found.outside_mm**2 - found.bore_mm**2 <= lightest + 1e-9


def test_none_is_thick_enough_for_a_bar_with_a_hole() -> None:
    assert stock_pipe(1000.0, 40.0) is None


@pytest.mark.parametrize("bore", [0.0, -1.0, 50.0, 51.0])
def test_a_bore_outside_of_its_tube_is_refused(bore: float) -> None:
    with pytest.raises(ValueError, match=r"bore_mm: found .*; allowed: above 0, below 50"):
        stock_pipe(50.0, bore)
