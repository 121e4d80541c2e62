"""What a joint adds: the kink of the path, the impact, its cap."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.joint import (
    JOINT_SHARE,
    impact_n,
    joint_load_n,
    joint_stiffness_n_per_mm,
    rolling_factor,
    unsprung_kg,
)
from platewheel.parts.loads.over_joint import kink
from tests.parts.loads.test_twist import rough

STEPS, GAPS = st.floats(0, 20), st.floats(0, 60)


@given(st.floats(40, 400), STEPS, GAPS)
def test_kink_by_where_the_wheel_stands(radius: float, step: float, gap: float) -> None:
    """The wheel's middle before and after, by bisection along the rails: it stands on the near
    rail's end or the level, then touches the far edge too; the kink is the angle at the middle
    between what it turned about and what it turns about next."""

    def height(x: float) -> float:
        """Of the middle at x: over the near rail to 0, then over its end."""
        return radius if x <= 0 else math.sqrt(radius**2 - x**2)

    if math.hypot(gap, step) >= radius:
        return
    low, high = -2 * radius, gap
    for _ in range(200):
        x = (low + high) / 2
        touches = math.hypot(gap - x, step - height(x)) <= radius
        low, high = (low, x) if touches else (x, high)
    before = math.asin(min(max(low, 0.0) / radius, 1.0))
    after = math.atan2(gap - low, height(low) - step)
    assert kink(radius, step, gap) == pytest.approx(before + after, abs=2e-4)


def test_small_steps_and_gaps() -> None:
    """A step: (2 h / r)^1/2; a gap: g / r. Handbook forms of small angles."""
    assert kink(150.0, 1.0, 0.0) == pytest.approx(math.sqrt(2 / 150), rel=0.01)
    assert kink(150.0, 0.0, 10.0) == pytest.approx(10 / 150, rel=0.01)
    assert kink(150.0, 0.0, 180.0) == pytest.approx(2 * math.asin(0.6))
    assert kink(150.0, 0.0, 250.0) == math.pi / 2
    assert kink(150.0, 150.0, 0.0) == kink(150.0, 10.0, 300.0) == math.pi / 2


def test_step_meets_at_published_speeds() -> None:
    """r 150 mm, 10 km/h: steps of 1, 2, 3 mm are struck at 0.32, 0.45, 0.56 m/s. By hand."""
    for step, speed in ((1.0, 0.32), (2.0, 0.45), (3.0, 0.56)):
        assert kink(150.0, step, 0.0) * 10 / 3.6 == pytest.approx(speed, abs=0.006)


def test_soft_track_of_the_main_line() -> None:
    """Dip of 0.02 rad at 44.4 m/s on a track of 245 kg, 55.4 kN s/m, 62 MN/m: the dynamic part of
    P2 is 167 kN for 1000 kg unsprung, 102 kN for 500 kg; values of GM/TT0088 (1993), from memory,
    the results by hand."""
    for mass, dynamic in ((1000.0, 167.0), (500.0, 102.0)):
        found = impact_n(44.4, 0.02, mass, 62_000.0, 245.0, 55_400.0)
        assert found == pytest.approx(1000 * dynamic, rel=0.01)


def test_soft_track_of_a_light_line() -> None:
    """Dip of 0.02 rad at 20 km/h, 30 kg on 5 MN/m, 20 kg and 5 kN s/m of track: 792 N. By hand."""
    assert impact_n(20 / 3.6, 0.02, 30.0, 5000.0) == pytest.approx(792.2, abs=0.2)


def test_impact_falls_to_nothing_with_damping() -> None:
    assert impact_n(1.0, 0.1, 10.0, 100.0, 10.0, 1e6) == 0.0


def test_no_harder_than_the_step_presses() -> None:
    """Fast and heavy: stiffness of joint and contact in a row, times step and sag in the gap."""
    fast = rough(max_speed_km_h=40.0, joint_step_mm=2.0, joint_gap_mm=10.0)
    stiffness = joint_stiffness_n_per_mm(fast)
    joint = JOINT_SHARE * 5000
    assert stiffness == pytest.approx(joint * 500_000 / (joint + 500_000))
    sag = 150 - math.sqrt(150**2 - 25)
    assert joint_load_n(fast, 2000.0) == pytest.approx(stiffness * (2 + sag))
    slow = rough(max_speed_km_h=1.0, joint_step_mm=2.0, joint_gap_mm=10.0)
    assert joint_load_n(slow, 2000.0) == pytest.approx(
        impact_n(1 / 3.6, kink(150.0, 2.0, 10.0), 2000 / 9.81, stiffness)
    )


def test_mass_that_is_lifted() -> None:
    """800 kg on four wheels, 200 of it tare: a share of 200 kg, sprung a third of 50 kg."""
    assert unsprung_kg(rough(), 200 * 9.81) == pytest.approx(200.0)
    assert unsprung_kg(rough(suspension="sprung"), 200 * 9.81) == pytest.approx(50 / 3)
    assert unsprung_kg(rough(unsprung_kg=30.0), 200 * 9.81) == 30.0
    assert unsprung_kg(rough(unsprung_kg=90.0), 50 * 9.81) == pytest.approx(50.0)


def test_roughness_between_joints() -> None:
    """Talbot (AREMA, from memory): 1 + 33 V / (100 D) with 10 mph on 30 in is 1.11; D 300 mm at
    10, 20, 30 km/h: 1.17, 1.35, 1.52."""
    assert rolling_factor(16.09344, 762.0) == pytest.approx(1.11, abs=0.001)
    for speed, factor in ((10.0, 1.17), (20.0, 1.35), (30.0, 1.52)):
        assert rolling_factor(speed, 300.0) == pytest.approx(factor, abs=0.005)
