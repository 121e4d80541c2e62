"""Shakedown of a sliding line contact against the elastic stresses below it.

McEwen's closed form (Johnson, Contact Mechanics, 1985, 4.3 and 7.1, from memory) gives the shear
below a Hertz pressure and a friction that is a share of it; residual stress cannot relieve the
orthogonal shear (9.3), so the limit is yield in shear over its greatest value. Numbers of the
published map, from memory: 4 k in free rolling, and surface yield at k / friction above 0.37.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from platewheel.parts.checks.strength.shakedown import LINE, line_shakedown, point_shakedown


def least_pressure(friction: float) -> float:
    """1 / greatest orthogonal shear for pressure and half width of 1, on a fine grid."""
    x, z = np.meshgrid(np.linspace(-1.5, 1.5, 1501), np.linspace(1e-6, 1.5, 751))
    root = np.sqrt((1 - x * x + z * z) ** 2 + 4 * x * x * z * z)
    m2, n2 = (root + (1 - x * x + z * z)) / 2, (root - (1 - x * x + z * z)) / 2
    m, n = np.sqrt(m2), np.sign(x) * np.sqrt(np.maximum(n2, 0.0))
    of_pressure = n * (m2 - z * z) / (m2 + n2)
    of_friction = 2 * z - m * (1 + (z * z + n2) / (m2 + n2))
    return float(1 / np.abs(of_pressure + friction * of_friction).max())


@pytest.mark.parametrize("friction", [0.0, 0.05, 0.1, 0.2, 0.25, 0.3, 0.367, 0.4, 0.5, 0.8])
def test_line_against_the_elastic_field(friction: float) -> None:
    exact = least_pressure(friction)
    assert exact - 0.03 <= line_shakedown(friction) <= exact + 0.005


def test_the_map_at_its_ends() -> None:
    assert line_shakedown(0.0) == 4.0
    assert line_shakedown(0.5) == pytest.approx(2.0)
    assert point_shakedown(0.0) == 4.7
    assert point_shakedown(0.5) == pytest.approx(2.0)


def test_more_friction_never_lets_more_pressure() -> None:
    rising = np.linspace(0.0, 1.0, 101)
    for shakedown in (line_shakedown, point_shakedown):
        values = [shakedown(float(friction)) for friction in rising]
        assert all(a >= b for a, b in pairwise(values))
    assert all(line_shakedown(friction) == value for friction, value in LINE[:-1])


@pytest.mark.parametrize("friction", [-0.1, float("nan")])
def test_no_friction_below_nothing(friction: float) -> None:
    with pytest.raises(ValueError, match="friction"):
        line_shakedown(friction)
