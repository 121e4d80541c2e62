"""Checks of a wheel with a disc of one's own: what may ask about the disc gives no verdict."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.galvanizing import coating, hollows, thickness_ratio
from platewheel.parts.checks.making import rolling, tolerance, weld_access, weld_room
from platewheel.parts.checks.result import CheckResult, worst_first
from platewheel.parts.checks.run import RUNNING, Check, run_checks
from platewheel.parts.checks.run_wheelset import run_wheelset_checks
from platewheel.parts.checks.strength import (
    consequence,
    contact,
    corner_contact,
    flange_strength,
    hub_strength,
    weld_size,
)
from platewheel.parts.checks.wheelset import wheel_retention
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.own_disc import as_fitted_faults, openings
from platewheel.parts.wheelset.assembly import Wheelset

OF_NO_DISC = (
    *RUNNING,
    *contact.CHECKS,
    *corner_contact.CHECKS,
    *rolling.CHECKS,
    *flange_strength.CHECKS,
    *weld_size.CHECKS,
    *consequence.CHECKS,
    *thickness_ratio.CHECKS,
    coating.coating_life,
    weld_access.root_groove,
    weld_access.seam_gap,
    weld_room.root_room,
)
WITH_TUBE = (hub_strength.bore_pressure,)  # what bears on the tube, where there is one
AS_FITTED = (
    tolerance.fit_allowance,
    weld_access.fillet_gap,
)  # of a disc drawn by the fit
SAYS = "the disc is one of your own: only plain discs with round vents are judged here"


def own_disc_checks(setting: Setting, made: Wheelset | None) -> list[CheckResult]:
    """All checks of a setting with a disc of one's own and of its wheelset, worst first.

    What asks about vents is among them, told of a wheel that has some, and gives no verdict; but
    without any opening the box is sealed, whatever the disc.
    """
    found = not_of_own_disc(run_checks(_vented(setting)), setting)
    sealed = None if not setting.disc or openings(setting.disc) else hollows.sealed_hollow(setting)
    if sealed:
        found = [sealed if one.id == sealed.id else one for one in found]
    if made is not None:
        axle = run_wheelset_checks(setting, made)
        on_discs = () if setting.wheel.has_tube else wheel_retention.CHECKS
        held = {one.id for check in on_discs if (one := check(setting, made))}
        found += [_not_assessed(one) if one.id in held else one for one in axle]
    return worst_first(found)


def _vented(setting: Setting) -> Setting:
    """The same with two plain vents between hub hole and rim, so that no check of vents is left
    out of the list."""
    wheel = setting.wheel
    hub, rim = wheel.hub_hole_diameter_mm, disc_diameter_mm(wheel, "field")
    vents = {
        "vent_count": 2,
        "vent_circle_mm": (rim + hub) / 2,
        "vent_diameter_mm": (rim - hub) / 8,
    }
    return replace(setting, wheel=unchecked(wheel, vents))


def not_of_own_disc(results: Iterable[CheckResult], setting: Setting) -> list[CheckResult]:
    """The same results, without a verdict where the check may ask about the disc.

    With a verdict stay track and flange, tread on rail, rolling of the ring, the flange and its
    root, what asks about the plates' thickness alone, about a hub tube, or about the gap at rim and
    hub of a disc that is drawn by it.
    """
    asked: tuple[Check, ...] = OF_NO_DISC
    if setting.wheel.has_tube:
        asked += WITH_TUBE
    if setting.disc and not [*as_fitted_faults(setting.wheel, setting.disc)]:
        asked += AS_FITTED
    stay = {found.id for check in asked if (found := check(setting)) is not None}
    return worst_first([one if one.id in stay else _not_assessed(one) for one in results])


def _not_assessed(result: CheckResult) -> CheckResult:
    return replace(
        result,
        value=None,
        limit=None,
        margin=None,
        at_most=None,
        verdict="not-assessed",
        says=SAYS,
    )
