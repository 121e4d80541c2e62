"""Reach of a flange before the axle, the room it takes in a curve, and overturning.

Plain geometry and statics, worked out apart from this program; and
Redtenbacher's rolling condition y = r e / (lambda R), from memory.
"""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.curve import (
    lateral_room_mm,
    radial_error,
    rail_top_reach_mm,
    sagitta_mm,
)
from platewheel.parts.checks.running.steering import rolling_offset_mm
from platewheel.parts.wagon.curving import overturning_speed_m_s


@pytest.mark.parametrize(
    ("radius", "depth", "reach"), [(150, 15, 68.74), (100, 12, 50.44), (225, 25, 108.97)]
)
def test_reach(radius: float, depth: float, reach: float) -> None:
    """sqrt(2 r h + h^2); 108.97 is sqrt(11875) = 108.9725."""
    assert rail_top_reach_mm(radius, depth) == pytest.approx(reach, abs=0.01)


def test_room_of_an_unflared_flange() -> None:
    """Reach 68.74, yaw 0.03, 10 m curve: 2.06 from the yaw and 0.24 from the rail, 2.30 mm."""
    reach = rail_top_reach_mm(150, 15)
    assert reach * math.tan(0.03) == pytest.approx(2.06, abs=0.005)
    assert sagitta_mm(2 * reach, 10000) == pytest.approx(0.24, abs=0.005)
    washer = lateral_room_mm(150, 15, math.pi / 2, 0.03, 10000)
    assert washer == pytest.approx(2.30, abs=0.005)


def test_yaw_of_a_rigid_wheelbase() -> None:
    """0.6 m in a 10 m curve: 0.030 rad, 1.72 degrees."""
    assert radial_error(600, 10000) == pytest.approx(0.030, abs=0.0005)
    assert math.degrees(radial_error(600, 10000)) == pytest.approx(1.72, abs=0.005)


def test_overturning() -> None:
    """sqrt(9.81 x 10 x 0.325 / 0.70): 6.75 m/s, 24.3 km/h."""
    speed = overturning_speed_m_s(325, 700, 10)
    assert speed == pytest.approx(6.75, abs=0.005)
    assert 3.6 * speed == pytest.approx(24.3, abs=0.05)


def test_coning_cannot_steer_a_tight_curve() -> None:
    """Redtenbacher (from memory): r 150, half spacing 325, 1 in 20, 10 m: 97.5 mm."""
    assert rolling_offset_mm(150, 650, 1 / 20, 10000) == pytest.approx(97.5)
