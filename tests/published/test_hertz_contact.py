"""Hertz contact against textbook problems and tables."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_half_width_mm,
    line_pressure_n_mm2,
    point_half_axes_mm,
    point_pressure_n_mm2,
)


def test_cast_iron_wheel_of_3_inch() -> None:
    """Shigley's Mechanical Engineering Design, problem 3-142: b = 0.007095 in (lbf, in, psi)."""
    modulus = contact_modulus_n_mm2(14.5e6, 0.211, 14.5e6, 0.211)
    assert line_half_width_mm(250, 1.25, 3, modulus) == pytest.approx(0.007095, rel=1e-3)


def test_rail_car_wheel_of_1_m() -> None:
    """Marks' Calculations for Machine Design, example 2: b^2 = 8.14e-6 m2 (N, m, Pa)."""
    modulus = contact_modulus_n_mm2(210e9, 0.3, 210e9, 0.3)
    assert line_half_width_mm(147.5e3, 0.1, 1.0, modulus) ** 2 == pytest.approx(8.14e-6, rel=1e-3)


def test_short_form_for_steel() -> None:
    """Mechanical Engineer's Data Handbook, roller on plate: p = 0.418 sqrt(F E / (l r))."""
    full = line_pressure_n_mm2(10e3, 30, 300, contact_modulus_n_mm2())
    assert full == pytest.approx(0.418 * math.sqrt(10e3 * 210e3 / (30 * 150)), rel=2e-3)
    # derived by hand from the same data: b = 0.7428 mm, p = 285.7 N/mm2
    assert full == pytest.approx(285.7, abs=0.05)
    assert line_half_width_mm(10e3, 30, 300, contact_modulus_n_mm2()) == pytest.approx(
        0.7428, abs=5e-5
    )


# Timoshenko, Goodier, Theory of Elasticity, contact of two bodies, table of m and n, from memory
@pytest.mark.parametrize(
    ("theta_deg", "m", "n"),
    [(30, 2.731, 0.493), (45, 1.926, 0.604), (60, 1.486, 0.717), (80, 1.128, 0.893), (90, 1, 1)],
)
def test_elliptical_contact(theta_deg: float, m: float, n: float) -> None:
    """a = m (3 F / (4 E* (A + B)))^(1/3), b with n; cos theta = (B - A) / (B + A)."""
    cos = math.cos(math.radians(theta_deg))
    steep, slack = (1 + cos) / 100, (1 - cos) / 100  # 1/R of the two cylinders, A + B = 1/100
    load, modulus = 5e3, contact_modulus_n_mm2()
    unit = (3 * load / (4 * modulus * 0.01)) ** (1 / 3)
    a, b = point_half_axes_mm(load, 1 / slack, 1 / steep, modulus)
    assert a == pytest.approx(m * unit, rel=1.5e-3)
    assert b == pytest.approx(n * unit, rel=1.5e-3)


def test_crossed_equal_cylinders_are_a_ball_on_a_flat() -> None:
    """Johnson, Contact Mechanics, 4.22 to 4.24: p = (6 F E*^2 / (pi^3 R^2))^(1/3)."""
    modulus = contact_modulus_n_mm2()
    p = (6 * 3e3 * modulus**2 / (math.pi**3 * 150**2)) ** (1 / 3)
    assert point_pressure_n_mm2(3e3, 150, 150, modulus) == pytest.approx(p, rel=1e-6)
