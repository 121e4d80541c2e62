"""Hertz contact to the last digit: closed forms, and scipy's elliptic integrals."""

from __future__ import annotations

import math

import pytest
from scipy.special import ellipe, ellipk

from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_half_width_mm,
    line_pressure_n_mm2,
    point_half_axes_mm,
    point_pressure_n_mm2,
)

STEEL = 210_000 / (2 * (1 - 0.3**2))  # Johnson 1985, ch. 4: two bodies of steel, closed form


def test_modulus_of_two_bodies() -> None:
    """1/E* = (1 - 0.3^2) / 210000 + (1 - 0.2^2) / 100000, each body with its own numbers."""
    assert contact_modulus_n_mm2() == pytest.approx(STEEL, rel=1e-12)
    both = 1 / ((1 - 0.25**2) / 200e3 + (1 - 0.2**2) / 100e3)
    assert contact_modulus_n_mm2(200e3, 0.25, 100e3, 0.2) == pytest.approx(both, rel=1e-12)


def test_line_contact() -> None:
    """Johnson 1985, 4.3: b^2 = 2 F d / (pi l E*), p = 2 F / (pi b l): the load is the ellipse's."""
    b = math.sqrt(2 * 10e3 * 300 / (math.pi * 30 * STEEL))
    assert line_half_width_mm(10e3, 30.0, 300.0, STEEL) == pytest.approx(b, rel=1e-12)
    p = line_pressure_n_mm2(10e3, 30.0, 300.0, STEEL)
    assert math.pi / 2 * p * b * 30 == pytest.approx(10e3, rel=1e-12)


@pytest.mark.parametrize("radius", [40.0, 150.0])
def test_circle(radius: float) -> None:
    """Johnson 1985, 4.22: two equal crossed cylinders are a ball: a^3 = 3 F R / (4 E*); K - E
    loses digits there."""
    a = (3 * 5e3 * radius / (4 * STEEL)) ** (1 / 3)
    assert point_half_axes_mm(5e3, radius, radius, STEEL) == pytest.approx((a, a), rel=1e-7)
    p = 3 * 5e3 / (2 * math.pi * a * a)
    assert point_pressure_n_mm2(5e3, radius, radius, STEEL) == pytest.approx(p, rel=1e-7)


@pytest.mark.parametrize(
    ("one", "other"), [(150.0, 100.0), (150.0, 1000.0), (4.0, 150.0), (3.0, 900.0)]
)
def test_ellipse(one: float, other: float) -> None:
    """Johnson 1985, 4.26: B/A = ((a/b)^2 E - K) / (K - E); 4.28: a^3 = 3 F E / (2 pi (b/a)^2
    (A + B) E*); K and E of m = 1 - (b/a)^2 by scipy.special."""
    a, b = point_half_axes_mm(5e3, one, other, STEEL)
    first, second = ellipk(1 - (b / a) ** 2), ellipe(1 - (b / a) ** 2)
    ratio = ((a / b) ** 2 * second - first) / (first - second)
    assert ratio == pytest.approx(max(one, other) / min(one, other), rel=1e-6)
    curved = (1 / one + 1 / other) / 2
    cube = 3 * 5e3 * second / (2 * math.pi * (b / a) ** 2 * curved * STEEL)
    assert a == pytest.approx(cube ** (1 / 3), rel=1e-9)
    assert point_half_axes_mm(5e3, other, one, STEEL) == (a, b)
    p = point_pressure_n_mm2(5e3, one, other, STEEL)
    assert 2 / 3 * math.pi * a * b * p == pytest.approx(5e3, rel=1e-9)  # the half ellipsoid's
