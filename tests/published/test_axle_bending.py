"""Gere, Mechanics of Materials, problem 5.5-6 (freight axle); a textbook's wagon axle."""

import pytest

from parts import axle_strength as axle


def test_freight_axle() -> None:
    beam = axle.axle_beam(1600, 1600, 2000, 47000, 0, 400)
    moment = axle.greatest_moment_n_mm(beam)
    assert axle.bending_stress_n_mm2(moment, 80) == pytest.approx(187, abs=0.5)


def test_wagon_axle() -> None:
    beam = axle.axle_beam(1500, 1500, 1700, 50000, 0, 400)
    assert axle.diameter_for_mm(axle.greatest_moment_n_mm(beam), 100) == pytest.approx(
        79.86, abs=0.01
    )
