"""Gere, Mechanics of Materials, problem 5.5-6 (freight axle) and example 9-13 (stepped beam, from
memory); a textbook's wagon axle."""

import math

import pytest

from platewheel.parts.wheelset import axle_strength as axle


def test_freight_axle() -> None:
    beam = axle.axle_beam(1600, 1600, 2000, 47000, 0, 400)
    moment = axle.greatest_moment_n_mm(beam)
    assert axle.bending_stress_n_mm2(moment, 80) == pytest.approx(187, abs=0.5)


def test_wagon_axle() -> None:
    beam = axle.axle_beam(1500, 1500, 1700, 50000, 0, 400)
    assert axle.diameter_for_mm(axle.greatest_moment_n_mm(beam), 100) == pytest.approx(
        79.86, abs=0.01
    )


def test_stepped_beam() -> None:
    """Load P amid a span L, I in its outer quarters, 2 I between: 3 P L3 / (256 E I) down, and
    5 P L2 / (128 E I) at the ends."""
    load, long, d = 1000.0, 800.0, 40.0
    forces = ((-long / 2, load / 2), (0.0, -load), (long / 2, load / 2))
    beam = axle.AxleBeam(forces=forces, couples=(), bearings=(-long / 2, long / 2))
    thick = d * 2**0.25
    quarters = (-long / 2, -long / 4, d), (-long / 4, long / 4, thick), (long / 4, long / 2, d)
    stiff = 210000 * math.pi * d**4 / 64
    down, _ = axle.deflection_and_slope(beam, 0, quarters)
    assert down == pytest.approx(-3 * load * long**3 / (256 * stiff))
    _, slope = axle.deflection_and_slope(beam, long / 2, quarters)
    assert slope == pytest.approx(5 * load * long**2 / (128 * stiff))
