"""Does the consequence class fit the way the wagons run?"""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import FATIGUE_FACTORS, Setting

LOW_KM_H = 10.0  # a run beside a wagon; common practice, no source


def consequence(setting: Setting) -> CheckResult | None:
    """Speed against what a low consequence is thought for; nothing to say of a high one."""
    if setting.use.consequence == "high":
        return None
    low, high = FATIGUE_FACTORS["low"], FATIGUE_FACTORS["high"]
    return judged(
        "consequence",
        "Speed that a low consequence of a crack allows",
        setting.wagon.max_speed_km_h,
        LOW_KM_H,
        "km/h",
        "EN 1993-1-9:2005, table 3.1, from memory; most speed by common practice, no source",
        at_most=True,
        good=f"goods at this pace: factor {low:g} on fatigue; with people or falling track set "
        f'use.consequence = "high", factor {high:g}',
        bad='a wheel that breaks at this speed hurts someone: use.consequence = "high" '
        f"(factor {high:g} on fatigue in place of {low:g})",
        bad_verdict="warn",
    )


CHECKS = (consequence,)
