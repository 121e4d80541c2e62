"""How much load the wheel takes, against the load it must carry: results of the stress analysis."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.plate_tolerance import plate_tolerance
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.rating.unrated import most_wear_mm, unrated
from platewheel.parts.setting.setting import Setting

if TYPE_CHECKING:
    from platewheel.parts.rating.assess import Assessment
    from platewheel.parts.rating.rate import Rating

SOURCE = (
    "stress analysis of the welded section, semi-analytical finite elements (Zienkiewicz and "
    "Taylor); limit: "
)


def rating_results(setting: Setting, found: Assessment | None) -> list[CheckResult]:
    """Rating new, rating worn, life, plates that it took; "not-assessed" where the analysis was not
    run (`--quick`)."""
    if found is None:
        return [_not_rated(setting)]
    results = [_rating(setting, "rating-new", "Load rating, new", found.new, found.payload_kg)]
    if found.worn is None:
        says = (
            f"use.wear_allowance_mm = {setting.use.wear_allowance_mm:g} leaves less than half of "
            f"the wall or of the flange's root bead: at most {most_wear_mm(setting):g} mm"
        )
        results.append(
            CheckResult(
                "rating-worn",
                "Load rating, worn",
                0.0,
                wheel_load_n(setting),
                "N",
                "fail",
                says,
                SOURCE + "half of wall and root bead, our choice",
                -1.0,
                at_most=False,
            )
        )
    else:
        results.append(
            _rating(setting, "rating-worn", "Load rating, worn", found.worn, found.payload_kg)
        )
    results.append(_life(setting, found))
    results.append(plate_tolerance(setting))
    return results


def _not_rated(setting: Setting) -> CheckResult:
    """The rating of a wheel that was not analysed: by choice, or as `unrated` says."""
    reason = unrated(setting)
    title = "Load rating, new"
    if reason:
        says, need = reason, wheel_load_n(setting)
        source = SOURCE + "parts that hold together, vents as in our own study"
        return CheckResult(
            "rating-new", title, 0.0, need, "N", "fail", says, source, -1.0, at_most=False
        )
    says = "stress analysis not run; closed forms only screen the wheel: run without --quick"
    source = SOURCE + "not run"
    return CheckResult("rating-new", title, None, None, "N", "not-assessed", says, source)


def _rating(
    setting: Setting, id: str, title: str, rating: Rating, payload_kg: float
) -> CheckResult:
    governs, need = rating.governs, wheel_load_n(setting)
    told = f"{governs.name}: {governs.where}"
    for other in rating.beside:
        told += f" ({other.name}, told beside: {other.load_n:.0f} N)"
    lacks = (1 - rating.load_n / need) * 100
    short = f"{lacks:.0f} % short" if lacks >= 1 else "less than 1 % short"
    return judged(
        id,
        title,
        rating.load_n,
        need,
        "N",
        SOURCE + governs.by,
        at_most=False,
        good=told,
        bad=f"{told}; {short}: {_lighter(payload_kg)}",
    )


def _lighter(payload_kg: float) -> str:
    if payload_kg < 0:
        return "not even the empty wagon is carried"
    return f"it carries wagon.payload_kg = {math.floor(payload_kg)}"


def _life(setting: Setting, found: Assessment) -> CheckResult:
    need = setting.use.km_per_year * setting.use.years
    value = min(found.life_km, 1e9)
    ends = found.life_ends
    told = f"first the {ends.detail.name}: {ends.detail.where}" if ends else "nothing is stressed"
    endless = "more than " if math.isinf(found.life_km) else ""
    return judged(
        "life",
        "Distance to a fatigue crack at the stated load",
        value,
        need,
        "km",
        "Palmgren and Miner over the loads of the way, IIW S-N curves, slope 3 then 5, factor "
        f"{setting.fatigue_factor:g} (EN 1993-1-9, table 3.1, use.consequence); from memory",
        at_most=False,
        good=f"{endless}{value:.0f} km: {told}{_eaten_by(found)}",
        bad=f"{told}, after {value:.0f} km{_eaten_by(found)}: {_lighter(found.payload_kg)}",
    )


def _eaten_by(found: Assessment) -> str:
    """Which of the loads along the way does most of the harm."""
    whole = sum(one.damage + one.joints for one in found.by_block)
    if not whole:
        return ""
    parts = [(one.damage, f"the {one.where}, {one.state}") for one in found.by_block]
    parts.append((sum(one.joints for one in found.by_block), "rail joints"))
    most, where = max(parts)
    return f"; {100 * most / whole:.0f} % of it from {where}"
