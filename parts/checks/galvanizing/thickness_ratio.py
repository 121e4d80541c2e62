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
    up, down = at_least(least), at_most(most)
    thinner = " and ".join(_told(key, up) for key, wall in walls.items() if wall < least)
    thicker = " and ".join(_told(key, down) for key, wall in walls.items() if wall > most)
    return judged(
        "thickness-ratio",
        "Thickest over thinnest part in the zinc bath",
        ratio,
        limit,
        "",
        "galvanizers' published limit 4:1; 2.5:1 common practice, from memory",
        at_most=True,
        good="the parts heat and cool alike",
        bad=f"the wheel warps, {walls[thick]:g} and {walls[thin]:g} mm heat unlike: {thinner}, or "
        f"{thicker}",
        bad_verdict="fail" if limit == FAIL_ABOVE else "warn",
    )


def _told(key: str, mm: str) -> str:
    return f"wheel.{key} = {mm}" if "_" in key else f"{key} of {mm} mm"


CHECKS = (thickness_ratio,)
