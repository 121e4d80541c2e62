"""How far unequal wheels steer: versines, Redtenbacher, and an axle rolled step by step."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.running.steering import rolling_offset_mm
from platewheel.parts.refit.drift import curve_radius_mm, drift_mm, flange_after_mm


# hivanix.in, railway tutorial: versine V = 125 C^2 / R, chord 10 m in a curve of 500 m: 25 mm.
# A curve leaves its tangent by its versine after half the chord.
def test_drift_is_the_versine_of_a_chord_twice_as_long() -> None:
    assert drift_mm(500_000.0, 5_000.0) == pytest.approx(25.0, abs=0.05)


# Redtenbacher's condition (from memory): at an offset y two tapered treads of radius r +- lambda y
# roll in the curve R with y = r (s / 2) / (lambda R).
@given(st.floats(50, 500), st.floats(300, 1600), st.floats(0.01, 0.1), st.floats(5e3, 5e5))
def test_the_radius_agrees_with_redtenbacher(
    radius_mm: float, spacing_mm: float, taper: float, curve_mm: float
) -> None:
    offset = rolling_offset_mm(radius_mm, spacing_mm, taper, curve_mm)
    if taper * offset < radius_mm / 2:
        outer, inner = radius_mm + taper * offset, radius_mm - taper * offset
        assert curve_radius_mm(spacing_mm, 2 * outer, 2 * inner) == pytest.approx(curve_mm)


# Plain kinematics: two wheels turn by the same angle; the axle is moved on in small steps.
@pytest.mark.parametrize(("first", "second"), [(300.0, 299.5), (301.0, 299.0), (180.0, 180.3)])
def test_an_axle_rolled_step_by_step_drifts_so(first: float, second: float) -> None:
    spacing, run, steps = 482.0, 10_000.0, 20_000
    turn = run / steps / ((first + second) / 4)  # of the axle in each step
    along = aside = heading = 0.0
    for _ in range(steps):
        left, right = turn * first / 2, turn * second / 2
        middle = heading + (left - right) / spacing / 2
        along += (left + right) / 2 * math.cos(middle)
        aside += (left + right) / 2 * math.sin(middle)
        heading += (left - right) / spacing
    radius = curve_radius_mm(spacing, first, second)
    assert abs(heading) == pytest.approx(run / radius, rel=1e-9)
    assert drift_mm(radius, along) == pytest.approx(abs(aside), rel=0.01)
    touch = flange_after_mm(radius, 8.0)
    assert drift_mm(radius, touch) == pytest.approx(8.0 / 2)


def test_wheels_alike_go_straight() -> None:
    assert curve_radius_mm(482.0, 300.0, 300.0) == math.inf
    assert drift_mm(math.inf) == 0.0
    assert flange_after_mm(1000.0, -1.0) == 0.0  # no play: it touches at once
