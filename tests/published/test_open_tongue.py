"""EN 13232-9 (Annex C, networks): an open tongue stands at least 58 mm off on 1435 mm gauge, with
1357 mm back to back and flanges of 20 mm at their least (EBO annex 6); both read. Without yaw:
bogies are long beside the play."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.curve import rail_top_reach_mm
from platewheel.parts.checks.running.points import open_way_mm, points_yaw, yawed_back_mm
from tests.parts.checks.running.settings import running_setting


def test_an_open_tongue_of_the_main_line() -> None:
    keys = {"gauge_mm": 1435.0, "flange_angle_deg": 90.0, "flange_thickness_mm": 20.0}
    keys |= {"back_to_back_mm": 1360.0, "back_to_back_tolerance_mm": (-3.0, 3.0)}
    setting = running_setting(**keys, flange_wear_mm=0.0, wear_allowance_mm=0.0)
    assert setting.flange_reach_mm == pytest.approx(20)
    yaw = points_yaw(setting, setting.play_mm + 3.0)
    back = yawed_back_mm(1357 + 20, rail_top_reach_mm(150, 15), yaw)
    assert open_way_mm(setting) - back == pytest.approx(58)
