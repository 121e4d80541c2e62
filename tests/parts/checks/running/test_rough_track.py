"""Rough track: each closed form against the same thing laid out in coordinates."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from platewheel.parts.checks.running.rough_track import (
    climbed_step_mm,
    flange_depth,
    joint_drop,
    joint_push,
    least_depth_mm,
    twist_lift,
    twist_lift_mm,
)
from platewheel.parts.loads.over_joint import climb_angle, gap_drop_mm
from tests.parts.checks.running.settings import running_setting


def test_the_fourth_wheel_of_a_rigid_wagon() -> None:
    """Second way: plane through three of four contact points on a twisted track."""
    twist, base, spacing = 7.0, 800.0, 625.0
    points = [(x, y, twist * x / 1000 * y / spacing) for x in (0, base) for y in (0, spacing)]
    *three, fourth = np.array(points)
    normal = np.cross(three[1] - three[0], three[2] - three[0])
    plane_z = three[0][2] - normal[:2] @ (fourth - three[0])[:2] / normal[2]
    assert abs(fourth[2] - plane_z) == pytest.approx(twist_lift_mm(twist, base))


def test_suspension_decides_whether_a_wheel_lifts() -> None:
    twisted = {"twist_mm_per_m": 15.0}
    rigid = twist_lift(running_setting(**twisted))
    assert rigid is not None
    assert (rigid.verdict, rigid.value) == ("warn", pytest.approx(15 - 15 * 0.6))
    lost = twist_lift(running_setting(twist_mm_per_m=20.0))
    assert lost is not None
    assert lost.verdict == "fail"
    for suspension in ("three-point", "sprung"):
        result = twist_lift(running_setting(**twisted, suspension=suspension))
        assert result is not None
        assert (result.verdict, result.value) == ("pass", 15)
    assert twist_lift(running_setting(axles=1)) is None


def test_step_of_half_the_radius() -> None:
    """Textbook roller: step r / 2, so that the line to the edge stands at 60 degrees."""
    assert math.tan(climb_angle(150, 75)) == pytest.approx(math.sqrt(3))  # push over load
    assert climb_angle(150, 150) == math.pi / 2
    assert climbed_step_mm(1000, 150, 1000 * math.sqrt(3)) == pytest.approx(75)


@pytest.mark.parametrize(("step", "gap"), [(1.0, 5.0), (1.0, 40.0), (0.0, 30.0), (8.0, 20.0)])
def test_angle_to_the_far_edge(step: float, gap: float) -> None:
    """Second way: roll the axle along the near rail and round its end until the wheel touches
    the far edge."""
    r = 150.0

    def above_far_edge(x: float) -> float:
        height = r if x <= 0 else math.sqrt(r * r - x * x)
        return math.hypot(gap - x, height - step) - r

    x = brentq(above_far_edge, -r, gap)
    height = r if x <= 0 else math.sqrt(r * r - x * x)
    expected = math.atan2(gap - x, height - step)
    assert climb_angle(r, step, gap) == pytest.approx(expected, abs=1e-6)


def test_wheels_fall_into_gaps_as_wide_as_themselves() -> None:
    assert gap_drop_mm(30, 60) == 30
    assert climb_angle(30, 20, 60) == math.pi / 2
    assert gap_drop_mm(150, 0) == 0


def test_joints() -> None:
    """4 x 1962 N of wheel load is 800 kg; 1 mm step at r 150 mm: tan(acos(149 / 150))."""
    result = joint_push(running_setting())
    assert result.value == pytest.approx(2 * 1962 * math.sqrt(150**2 - 149**2) / 149)
    assert result.verdict == "warn"
    assert joint_push(running_setting(joint_step_mm=0.5)).verdict == "pass"
    assert joint_drop(running_setting(joint_gap_mm=30.0)).verdict == "pass"
    assert joint_drop(running_setting(joint_gap_mm=40.0)).verdict == "warn"


def test_depth_of_published_practice() -> None:
    """7.5 in wheel standard: 0.187 in; Saxon rules of 1878, standard gauge: 25 mm."""
    assert least_depth_mm(190.5) == pytest.approx(0.187 * 25.4)
    assert least_depth_mm(1435) == pytest.approx(25)
    assert least_depth_mm(2000) == pytest.approx(25)
    assert least_depth_mm(95.25) == pytest.approx(0.187 * 25.4 / 2)
    assert flange_depth(running_setting()).verdict == "pass"
    assert flange_depth(running_setting(flange_depth_mm=9.0)).verdict == "warn"


def test_the_gap_advised_is_that_of_the_whole_circle() -> None:
    """A circle of 98.25 mm sinks 1 mm into 2 sqrt(2 x 98.25 - 1) = 27.96 mm, not into 28."""
    result = joint_drop(
        running_setting(tread_diameter_mm=196.5, vent_circle_mm=140, joint_gap_mm=40)
    )
    assert result.says.endswith("track.joint_gap_mm = 27")
