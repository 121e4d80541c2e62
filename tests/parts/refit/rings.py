"""What rings are refitted for: the plain wheel under a light wagon on 457 mm gauge."""

from __future__ import annotations

from typing import Any

from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.wheels import plain_wheel

TRACK = TrackSpec(gauge_mm=457.0, rail_head_width_mm=25.0, min_curve_radius_m=12.0)
WAGON = WagonSpec(tare_kg=160.0, payload_kg=500.0, wheelbase_mm=600.0)


def setting(process: str = "plasma", *, of: WheelSpec | None = None, **wheel: Any) -> Setting:
    """Of that wheel, or of the plain one with some of its keys changed."""
    return Setting(wheel=of or plain_wheel(**wheel), track=TRACK, wagon=WAGON, process=process)
