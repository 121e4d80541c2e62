"""A bush maker's worked example: shaft 5/8 in, length 1 1/32 in, 35 lbf, 120 turns a minute."""

import pytest

from platewheel.parts.wheelset import bush_load as bush


def test_pressure_speed_and_product() -> None:
    psi, fpm = 0.006894757, 0.00508
    pressure = bush.bush_pressure_n_mm2(35 * 4.448222, 0.625 * 25.4, 1.03125 * 25.4)
    speed = bush.rubbing_speed_m_s(0.625 * 25.4, 120)
    assert pressure / psi == pytest.approx(54.3, abs=0.05)
    assert speed / fpm == pytest.approx(19.635, abs=0.005)
    assert pressure * speed / psi / fpm == pytest.approx(1066.2, rel=0.001)


def test_turns_of_a_wheel() -> None:
    assert bush.turns_per_min(6, 318.31) == pytest.approx(100, rel=1e-4)
