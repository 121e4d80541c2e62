"""Cut-outs that are not round: a chain inside the line, told where there is no room for one."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.by_hand.cut_outs import cut_outs, small_hollows
from platewheel.nesting.by_hand.hole_ways import LAND_MM, WEB_MM, HoleTools
from platewheel.nesting.templates.hole_words import cut_out_words, hollow_words
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, Line, polygon


def plate(long: float, wide: float, thick: float = 6.0) -> Blank:
    hole = polygon([(0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)])
    return Blank("plate", "extra", thick, Circle((0.0, 0.0), 500.0), (hole,))


def test_a_window_of_50_by_30_by_hand() -> None:
    """Worked by hand: 3.75 inside, 42.5 x 22.5, 130 round: 19 holes at 6.8 mm or more."""
    (one,) = cut_outs(plate(50.0, 30.0))
    assert (one.width_mm, one.length_mm, one.drill_mm) == pytest.approx((30.0, 50.0, 6.0))
    assert len(one.drilled_centres) == 19
    assert one.pitch_mm == pytest.approx(130 / 19)
    words = cut_out_words(one, "mm")
    assert "chain of 19 holes, drill 6 mm, centres 3.8 mm inside the line, 6.8 mm apart" in words


@given(st.floats(20.0, 300.0), st.floats(15.0, 300.0), st.sampled_from([5.0, 10.0]))
def test_no_hole_of_a_chain_leaves_the_window(long: float, wide: float, thick: float) -> None:
    (one,) = cut_outs(plate(long, wide, thick))
    least = one.drill_mm / 2 + LAND_MM
    assert one.drilled_centres
    assert one.pitch_mm >= one.drill_mm + WEB_MM - 1e-9
    for x, y in one.drilled_centres:
        assert min(x, long - x, y, wide - y) == pytest.approx(least, abs=1e-6)


def test_what_has_no_room_for_a_chain_is_told() -> None:
    (slot,) = cut_outs(plate(40.0, 5.0))
    assert not slot.drilled_centres
    assert "too narrow for a chain" in cut_out_words(slot, "mm")
    notch = (
        Line((0.0, 0.0), (60.0, 0.0)),
        Line((60.0, 0.0), (60.0, 40.0)),
        Line((60.0, 40.0), (35.0, 40.0)),
        Arc((30.0, 40.0), 5.0, 0.0, -180.0),
        Line((25.0, 40.0), (0.0, 40.0)),
        Line((0.0, 40.0), (0.0, 0.0)),
    )
    (hollow,) = small_hollows(Blank("notch", "extra", 6.0, notch))
    assert math.isclose(hollow.radius_mm, 5.0)
    assert hollow_words(hollow, HoleTools(), "mm").startswith("drill 10 mm at its centre")
