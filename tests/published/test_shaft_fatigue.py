"""Shigley, Mechanical Engineering Design, example 7-1, all numbers from memory.

Shaft 1.1 in beside 1.65 in, fillet 0.11 in, Rm 105 kpsi, M 1260 lbf in:
ka 0.787, kb 0.870, ke 0.814, Se 29.3 kpsi, Kt 1.68, q 0.85, Kf 1.58, amplitude 15 235 psi.
Chart readings: 1.5 %.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.wheelset import axle_fatigue as fatigue
from platewheel.parts.wheelset.axle_strength import bending_stress_n_mm2, torsion_stress_n_mm2

KPSI, INCH = 6.894757, 25.4
RM = 105 * KPSI
LBF_IN = 4.448222 * INCH


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
    moment = 1260 * LBF_IN
    assert kt == pytest.approx(1.68, rel=0.015)
    assert kf == pytest.approx(1.58, rel=0.015)
    amplitude = kf * bending_stress_n_mm2(moment, 1.1 * INCH)
    assert amplitude == pytest.approx(15.235 * KPSI, rel=0.015)


def test_torsion_and_the_whole_shaft() -> None:
    """The same shaft, 1100 lbf in steady: Kts 1.42, Kfs 1.37 to 1.39, DE-Goodman n = 1.62."""
    kts = fatigue.shoulder_kts(1.65, 1.1, 0.11)
    kfs = fatigue.notch_factor(kts, 0.11 * INCH, RM, torsion=True)
    assert kts == pytest.approx(1.42, rel=0.06)  # the fit takes the chart's D / d of 2, safe
    assert kfs == pytest.approx(1.38, rel=0.06)
    found = fatigue.fatigue_safety(
        fatigue.Stresses(
            bending_amplitude=bending_stress_n_mm2(1260 * LBF_IN, 1.1 * INCH),
            torsion_mean=torsion_stress_n_mm2(1100 * LBF_IN, 1.1 * INCH),
        ),
        1.58,
        1.37,
        RM,
        29.3 * KPSI,
    )
    assert found == pytest.approx(1.62, abs=0.01)


@given(ratio=st.floats(1, 8), more=st.floats(0, 2), fillet=st.floats(0.2, 9))
def test_a_higher_shoulder_is_never_a_milder_notch(
    ratio: float, more: float, fillet: float
) -> None:
    for chart in (fatigue.shoulder_kt, fatigue.shoulder_kts):
        assert chart(30 * (ratio + more), 30, fillet) >= chart(30 * ratio, 30, fillet) >= 1


def test_dead_axle_stands_more_than_a_turning_one() -> None:
    turning = fatigue.Stresses(bending_amplitude=100)
    dead = fatigue.Stresses(bending_amplitude=50, bending_mean=50)
    assert fatigue.fatigue_safety(turning, 1.5, 1.5, 470, 180) == pytest.approx(1.2)
    found = fatigue.fatigue_safety(dead, 1.5, 1.5, 470, 180)
    assert found == pytest.approx(1 / (75 / 180 + 75 / 470))
