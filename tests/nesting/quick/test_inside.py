"""Small parts in the holes of large ones, by the verifier's word and by closed forms."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from platewheel.nesting.quick.inside import holds
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, moved, polygon
from tests.nesting.drawn_files import stars
from tests.nesting.plates import disc, faceted, plate, sector, strip


def ring(hole: Loop, *more: Loop) -> Blank:
    """A plate of 600 x 600 with the hole in it."""
    corners = [(-300.0, -300.0), (300.0, -300.0), (300.0, 300.0), (-300.0, 300.0)]
    return Blank("ring", "extra", 6.0, polygon(corners), (hole, *more))


def wrong(blank: Blank, other: Blank, offset: tuple[float, float], spacing_mm: float) -> list[str]:
    """What the verifier says of both on one plate."""
    at = (310.0, 310.0)
    placements = (
        Placement(blank, *at, 0.0),
        Placement(other, at[0] + offset[0], at[1] + offset[1], 0.0),
    )
    return list(faults(Layout(plate(620, 620), placements), spacing_mm, 10.0))


def test_a_circle_goes_in_the_middle_up_to_the_last_hair() -> None:
    blank = ring(Circle((20.0, -30.0), 100.0), Circle((250.0, 250.0), 30.0))
    other = Blank("other", "disc", 6.0, Circle((5.0, 0.0), 94.0))
    assert holds(blank, other, 6.0) == (15.0, -30.0)
    assert wrong(blank, other, (15.0, -30.0), 6.0) == []
    assert holds(blank, Blank("other", "disc", 6.0, Circle((5.0, 0.0), 94.01)), 6.0) is None


def test_a_square_in_a_round_hole() -> None:
    """The diagonal of a square in a circle is the diameter less both spacings."""
    blank, most = ring(Circle((0.0, 0.0), 100.0)), 2 * 94 / math.sqrt(2)
    for side, fits in ((most - 0.1, True), (most + 0.001, False)):
        offset = holds(blank, strip(side, side), 6.0)
        assert (offset is not None) == fits
        if offset:
            assert wrong(blank, strip(side, side), offset, 6.0) == []


@pytest.mark.parametrize("spacing", [0.5, 6.0, 20.0])
def test_a_strip_in_a_square_hole_with_just_the_spacing(spacing: float) -> None:
    hole = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)])
    length, width = 100 - 2 * spacing, 50 - 2 * spacing
    offset = holds(ring(hole), strip(length, width), spacing)
    assert offset == pytest.approx((spacing, spacing), abs=1e-5)
    assert wrong(ring(hole), strip(length, width), offset, spacing) == []
    assert holds(ring(hole), strip(length + 0.001, width), spacing) is None


def test_a_dented_hole() -> None:
    """A round dent of radius 20 in the long side: a strip has 50 - 20 - 2 x 6 beside it."""
    dent = (
        Line((0.0, 0.0), (30.0, 0.0)),
        Arc((50.0, 0.0), 20.0, 180.0, -180.0),  # steel reaches into the hole
        Line((70.0, 0.0), (100.0, 0.0)),
        Line((100.0, 0.0), (100.0, 50.0)),
        Line((100.0, 50.0), (0.0, 50.0)),
        Line((0.0, 50.0), (0.0, 0.0)),
    )
    for width, fits in ((17.9, True), (18.01, False)):
        offset = holds(ring(dent), strip(88, width), 6.0)
        assert (offset is not None) == fits
        if offset:
            assert wrong(ring(dent), strip(88, width), offset, 6.0) == []


def test_the_largest_hole_first_and_none_without_holes() -> None:
    blank = ring(Circle((-100.0, 0.0), 40.0), Circle((100.0, 0.0), 60.0))
    assert holds(blank, disc(20.0), 6.0) == (100.0, 0.0)
    assert holds(disc(500.0), disc(20.0), 6.0) is None
    assert holds(ring(Circle((0.0, 0.0), 10.0)), disc(20.0), 0.5) is None


def test_a_hollow_part_does_not_slip_over_the_holes_own_dent() -> None:
    """A C lies in a round hole; a hole in the shape of that C, holding no C, takes no disc."""
    blank = ring(Circle((10.0, 20.0), 100.0))
    offset = holds(blank, sector(60.0, 90.0, 300.0), 6.0)
    assert offset is not None
    assert wrong(blank, sector(60.0, 90.0, 300.0), offset, 6.0) == []
    c_hole = annular_sector(60.0, 90.0, 300.0)
    assert holds(ring(c_hole), disc(100.0), 6.0) is None  # the middle of the C is steel
    small = holds(ring(c_hole), disc(17.0), 6.0)
    assert small is not None
    assert wrong(ring(c_hole), disc(17.0), small, 6.0) == []
    assert 60 + 6 + 8.5 <= math.hypot(*small) <= 90 - 6 - 8.5


@settings(max_examples=10, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(hole=stars(), part=stars(20.0, 60.0), spacing=st.sampled_from([1.0, 6.0]))
def test_random_shapes_lie_soundly_or_do_not_fit(hole, part, spacing) -> None:
    shape, inner = faceted(hole), faceted(part)
    if not (shape.is_valid and inner.is_valid):
        return
    blank, other = ring(hole), Blank("other", "extra", 6.0, part)
    offset = holds(blank, other, spacing)
    if offset is not None:
        assert wrong(blank, other, offset, spacing) == []
        laid = faceted(moved(part, *offset))
        assert shape.contains(laid)
        assert shape.exterior.distance(laid.exterior) >= spacing - 1e-3
        return
    for x in range(-60, 61, 12):  # no other offset has room to spare
        for y in range(-60, 61, 12):
            laid = shapely.affinity.translate(inner, x, y)
            tight = shape.contains(laid) and shape.exterior.distance(laid) >= spacing + 1.0
            assert not tight
