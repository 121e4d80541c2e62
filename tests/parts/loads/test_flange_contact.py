"""Where a yawed flange touches: against points of the cone laid on the rail one by one."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.flange_contact import (
    attack,
    contact_angle,
    contact_in_curve,
    corners_mm,
    flange_contact,
    lowest_contact,
)
from tests.parts.checks.running.settings import running_setting

RADIUS, DEPTH = 150.0, 15.0


def by_points(angle: float, yaw: float, corner: float, down_to: float = DEPTH) -> tuple[float, ...]:
    """Second way: the point of the face that is first to meet the rail as it is pushed sideways:
    how far down the face, ahead of the axle and below the rail's top it is, and how far the face
    comes past the running edge at its root."""
    down = np.linspace(0, down_to, 3001)[:, None]
    turn = np.linspace(0, 0.6, 4001)[None, :]
    ahead = (RADIUS + down) * np.sin(turn)
    below = (RADIUS + down) * np.cos(turn) - RADIUS
    # yawed about the upright line through the root under the axle
    past = ahead * math.tan(yaw) - down / math.tan(angle)
    room = np.zeros_like(past)
    inside = below < corner
    room[inside] = corner - np.sqrt(corner**2 - (corner - np.clip(below, 0, None)[inside]) ** 2)
    past = np.where(below < 0, -np.inf, past - room)
    at = np.unravel_index(int(np.argmax(past)), past.shape)
    return float(down[at[0], 0]), float(ahead[at]), float(below[at]), float(past[at])


@pytest.mark.parametrize("corner", [0.0, 3.0, 6.0])
@pytest.mark.parametrize(
    ("angle_deg", "yaw"), [(70.0, 0.05), (65.0, 0.12), (76.0, 0.03), (60.0, 0)]
)
def test_the_point_that_meets_the_rail_first(angle_deg: float, yaw: float, corner: float) -> None:
    found = flange_contact(RADIUS, DEPTH, math.radians(angle_deg), yaw, corner)
    down, ahead, below, past = by_points(math.radians(angle_deg), yaw, corner)
    assert not found.tip
    assert found.down_mm == pytest.approx(down, abs=0.1)
    assert found.below_mm == pytest.approx(below, abs=0.15)
    assert found.ahead_mm == pytest.approx(ahead, abs=0.6)
    # and nothing else of the face comes further
    flat = found.ahead_mm * math.tan(yaw) - found.down_mm / math.tan(math.radians(angle_deg))
    flat -= corner - math.sqrt(corner**2 - (corner - found.below_mm) ** 2)
    assert flat == pytest.approx(past, abs=0.01)


@pytest.mark.parametrize(("angle_deg", "yaw"), [(82.0, 0.12), (88.0, 0.05), (90.0, 0.02)])
def test_steep_flanges_touch_with_their_tip(angle_deg: float, yaw: float) -> None:
    found = flange_contact(RADIUS, DEPTH, math.radians(angle_deg), yaw, 0.0)
    assert (found.tip, found.down_mm, found.below_mm) == (True, DEPTH, 0.0)
    assert by_points(math.radians(angle_deg), yaw, 0.0)[0] == pytest.approx(DEPTH, abs=0.02)
    assert found.ahead_mm == pytest.approx(math.sqrt(DEPTH * (2 * RADIUS + DEPTH)))


def test_an_upright_flange_lies_flat_as_long_as_its_tip_does_not_lead() -> None:
    """68.7 mm ahead, a tenth of a millimetre is 1.45 mrad."""
    reach = math.sqrt(DEPTH * (2 * RADIUS + DEPTH))
    for yaw, tip in ((0.0, False), (0.09 / reach, False), (0.11 / reach, True)):
        found = flange_contact(RADIUS, DEPTH, math.pi / 2, yaw, 3.0)
        assert found.tip == tip
        assert found.down_mm == (DEPTH if tip else pytest.approx(3.0))
        assert found.angle == math.pi / 2


def test_contact_advance_of_the_textbooks() -> None:
    """e = r tan delta tan psi: 150 mm, 70 degrees, 50 mrad, 21 mm; for small yaw."""
    found = flange_contact(150.0, 15.0, math.radians(70), 0.05, 0.0)
    assert found.ahead_mm == pytest.approx(21, abs=0.5)
    # psi / cos delta slides there: 0.05 / cos 70 = 14.6 %
    assert found.sliding(150.0, 0.05) == pytest.approx(0.146, abs=0.003)
    low = flange_contact(150.0, 15.0, math.radians(70), 0.0, 9.0)
    assert low.sliding(150.0, 0.0) == pytest.approx(low.below_mm / 150)


@given(
    st.floats(math.radians(45), math.radians(89)),
    st.floats(0, 0.3),
    st.floats(0, 12),
    st.floats(2, 60),
)
def test_it_touches_on_the_face_or_with_the_tip(
    angle: float, yaw: float, corner: float, depth: float
) -> None:
    found = flange_contact(RADIUS, depth, angle, yaw, corner)
    assert 0 <= found.down_mm <= depth + 1e-9
    assert 0 <= found.below_mm <= max(corner, 1e-12)
    if not found.tip:
        assert found.angle >= angle - 1e-12
        on_circle = math.hypot(RADIUS + found.below_mm, found.ahead_mm)
        flat = found.ahead_mm == 0
        assert on_circle == pytest.approx(RADIUS + found.down_mm, abs=1e-6) or flat
    assert contact_angle(angle, 0.0) == pytest.approx(angle)


def test_a_job_s_flange_is_looked_at_on_three_corners() -> None:
    setting = running_setting(rail_corner_radius_mm=4.0)
    assert corners_mm(setting) == (0.0, 4.0, 6.0)
    assert corners_mm(running_setting(rail_corner_radius_mm=1.0)) == (0.0, 1.0, 3.0)
    downs = [contact_in_curve(setting, corner).down_mm for corner in corners_mm(setting)]
    assert downs == sorted(downs)
    assert lowest_contact(setting).down_mm == downs[-1]
    assert contact_in_curve(setting).down_mm == downs[1]
    assert lowest_contact(setting, math.radians(60)).down_mm < downs[-1]
    assert 0.03 < attack(setting) < math.asin(0.03) + 20 / 600


@pytest.mark.parametrize(("angle_deg", "yaw"), [(70.0, 0.05), (65.0, 0.3), (78.0, 0.15)])
def test_the_envelope_is_steeper_than_the_cone(angle_deg: float, yaw: float) -> None:
    """Second way: how far the furthest point of the face comes at the rail's top and 1 mm below."""
    angle, ahead = math.radians(angle_deg), np.linspace(0, 400, 800_001)

    def furthest(below: float) -> float:
        down = np.hypot(RADIUS + below, ahead) - RADIUS
        return float((ahead * math.tan(yaw) - down / math.tan(angle)).max())

    steep = math.atan(1 / (furthest(0.0) - furthest(1.0)))
    assert contact_angle(angle, yaw) == pytest.approx(steep, abs=1e-5)
    assert steep > angle + 1e-3


def test_nearly_upright_flanges_lie_flat_too() -> None:
    """89.9 degrees: k = 1.8 mrad x 573 > 1; 68.7 mm ahead less 15 / 573 of flare, 0.0975 mm."""
    angle = math.radians(89.9)
    flat = flange_contact(RADIUS, DEPTH, angle, 0.0018, 3.0)
    assert not flat.tip
    assert flat.below_mm == flat.down_mm == pytest.approx(3 * (1 - math.cos(angle)), abs=1e-6)
    assert flange_contact(RADIUS, DEPTH, angle, 0.0019, 3.0).tip


def test_a_wheel_square_to_the_rail_touches_with_its_tip() -> None:
    for yaw in (math.pi / 2, 1.7, 3.0):
        assert flange_contact(RADIUS, DEPTH, math.radians(70), yaw, 0.0).tip


def test_a_worn_corner_is_at_most_half_the_head() -> None:
    assert corners_mm(running_setting(rail_head_width_mm=8.0, rail_corner_radius_mm=3.9))[2] == 4.0
