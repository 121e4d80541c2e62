"""Do thick and thin parts heat alike in the zinc bath?"""

from __future__ import annotations

from platewheel.parts.base.units import at_least, at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.kinds import kinds_of

WARN_ABOVE, FAIL_ABOVE = 2.5, 4.0


def thickness_ratio(setting: Setting) -> CheckResult | None:
    """Thickest over thinnest of the welded parts: above 2.5 they warp, above 4 none is taken."""
    if setting.finish.coating != "galvanized":
        return None
    spec = setting.wheel
    walls = {
        kind.thickness_key or f"{kind.title} wall": kind.thickness_mm(spec)
        for kind in kinds_of(spec)
    }
    thick, thin = max(walls, key=walls.__getitem__), min(walls, key=walls.__getitem__)
    ratio = walls[thick] / walls[thin]
    limit = FAIL_ABOVE if ratio > FAIL_ABOVE else WARN_ABOVE
    least, most = walls[thick] / limit, walls[thin] * limit
    thinner = " and ".join(key for key, wall in walls.items() if wall < least)
    thicker = " and ".join(key for key, wall in walls.items() if wall > most)
    return judged(
        "thickness-ratio",
        "Thickest over thinnest part in the zinc bath",
        ratio,
        limit,
        "",
        "galvanizers' published limit 4:1; 2.5:1 common practice, from memory",
        at_most=True,
        good="the parts heat and cool alike",
        bad=f"{thick} and {thin} heat unlike and the wheel warps: {thinner} from "
        f"{at_least(least)} mm or {thicker} to {at_most(most)} mm",
        bad_verdict="fail" if limit == FAIL_ABOVE else "warn",
    )


CHECKS = (thickness_ratio,)
