"""Where the axle may crack: every notch with its factors and its safety."""

from __future__ import annotations

from typing import Any

from platewheel.cli.papers.calculation.terms import digits
from platewheel.parts.checks.wheelset.axle_crack import notch_safeties, notch_uses
from platewheel.parts.checks.wheelset.axle_notches import Notch
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset


def notch_rows(setting: Setting, made: Wheelset) -> list[list[str]]:
    """Place, its z, diameter, notch factors or category of the weld, safety; the least first."""
    found = notch_safeties(setting, made)
    return [
        [
            notch.where,
            _along(notch),
            digits(notch.diameter_mm),
            *_factors(notch),
            digits(safety),
        ]
        for notch, safety in sorted(found.items(), key=lambda pair: pair[1])
    ]


def use_rows(setting: Setting, made: Wheelset) -> dict[str, Any]:
    """Every kind of cycle at the notch with the least safety."""
    found = notch_safeties(setting, made)
    worst = min(found, key=lambda notch: found[notch])
    rows = [
        [digits(value) for value in (one.load_n, one.side_n, one.cycles)]
        + [digits(value) for value in (one.amplitude, one.mean, one.torsion, one.used)]
        for one in notch_uses(setting, made, worst)
    ]
    welded = worst.weld_category_n_mm2 is not None
    return {"where": worst.where, "used": "Δσ" if welded else "1 / n", "rows": rows}


def _along(notch: Notch) -> str:
    low, high = notch.within_mm
    return digits(low) if low == high else f"{digits(low)} to {digits(high)}"


def _factors(notch: Notch) -> tuple[str, str]:
    if notch.weld_category_n_mm2 is not None:
        return f"category {notch.weld_category_n_mm2:g}", ""
    return digits(notch.kf), digits(notch.kfs)
