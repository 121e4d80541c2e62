"""Every check there is, run on one wheel in its setting."""

from __future__ import annotations

from parts.checks.plate_webs import vent_web
from parts.checks.result import CheckResult, worst_first
from parts.checks.rolling import ring_curvature
from parts.checks.vents import vent_number, vent_place, vent_size
from parts.checks.weld_room import weld_room
from parts.track_spec import FinishSpec
from parts.wheel_spec import WheelSpec


def run_checks(wheel: WheelSpec, finish: FinishSpec) -> list[CheckResult]:
    """Results, worst first; checks that do not apply to this wheel are left out."""
    results = [
        vent_number(wheel, finish),
        vent_size(wheel, finish),
        vent_place(wheel, finish),
        vent_web(wheel),
        weld_room(wheel),
        ring_curvature(wheel),
    ]
    return worst_first([result for result in results if result is not None])
