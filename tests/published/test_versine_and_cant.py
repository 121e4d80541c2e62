"""Versines of curves and equilibrium cant against published examples.

Sources, named again beside each check:
- hivanix.in and curioustab.com, railway tutorials: versine V = 125 C^2 / R, C and R in m, V in mm.
- sarthaks.com, curioustab.com, formuladen.com: equilibrium cant e = G V^2 / (127 R), worked.
"""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.curve import sagitta_mm
from platewheel.parts.wagon.curving import equilibrium_cant_mm


@pytest.mark.parametrize(
    ("chord_m", "radius_m", "tutorial_mm", "exact_mm", "digits"),
    [
        (10, 500, 25.0, 25.0006, 0.00005),
        (2, 5, 100.0, 101.02, 0.005),
        (1, 7.62, 16.40, 16.42, 0.005),
    ],
)
def test_versine(
    chord_m: float, radius_m: float, tutorial_mm: float, exact_mm: float, digits: float
) -> None:
    """V = 125 C^2 / R (hivanix.in, curioustab.com) holds on main lines only; the exact values
    are R - sqrt(R^2 - (C/2)^2), worked apart. Ours is the exact one."""
    ours = sagitta_mm(1000 * chord_m, 1000 * radius_m)
    assert 125 * chord_m**2 / radius_m == pytest.approx(tutorial_mm, abs=0.005)
    assert ours == pytest.approx(exact_mm, abs=digits)
    assert ours > 125 * chord_m**2 / radius_m  # the approximation always falls short


def test_versine_of_the_whole_circle_is_its_radius() -> None:
    """Plain geometry."""
    assert sagitta_mm(2000, 1000) == pytest.approx(1000)


@pytest.mark.parametrize(
    ("gauge_m", "speed_km_h", "radius_m", "cant_m"),
    [(1.676, 60, 300, 0.158), (1.000, 81, 344, 0.1502), (0.762, 81, 344, 0.1144)],
)
def test_equilibrium_cant(
    gauge_m: float, speed_km_h: float, radius_m: float, cant_m: float
) -> None:
    """sarthaks.com, curioustab.com, formuladen.com: broad, metre and narrow gauge."""
    cant_mm = equilibrium_cant_mm(1000 * gauge_m, speed_km_h, radius_m)
    assert cant_mm / 1000 == pytest.approx(cant_m, abs=0.0005)
