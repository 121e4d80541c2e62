"""Arcs without their centre: what is printed lies on the outline within 0.05 mm."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.units import MM_PER_INCH
from platewheel.parts.geometry.ordinates import MOST_PART_DEG, ordinates


@given(st.floats(20.0, 5000.0), st.floats(5.0, 350.0), st.sampled_from(["mm", "inch"]))
def test_printed_points_lie_on_the_arc(radius: float, sweep: float, units: str) -> None:
    """Each station with its height as printed, to 0.1 mm, on a circle about the arc's centre."""
    found = ordinates(radius, sweep, units)  # type: ignore[arg-type]
    part = math.radians(sweep) / found.parts
    assert math.degrees(part) <= MOST_PART_DEG + 1e-6
    below = radius * math.cos(part / 2)  # from the centre to the chord
    for along, height in found.stations[:-1]:
        assert abs(math.hypot(along, below + round(height, 1)) - radius) <= 0.05 + 1e-9
        step = 0.25 * MM_PER_INCH if units == "inch" else 5.0
        assert math.remainder(along, step) == pytest.approx(0.0, abs=1e-6)
    end, nothing = found.stations[-1]
    assert (2 * end, nothing) == (found.chord_mm, 0.0)
    # the parts, end to end, close on the whole arc
    assert found.chord_mm == pytest.approx(2 * radius * math.sin(part / 2))


def test_an_arc_by_hand() -> None:
    """Worked by hand: R 2000 over 30 degrees: chord 4000 sin 15 = 1035.28, rise 2000 (1 - cos 15)
    = 68.15; 200 off the middle 1989.975 - 1931.852 = 58.12."""
    found = ordinates(2000.0, 30.0)
    assert found.chord_mm == pytest.approx(1035.28, abs=5e-3)
    assert found.stations[0] == pytest.approx((0.0, 68.148), abs=1e-3)
    assert found.stations[2] == pytest.approx((200.0, 58.123), abs=1e-3)
