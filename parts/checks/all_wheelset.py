"""Every check of the wheelset: axle, bearings, bushes. They judge the axle, not the wheel."""

from __future__ import annotations

from parts.checks import axle_crack, axle_turning, bearing_checks, wheel_retention, wheelset_checks
from parts.checks.result import CheckResult, worst_first
from parts.checks.setting import Setting
from parts.wheelset import Wheelset

CHECKS = (
    *wheelset_checks.CHECKS,
    *axle_crack.CHECKS,
    *axle_turning.CHECKS,
    *bearing_checks.CHECKS,
    *wheel_retention.CHECKS,
)


def run_wheelset_checks(setting: Setting, made: Wheelset) -> list[CheckResult]:
    """Results for the wheelset made of this setting, worst first; what does not apply to it
    gives none."""
    results = [check(setting, made) for check in CHECKS]
    return worst_first([result for result in results if result is not None])
