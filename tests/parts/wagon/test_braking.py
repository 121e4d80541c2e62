"""Brakes: energies and slopes a second way, and what the rails hold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.wagon.braking import (
    BRAKE_RESERVE,
    adhesion_share,
    braked_axles,
    holding_share,
    roll_away_percent,
    steepest_braked_percent,
    stop_distance_m,
    stoppable_speed_km_h,
    stopping_share,
)
from platewheel.parts.wagon.resistance import force_n


@settings(max_examples=25)
@given(resistance=st.floats(0.001, 0.1), mass=st.floats(10, 1000))
def test_on_the_roll_away_gradient_weight_and_resistance_balance(
    resistance: float, mass: float
) -> None:
    """Second way: no force is needed to let it down that slope."""
    slope = roll_away_percent(resistance)
    assert force_n(mass, resistance, -slope) == pytest.approx(0, abs=1e-9 * mass)
    assert force_n(mass, resistance, -1.01 * slope) < 0 < force_n(mass, resistance, -0.99 * slope)


def test_stop_takes_the_energy_of_speed_and_height() -> None:
    """Second way: v2 / 2 + g x fall = g x brake share x way; 3-4-5 slope of 75 %."""
    assert 9.81 * 20 * stopping_share(18, 20, 75) == pytest.approx(5**2 / 2 + 9.81 * 12)
    assert stopping_share(1e-9, 20, 75) == pytest.approx(holding_share(75)) == pytest.approx(0.6)


@settings(max_examples=25)
@given(share=st.floats(0.05, 0.3), slope=st.floats(0, 4))
def test_speed_from_which_it_stops(share: float, slope: float) -> None:
    speed = stoppable_speed_km_h(share, slope)
    assert stopping_share(speed, stop_distance_m(speed), slope) == pytest.approx(share)
    assert stoppable_speed_km_h(0.01, 20) == 0


def test_braked_axles() -> None:
    """Friction 0.2 on four axles, level: each gives 0.05, with reserve 0.04 of the weight."""
    assert adhesion_share(0.2, 0, 1, 4) == pytest.approx(0.05)
    shares = (0.0, 0.039, 0.04, 0.041, 0.16, 0.161)
    assert [braked_axles(share, 0.2, 0, 4) for share in shares] == [1, 1, 1, 2, 4, None]


def test_steepest_slope_that_brakes_hold() -> None:
    slope = steepest_braked_percent(0.2)
    assert slope == pytest.approx(16)
    assert math.tan(math.asin(holding_share(slope))) == pytest.approx(0.2 / BRAKE_RESERVE)
    assert braked_axles(holding_share(slope), 0.2, slope, 2) == 2
    assert braked_axles(holding_share(slope + 0.1), 0.2, slope + 0.1, 2) is None
