"""The axle as a beam, against numerical integration."""

import math

import numpy as np
import pytest

from platewheel.parts.wheelset import axle_strength as axle

EVEN = ((-400.0, 400.0, 40.0),)
STEPPED = (
    (-400.0, -330.0, 30.0),
    (-330.0, -150.0, 45.0),
    (-150.0, 200.0, 40.0),
    (200.0, 400.0, 35.0),
)


@pytest.mark.parametrize("bearings", [400.0, 780.0])  # inside and outside frames
@pytest.mark.parametrize("lateral", [0.0, 1500.0, -1500.0])
@pytest.mark.parametrize("steps", [EVEN, STEPPED])
def test_deflection_and_slope_against_integration(
    bearings: float, lateral: float, steps: axle.Steps
) -> None:
    beam = axle.axle_beam(650, 630, bearings, 4000, lateral, 150)
    x = np.linspace(-400, 400, 80001)
    dx = x[1] - x[0]
    stiff = np.zeros_like(x)
    for start, end, diameter in steps:
        stiff[(x >= start) & (x <= end)] = 210000 * math.pi * diameter**4 / 64
    curve = np.array([axle.moment_n_mm(beam, at) for at in x]) / stiff
    slope = np.concatenate([[0], np.cumsum((curve[1:] + curve[:-1]) / 2) * dx])
    lift = np.concatenate([[0], np.cumsum((slope[1:] + slope[:-1]) / 2) * dx])
    at = np.interp(beam.bearings, x, lift)
    turn = (at[1] - at[0]) / bearings
    lift -= at[0] + turn * (x - beam.bearings[0])
    slope -= turn
    for place in (-300.0, 0.0, 123.0, bearings / 2):
        found = axle.deflection_and_slope(beam, place, steps)
        assert found[0] == pytest.approx(np.interp(place, x, lift), abs=2e-4)
        assert found[1] == pytest.approx(np.interp(place, x, slope), abs=2e-6)


def test_a_place_beyond_the_axle_is_named() -> None:
    beam = axle.axle_beam(650, 630, 780, 4000, 0, 150)
    with pytest.raises(ValueError, match="x_mm: found 401"):
        axle.deflection_and_slope(beam, 401, EVEN)
    with pytest.raises(ValueError, match="diameter_mm: found 0"):
        axle.deflection_and_slope(beam, 0, ((-400.0, 400.0, 0.0),))


def test_moment_within_a_stretch() -> None:
    """Outside frames, no push: it rises from the bearing at 390 to the wheel at 325, then stays."""
    beam = axle.axle_beam(650, 650, 780, 4000, 0, 150)
    assert axle.greatest_moment_n_mm(beam, 350, 400) == pytest.approx(4000 * 40)
    assert axle.greatest_moment_n_mm(beam, -10, 10) == pytest.approx(4000 * 65)
    assert axle.greatest_moment_n_mm(beam, 360, 360) == pytest.approx(4000 * 30)


@pytest.mark.parametrize("bearings", [400.0, 780.0])
def test_loads_balance(bearings: float) -> None:
    beam = axle.axle_beam(650, 630, bearings, 4000, 1500, 150)
    assert sum(force for _, force in beam.forces) == pytest.approx(0)
    assert axle.moment_n_mm(beam, 1000) == pytest.approx(0, abs=1e-6)


def test_push_adds_on_outside_frames() -> None:
    plain = axle.greatest_moment_n_mm(axle.axle_beam(650, 650, 780, 4000, 0, 150))
    pushed = axle.greatest_moment_n_mm(axle.axle_beam(650, 650, 780, 4000, 1500, 150))
    assert plain == pytest.approx(4000 * 65)
    assert pushed > plain + 0.8 * 1500 * 150


def test_bad_length_is_named() -> None:
    with pytest.raises(ValueError, match="bearing_centres_mm"):
        axle.axle_beam(650, 650, 0, 4000, 0, 150)
