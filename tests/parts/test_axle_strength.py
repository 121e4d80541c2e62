"""The axle as a beam, against numerical integration."""

import math

import numpy as np
import pytest

from parts import axle_strength as axle


@pytest.mark.parametrize("bearings", [400.0, 780.0])  # inside and outside frames
@pytest.mark.parametrize("lateral", [0.0, 1500.0, -1500.0])
def test_deflection_and_slope_against_integration(bearings: float, lateral: float) -> None:
    beam = axle.axle_beam(650, 630, bearings, 4000, lateral, 150)
    x = np.linspace(-400, 400, 80001)
    dx = x[1] - x[0]
    curve = np.array([axle.moment_n_mm(beam, at) for at in x]) / (210000 * math.pi * 40**4 / 64)
    slope = np.concatenate([[0], np.cumsum((curve[1:] + curve[:-1]) / 2) * dx])
    lift = np.concatenate([[0], np.cumsum((slope[1:] + slope[:-1]) / 2) * dx])
    at = np.interp(beam.bearings, x, lift)
    turn = (at[1] - at[0]) / bearings
    lift -= at[0] + turn * (x - beam.bearings[0])
    slope -= turn
    for place in (-300.0, 0.0, 123.0, bearings / 2):
        found = axle.deflection_and_slope(beam, place, 40)
        assert found[0] == pytest.approx(np.interp(place, x, lift), abs=2e-4)
        assert found[1] == pytest.approx(np.interp(place, x, slope), abs=2e-6)


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
