"""Every check there is, run on one wheel in its setting."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from parts.checks import (
    climb,
    coating,
    contact,
    crossings,
    curve,
    cutting,
    disc_buckling,
    flange_strength,
    flange_window,
    hollows,
    hub_strength,
    plate_webs,
    play,
    rolling,
    rough_track,
    speed,
    steering,
    thickness_ratio,
    tolerance,
    vent_tables,
    vents,
    wagon_checks,
    weld_access,
    weld_room,
    weld_size,
    weld_strength,
)
from parts.checks.load_rating import rating_results
from parts.checks.result import CheckResult, worst_first
from parts.checks.setting import Setting

if TYPE_CHECKING:
    from parts.rating.assess import Assessment

Check = Callable[[Setting], CheckResult | None]
RUNNING: tuple[Check, ...] = (
    *play.CHECKS,
    *curve.CHECKS,
    *steering.CHECKS,
    *climb.CHECKS,
    *flange_window.CHECKS,
    *rough_track.CHECKS,
    *crossings.CHECKS,
    *speed.CHECKS,
    *wagon_checks.CHECKS,
)
STRENGTH: tuple[Check, ...] = (
    *contact.CHECKS,
    *weld_size.CHECKS,
    *weld_strength.CHECKS,
    *flange_strength.CHECKS,
    *disc_buckling.CHECKS,
    *hub_strength.CHECKS,
)
FINISH: tuple[Check, ...] = (
    *vents.CHECKS,
    *vent_tables.CHECKS,
    *hollows.CHECKS,
    *thickness_ratio.CHECKS,
    *coating.CHECKS,
)
MAKING: tuple[Check, ...] = (
    *plate_webs.CHECKS,
    *rolling.CHECKS,
    *cutting.CHECKS,
    *tolerance.CHECKS,
    *weld_access.CHECKS,
    *weld_room.CHECKS,
)
CHECKS = (*RUNNING, *STRENGTH, *FINISH, *MAKING)


def run_checks(setting: Setting, assessment: Assessment | None = None) -> list[CheckResult]:
    """Results, worst first; a check that does not apply to this wheel gives none.

    `assessment` is the stress analysis (`parts.rating.assess`); without it the load rating is
    told as not assessed.
    """
    results = [check(setting) for check in CHECKS]
    known = [result for result in results if result is not None]
    return worst_first([*known, *rating_results(setting, assessment)])
