"""Load that a twisted track moves: statics of a frame on four springs, solved another way."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.twist import (
    axle_places_mm,
    lifted_share,
    moved_load_n,
    placing,
    spring_stiffness_n_per_mm,
    twisted_load_n,
)
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.running.settings import running_setting

DERIVED: dict[str, Any] = {
    "load_unevenness": None,
    "shock_factor": None,
    "lateral_share": None,
    "friction_high": 0.36,
}


def rough(**keys: Any) -> Setting:
    return running_setting(**(DERIVED | keys))


@given(
    st.floats(0.1, 60), st.floats(100, 1500), st.floats(10, 1e5), st.floats(1e8, 1e13),
    st.floats(200, 3000),
)  # fmt: skip
def test_as_four_springs_and_a_torsion_bar(
    change: float, spacing: float, c: float, gj: float, base: float
) -> None:
    """Unknowns: roll of either end of the frame. Each axle's couple c s^2 / 2 (track - roll)
    turns the bar with GJ / L; numpy solves the two equations."""
    axle, bar = c * spacing**2 / 2, gj / base
    stiffness = np.array([[axle + bar, -bar], [-bar, axle + bar]])
    half = change / 2 / spacing  # one axle rolled so, the other the other way
    rolls = np.linalg.solve(stiffness, [axle * half, -axle * half])
    couple = axle * (half - rolls[0])
    found = moved_load_n(change, spacing, c, gj, base)
    assert found == pytest.approx(couple / spacing, rel=1e-4)


def test_a_worked_example() -> None:
    """1:50 over 0.8 m, rails 0.64 m apart, 2 kN/mm a wheel: 0.71 kN with a frame of 20 kN m/rad,
    3.95 kN with 200, 8 kN rigid. By hand."""
    for per_rad, moved in ((20.0, 0.71), (200.0, 3.95), (1e9, 8.0)):
        gj = per_rad * 1e6 * 800
        assert moved_load_n(16.0, 640.0, 2000.0, gj, 800.0) == pytest.approx(1000 * moved, rel=0.01)


def test_what_a_job_s_twist_moves() -> None:
    """5 mm/m over 650 mm and a step of 1 mm; rails 625 mm apart, 5 kN/mm, 20 kN m2. By hand; with
    springs of 15 mm under 200 kg each wheel has 127.5 N/mm."""
    frame = 625**2 * 650 / 20e9
    rigid, sprung = (rough(wheelbase_mm=650.0, suspension=s) for s in ("rigid", "sprung"))
    mean = rigid.static_wheel_load_n
    assert twisted_load_n(rigid, mean) == pytest.approx(4.25 / (4 / 5000 + frame))
    c = 1 / (1 / 5000 + 15 / (200 * 9.81))
    assert twisted_load_n(sprung, mean) == pytest.approx(4.25 / (4 / c + frame))


def test_stiff_frames_stand_on_one_diagonal() -> None:
    """Twist enough to lift a wheel of a stiff frame: two wheels carry all, twice the mean each."""
    stiff = rough(frame_torsion_kn_m2=1e5, twist_mm_per_m=50.0, stiffness_n_per_mm=1e6)
    mean = stiff.static_wheel_load_n
    assert placing(stiff) + twisted_load_n(stiff, mean) / mean == pytest.approx(2.0)
    six = rough(frame_torsion_kn_m2=1e5, twist_mm_per_m=50.0, stiffness_n_per_mm=1e6, axles=3)
    mean = six.static_wheel_load_n
    assert placing(six) + twisted_load_n(six, mean) / mean == pytest.approx(3.0)


def test_soft_frames_and_springs_move_less() -> None:
    mean = rough().static_wheel_load_n
    moved = [
        twisted_load_n(rough(twist_mm_per_m=5.0, **keys), mean)
        for keys in (
            {"suspension": "three-point"},
            {"suspension": "sprung"},
            {},
            {"frame_torsion_kn_m2": 60.0},
        )
    ]
    assert moved[0] == 0.0
    assert moved == sorted(moved)
    assert len(set(moved)) == len(moved)


@given(st.integers(2, 8), st.floats(200, 3000))
def test_a_lifted_wheel_of_a_stiff_frame(axles: int, base: float) -> None:
    """A plane fitted to 2 n springs by least squares (numpy), one of them lifted by 1 mm: what it
    keeps of it, the worst of all wheels."""
    setting = rough(axles=axles, wheelbase_mm=base)
    places = [(x, y) for x in axle_places_mm(setting) for y in (-1.0, 1.0)]
    plane = np.array([(1.0, x / base, y) for x, y in places])
    keeps = 1 - np.diag(plane @ np.linalg.pinv(plane))
    assert lifted_share(setting) == pytest.approx(keeps.max())


def test_a_step_under_one_of_six_wheels() -> None:
    """Three axles: the middle wheel takes two thirds of stiffness x step; of two a quarter."""
    keys: dict[str, Any] = {"twist_mm_per_m": 0.0, "frame_torsion_kn_m2": 1e6}
    two, six = rough(**keys, payload_kg=9000.0), rough(**keys, axles=3, payload_kg=9000.0)
    assert twisted_load_n(two, two.static_wheel_load_n) == pytest.approx(1250, rel=1e-3)
    assert twisted_load_n(six, six.static_wheel_load_n) == pytest.approx(10_000 / 3)
    high = rough(**keys, axles=3, payload_kg=9000.0, joint_step_mm=2 * six.track.joint_step_mm)
    assert twisted_load_n(high, 1e9) == pytest.approx(20_000 / 3)


def test_one_axle_has_no_twist() -> None:
    assert twisted_load_n(rough(axles=1), 5000.0) == 0.0


def test_step_counts_as_cross_level() -> None:
    """5 mm/m over 0.6 m and a step of 1 mm are as much as 4 mm."""
    one = rough(twist_mm_per_m=5.0, joint_step_mm=1.0)
    other = rough(twist_mm_per_m=20 / 3, joint_step_mm=0.0)
    mean = one.static_wheel_load_n
    assert twisted_load_n(one, mean) == pytest.approx(twisted_load_n(other, mean))


def test_springs_by_their_sag() -> None:
    """800 kg on four wheels, 1962 N each; 20 mm of sag are 98.1 N/mm, 15 mm unless told."""
    assert spring_stiffness_n_per_mm(rough(suspension="sprung", spring_sag_mm=20.0)) == (
        pytest.approx(98.1)
    )
    assert spring_stiffness_n_per_mm(rough(suspension="sprung")) == pytest.approx(130.8)
    assert spring_stiffness_n_per_mm(rough()) is None


def test_on_three_points_one_axle_bears_what_lies_off_the_middle() -> None:
    assert placing(rough(load_placing=1.1)) == pytest.approx(1.1)
    assert placing(rough(load_placing=1.1, suspension="three-point")) == pytest.approx(1.2)
    three = rough(load_placing=1.1, suspension="three-point", axles=3)
    assert placing(three) == pytest.approx(1.3)
    assert placing(rough(load_placing=1.1, suspension="sprung")) == pytest.approx(1.1)
