"""Shigley, Mechanical Engineering Design, example 7-1, all numbers from memory.

Shaft 1.1 in beside 1.65 in, fillet 0.11 in, Rm 105 kpsi, M 1260 lbf in:
ka 0.787, kb 0.870, ke 0.814, Se 29.3 kpsi, Kt 1.68, q 0.85, Kf 1.58, amplitude 15 235 psi.
Chart readings: 1.5 %.
"""

import pytest

from parts import axle_fatigue as fatigue
from parts.axle_strength import bending_stress_n_mm2

KPSI, INCH = 6.894757, 25.4
RM = 105 * KPSI


def test_marin_factors() -> None:
    assert fatigue.surface_factor(RM, "machined") == pytest.approx(0.787, rel=0.003)
    assert fatigue.size_factor(1.1 * INCH) == pytest.approx(0.870, rel=0.003)
    assert fatigue.endurance_n_mm2(RM, 1.1 * INCH) == pytest.approx(29.3 * KPSI, rel=0.005)


def test_a_higher_shoulder_is_a_sharper_notch_up_to_the_charts_end() -> None:
    found = [fatigue.shoulder_kt(30 * ratio, 30, 1) for ratio in (1.02, 1.3, 1.8, 2.5, 6, 9)]
    assert found[:-1] == sorted(set(found[:-1]))
    assert found[-1] == found[-2]


def test_notch_and_amplitude() -> None:
    kt = fatigue.shoulder_kt(1.65, 1.1, 0.11)
    kf = fatigue.notch_factor(kt, 0.11 * INCH, RM)
    moment = 1260 * 4.448222 * INCH
    assert kt == pytest.approx(1.68, rel=0.015)
    assert kf == pytest.approx(1.58, rel=0.015)
    amplitude = kf * bending_stress_n_mm2(moment, 1.1 * INCH)
    assert amplitude == pytest.approx(15.235 * KPSI, rel=0.015)


def test_dead_axle_stands_more_than_a_turning_one() -> None:
    found = [fatigue.fatigue_safety(100, 1.5, 470, 180, turning) for turning in (True, False)]
    assert found[0] == pytest.approx(1.2)
    assert found[1] == pytest.approx(1 / (75 / 180 + 75 / 470))
