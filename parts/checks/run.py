"""Every check there is, run on one wheel in its setting."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from platewheel.parts.checks.galvanizing import (
    coating,
    hollows,
    plate_webs,
    thickness_ratio,
    vent_tables,
    vents,
)
from platewheel.parts.checks.making import (
    cutting,
    rolling,
    tolerance,
    weld_access,
    weld_room,
    welder,
)
from platewheel.parts.checks.result import CheckResult, worst_first
from platewheel.parts.checks.running import (
    climb,
    crossings,
    curve,
    flange_contact,
    flange_window,
    own_factors,
    play,
    points,
    rough_track,
    speed,
    steering,
    wear,
)
from platewheel.parts.checks.running import wagon as wagon_checks
from platewheel.parts.checks.strength import (
    consequence,
    contact,
    corner_contact,
    disc_buckling,
    flange_strength,
    hub_strength,
    weld_size,
    weld_strength,
)
from platewheel.parts.checks.strength.load_rating import rating_results
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting

if TYPE_CHECKING:
    from platewheel.parts.rating.assess import Assessment

Check = Callable[[Setting], CheckResult | None]
RUNNING: tuple[Check, ...] = (
    *play.CHECKS,
    *curve.CHECKS,
    *steering.CHECKS,
    *climb.CHECKS,
    *flange_window.CHECKS,
    *flange_contact.CHECKS,
    *rough_track.CHECKS,
    *crossings.CHECKS,
    *points.CHECKS,
    *wear.CHECKS,
    *speed.CHECKS,
    *own_factors.CHECKS,
    *wagon_checks.CHECKS,
)
STRENGTH: tuple[Check, ...] = (
    *contact.CHECKS,
    *corner_contact.CHECKS,
    *weld_size.CHECKS,
    *weld_strength.CHECKS,
    *flange_strength.CHECKS,
    *disc_buckling.CHECKS,
    *hub_strength.CHECKS,
    *consequence.CHECKS,
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
    *welder.CHECKS,
)
CHECKS = (*RUNNING, *STRENGTH, *FINISH, *MAKING)


def run_checks(setting: Setting, assessment: Assessment | None = None) -> list[CheckResult]:
    """Results, worst first; a check that does not apply to this wheel gives none.

    `assessment` is the stress analysis (`parts.rating.assess`); without it the load rating is
    told as not assessed.
    """
    with advice_tried():
        results = [check(setting) for check in CHECKS]
    known = [result for result in results if result is not None]
    return worst_first([*known, *rating_results(setting, assessment)])
