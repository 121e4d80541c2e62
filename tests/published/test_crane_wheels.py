"""Mean pressure of crane wheels: FEM 1.001, as quoted by kinocranes.com."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.strength.contact import (
    crane_limit_n_mm2,
    crane_wheel_load_n,
    hertz_of_crane_n_mm2,
)
from platewheel.parts.stress.hertz import contact_modulus_n_mm2, line_pressure_n_mm2


@pytest.mark.parametrize(("mean", "hertz"), [(5.6, 641.6), (7.2, 727.5)])
def test_stress_behind_the_limit(mean: float, hertz: float) -> None:
    """FEM 1.001: sigma^2 / (0.35 E) = P / (b D), E 210 000."""
    assert hertz_of_crane_n_mm2(mean) == pytest.approx(hertz, abs=0.05)


@pytest.mark.parametrize(("width", "diameter"), [(17.0, 300.0), (45.0, 630.0)])
def test_the_rule_is_hertz(width: float, diameter: float) -> None:
    """0.35 = 2 x 0.418^2: both must agree within 0.2 %."""
    load = crane_wheel_load_n(5.6, width, diameter)
    hertz = line_pressure_n_mm2(load, width, diameter, contact_modulus_n_mm2())
    assert hertz == pytest.approx(hertz_of_crane_n_mm2(5.6), rel=2e-3)


def test_load_of_a_wheel() -> None:
    """Plain product: 5.6 x 30 x 300 = 50.4 kN."""
    assert crane_wheel_load_n(5.6, 30, 300) == pytest.approx(50.4e3)


@pytest.mark.parametrize(
    ("fu", "limit"),
    [(360, 5.6 * 0.5), (410, 5.6 * 0.63), (470, 5.6 * 0.63), (600, 5.6), (900, 7.2)],
)
def test_limit_by_strength(fu: float, limit: float) -> None:
    """DIN 15070, 5.6 c1, and FEM 1.001, PL; both tables from memory."""
    assert crane_limit_n_mm2(fu) == pytest.approx(limit)


def test_a_softer_steel_has_no_limit() -> None:
    with pytest.raises(ValueError, match="fu_n_mm2"):
        crane_limit_n_mm2(300)
