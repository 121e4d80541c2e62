"""Every check there is, run on one wheel in its setting."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from parts.checks.plate_webs import vent_web
from parts.checks.result import CheckResult, worst_first
from parts.checks.rolling import ring_curvature
from parts.checks.setting import Setting
from parts.checks.vents import vent_number, vent_place, vent_size
from parts.checks.weld_room import weld_room

Check = Callable[[Setting], CheckResult | None]
CHECKS: tuple[Check, ...] = (
    vent_number,
    vent_size,
    vent_place,
    vent_web,
    weld_room,
    ring_curvature,
)


def run_checks(setting: Setting, checks: Iterable[Check] = CHECKS) -> list[CheckResult]:
    """Results, worst first; a check that does not apply to this wheel gives none."""
    results = [check(setting) for check in checks]
    return worst_first([result for result in results if result is not None])
