"""Hertz contact of two elastic bodies: half widths and greatest pressure; N, mm, N/mm2.

Source: Johnson, Contact Mechanics (1985), chapter 4; elastic, smooth, no friction.
"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import E_N_MM2, POISSON


def contact_modulus_n_mm2(
    e1: float = E_N_MM2,
    nu1: float = POISSON,
    e2: float = E_N_MM2,
    nu2: float = POISSON,
) -> float:
    """1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2; steel on steel unless told otherwise."""
    return 1 / ((1 - nu1**2) / e1 + (1 - nu2**2) / e2)


def line_half_width_mm(
    load_n: float, length_mm: float, diameter_mm: float, modulus_n_mm2: float
) -> float:
    """Cylinder on a flat: b = sqrt(2 F d / (pi l E*))."""
    return math.sqrt(2 * load_n * diameter_mm / (math.pi * length_mm * modulus_n_mm2))


def line_pressure_n_mm2(
    load_n: float, length_mm: float, diameter_mm: float, modulus_n_mm2: float
) -> float:
    """Greatest pressure of a cylinder on a flat: 2 F / (pi b l)."""
    half_width = line_half_width_mm(load_n, length_mm, diameter_mm, modulus_n_mm2)
    return 2 * load_n / (math.pi * half_width * length_mm)


def point_half_axes_mm(
    load_n: float, radius_1_mm: float, radius_2_mm: float, modulus_n_mm2: float
) -> tuple[float, float]:
    """Half axes a >= b of the ellipse of two crossed cylinders (wheel across a crowned rail).

    The long axis lies along the flatter direction. Solves (a/b)^2 E - K = (B/A)(K - E) for the
    shape, then a^3 = 3 F E / (2 pi (b/a)^2 (A + B) E*), with K, E complete elliptic integrals.
    """
    steep, slack = 1 / min(radius_1_mm, radius_2_mm), 1 / max(radius_1_mm, radius_2_mm)
    ratio = steep / slack  # B / A
    low, high = 1e-9, 1.0  # b/a; the left side falls as it rises
    for _ in range(80):
        shape = (low + high) / 2
        first, second = _elliptic(1 - shape * shape)
        if second / shape**2 - first > ratio * (first - second):
            low = shape
        else:
            high = shape
    shape = (low + high) / 2
    _, second = _elliptic(1 - shape * shape)
    curvature = (steep + slack) / 2  # A + B
    cube = 3 * load_n * second / (2 * math.pi * shape**2 * curvature * modulus_n_mm2)
    return cube ** (1 / 3), shape * cube ** (1 / 3)


def point_pressure_n_mm2(
    load_n: float, radius_1_mm: float, radius_2_mm: float, modulus_n_mm2: float
) -> float:
    """Greatest pressure of the ellipse: 3 F / (2 pi a b)."""
    a, b = point_half_axes_mm(load_n, radius_1_mm, radius_2_mm, modulus_n_mm2)
    return 3 * load_n / (2 * math.pi * a * b)


def _elliptic(parameter: float) -> tuple[float, float]:
    """Complete elliptic integrals K(m), E(m). Source: arithmetic-geometric mean (Gauss)."""
    a, b, total, power = 1.0, math.sqrt(1 - parameter), parameter / 2, 1.0
    while abs(a - b) > 1e-15 * a:
        a, b, c = (a + b) / 2, math.sqrt(a * b), (a - b) / 2
        total += power * c * c
        power *= 2
    first = math.pi / (2 * a)
    return first, first * (1 - total)
