"""Every check of the wheelset: axle, bearings, bushes. They judge the axle, not the wheel."""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult, worst_first
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.checks.wheelset import axle_bending as wheelset_checks
from platewheel.parts.checks.wheelset import axle_crack, axle_turning, shop_tools, wheel_retention
from platewheel.parts.checks.wheelset import bearings as bearing_checks
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset

CHECKS = (
    *wheelset_checks.CHECKS,
    *axle_crack.CHECKS,
    *axle_turning.CHECKS,
    *bearing_checks.CHECKS,
    *wheel_retention.CHECKS,
    *shop_tools.CHECKS,
)


def run_wheelset_checks(setting: Setting, made: Wheelset) -> list[CheckResult]:
    """Results for the wheelset made of this setting, worst first, with advice that was tried;
    what does not apply to it gives none."""
    with advice_tried():
        results = [check(setting, made) for check in CHECKS]
    return worst_first([result for result in results if result is not None])
