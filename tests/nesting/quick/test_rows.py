"""Discs in rows, against the verifier, plain counts and the published square of circles."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.quick.rows import disc_rows
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.outline import bounds
from tests.nesting.plates import disc, offcut, plate, strip


def test_a_square_of_one_metre_takes_216_discs_of_70() -> None:
    """Hexagonal rows give 216; the best known packing, 219, is not of rows (Specht's tables of
    circles in a square, from memory)."""
    square = plate(1000.0, 1000.0)
    rows = disc_rows(disc(70.0), square, 0.0, 0.0)
    assert len(rows) == 216
    assert list(faults(Layout(square, tuple(rows)), 0.0, 0.0)) == []


@settings(max_examples=60, deadline=None)
@given(
    st.floats(40.0, 160.0),
    st.floats(150.0, 900.0),
    st.floats(150.0, 900.0),
    st.sampled_from([(0.0, 0.0), (5.0, 8.0), (6.0, 3.0)]),
)
def test_rows_are_sound_and_no_fewer_than_upright_ones(
    diameter: float, length: float, width: float, gaps: tuple[float, float]
) -> None:
    spacing, margin = gaps
    sheet, blank = plate(length, width), disc(diameter)
    rows = disc_rows(blank, sheet, spacing, margin)
    layout = Layout(sheet, tuple(rows))
    assert list(faults(layout, spacing, margin)) == []
    apart = diameter + spacing + 1e-3
    columns, lines = (
        max(0, math.floor((side - 2 * margin + spacing - 0.01) / apart)) for side in (length, width)
    )
    assert len(rows) >= columns * lines
    ends = [bounds(p.outline)[0] for p in rows]
    assert ends == sorted(ends)


def test_no_room_no_rows_and_offcuts_are_left_to_the_search() -> None:
    assert disc_rows(disc(100.0), plate(119.0, 400.0), 6.0, 10.0) == []
    piece = offcut("corner", [(0.0, 0.0), (240.0, 0.0), (90.0, 200.0)])
    assert disc_rows(disc(50.0), piece, 6.0, 10.0) == []


def test_only_round_blanks_go_in_rows() -> None:
    with pytest.raises(ValueError, match="tread is not round"):
        disc_rows(strip(100.0, 20.0), plate(400.0, 400.0), 6.0, 10.0)
