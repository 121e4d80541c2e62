"""Wear against the limits at which wheels are scrapped: a thin flange, a hollow tread."""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import (
    least_flange_mm,
    most_hollow_mm,
    unworn_band_mm,
    worn_flange_mm,
)


def thin_flange(setting: Setting) -> CheckResult:
    """Flange left at its root when its allowance is worn off."""
    left, limit = worn_flange_mm(setting), least_flange_mm(setting)
    wear = setting.flange_reach_mm - limit
    key, most = "use.flange_wear_mm", at_most(wear)
    if setting.use.flange_wear_mm is None:
        key, most = "use.wear_allowance_mm", at_most(wear * math.sin(setting.wheel.flange_angle))
    return judged(
        "flange-thin",
        "Flange left when worn, root to back",
        left,
        limit,
        "mm",
        "three quarters of the plate; 7.5 in wheel standard: a flange of 0.117 in of 0.156",
        at_most=False,
        good=f"scrap a wheel whose flange is thinner than {limit:.1f} mm at its root, along the "
        f"axle; new it has {setting.flange_reach_mm:.1f}",
        bad=f"wheels are scrapped long before: {key} = {most}, or a thicker flange",
        bad_verdict="fail" if left <= limit / 2 else "warn",
    )


def hollow_tread(setting: Setting) -> CheckResult:
    """Depth of the hollow that the tread's allowance makes beside what no rail reaches."""
    band, limit = unworn_band_mm(setting), most_hollow_mm(setting)
    hollow = setting.use.wear_allowance_mm if band else 0.0
    return judged(
        "tread-hollow",
        "Hollow of the worn tread",
        hollow,
        limit,
        "mm",
        "0.15 of the flange's depth, at most 2 mm to 15 mm of depth, by judgement: 49 CFR "
        "condemns 7.9 mm on the road, of flanges 25 to 38 mm deep",
        at_most=True,
        good=f"scrap or turn a wheel hollow by more than {limit:.1f} mm: "
        + (
            f"its outer {band:.0f} mm never wear and would run on wing rails as a false flange"
            if band
            else "the rail reaches all of this tread, so that it wears level"
        ),
        bad=f"its outer {band:.0f} mm stand out as a false flange, which lifts the wheel at "
        f"crossings and drives the other flange to its rail: use.wear_allowance_mm = "
        f"{at_most(limit)}, or a narrower tread",
        bad_verdict="warn",
    )


CHECKS = (thin_flange, hollow_tread)
