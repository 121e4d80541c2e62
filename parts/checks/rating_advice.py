"""What would raise a rating that is too low: changes of the wheel, tried before they are told.

They are told where the wheel with them is rated for its load, and no check fails that does not
fail now. It takes some stress analyses, so it is done where a person reads it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from platewheel.parts.base.plates import plate_from, thicker_plates
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.rating.rate import rate
from platewheel.parts.rating.unrated import most_wear_mm, unrated
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

NOTHING_DOES = (
    "no thicker plate or bead alone was found to do: platewheel propose looks for another wheel"
)
Keys = dict[str, Any]
Shares = dict[tuple[str, str], float]  # (limit, where) -> load it allows over the load
Checks = Callable[[Setting, Assessment | None], Sequence[CheckResult]]
RATING = frozenset({"rating-new", "rating-worn", "life"})
ROOT_BEAD = "bead between ring and flange"
MORE_PLATES = 3  # of the next thicker ones
MORE_LEG_MM = (1.0, 2.0, 4.0)
MORE_THROAT_MM = (0.5, 1.0, 2.0)
COARSE_MM = 6.0  # of the mesh that leads the way
MOST_STEPS = 8
GAIN, ENOUGH = 1.03, 1.05  # a step must gain; coarse cells rate some percent high or low
MOST_OF_PLATE = 0.7  # throat over the thinner plate, as the check of the throat has it


def with_advice(
    results: Sequence[CheckResult], setting: Setting, found: Assessment | None, checks: Checks
) -> list[CheckResult]:
    """The results; where a rating fails its sentences say what was found to do."""
    low = {one.id for one in results if one.id in RATING and one.verdict == "fail"}
    if found is None or not low:
        return list(results)
    does = what_does(setting, results, checks)
    told = f"this would do: {does}" if does else NOTHING_DOES
    return [replace(one, says=f"{one.says}; {told}") if one.id in low else one for one in results]


def what_does(setting: Setting, results: Sequence[CheckResult], checks: Checks) -> str:
    """Changes of the wheel with which it passes, as keys; nothing where none were found.

    Step by step the limit that governs is raised, by the first change that gains; coarse cells
    lead the way, and what they end at is rated in full and asked every check.
    """
    failed = {one.id for one in results if one.verdict == "fail"} - RATING

    def sound(other: Setting, rated: Assessment | None = None) -> bool:
        return {one.id for one in checks(other, rated) if one.verdict == "fail"} <= failed

    there, shares = setting, _coarse(setting)
    for _ in range(MOST_STEPS):
        if not shares or min(shares.values()) >= ENOUGH:
            break
        step = _better(there, shares, sound)
        if step is None:
            break  # the full rating may find it enough
        there, shares = step
    if there is setting or min(shares.values(), default=0.0) < 1 / ENOUGH:
        return ""
    rated = assess(there)
    if rated is None or rated.least.load_n < wheel_load_n(there):
        return ""
    if not sound(there, rated):
        return ""
    before, after = setting.wheel.model_dump(), there.wheel.model_dump()
    return ", ".join(_told(key, after[key]) for key in after if after[key] != before[key])


def _better(
    setting: Setting, shares: Shares, sound: Callable[[Setting], bool]
) -> tuple[Setting, Shares] | None:
    """The first change that lifts the limit that governs far enough, or else the one that lifts it
    most; none where none lifts it. No other limit may fall below it, no check fail anew."""
    (name, where), least = min(shares.items(), key=lambda item: item[1])
    best: tuple[Setting, Shares] | None = None
    most = GAIN * least
    for keys in changes(setting.wheel, name, where):
        other = with_keys(setting, {f"wheel.{key}": value for key, value in keys.items()})
        found = _coarse(other) if other and sound(other) else {}
        if other is None or not found or min(found.values()) < least:
            continue
        own = min(share for (limit, _), share in found.items() if limit == name)
        if own >= most:
            best, most = (other, found), own
        if own >= ENOUGH:
            break
    return best


def _coarse(setting: Setting) -> Shares:
    """Each judged limit over the load, worn by the allowance, by coarse cells; empty where the
    wheel is not rated."""
    wear = setting.use.wear_allowance_mm
    if unrated(setting) or wear > most_wear_mm(setting):
        return {}
    rating, _ = rate(setting, worn_mm=wear, size_mm=COARSE_MM)
    load = wheel_load_n(setting)
    return {(one.name, one.where): one.load_n / load for one in rating.limits if one.judged}


def _told(key: str, value: Any) -> str:
    return f'wheel.{key} = "{value}"' if isinstance(value, str) else f"wheel.{key} = {value:g}"


def changes(wheel: WheelSpec, limit: str, where: str) -> Iterator[Keys]:
    """Changes that raise a limit, the smallest first."""
    ring, disc, flange = (
        [{key: more} for more in thicker_plates(getattr(wheel, key))[:MORE_PLATES]]
        for key in ("tread_thickness_mm", "disc_thickness_mm", "flange_thickness_mm")
    )
    if limit in ("ring seam", "flange seams") and wheel.seam != "dressed":
        yield {"seam": "dressed"}
    if limit in ("vent holes", "vent edges"):
        yield from _smaller_vents(wheel)
    plates: dict[str, list[Keys]] = {
        "ring seam": ring,
        "static strength": ring,
        "vent holes": disc,
        "vent edges": disc,
        "weld toes": disc,
        "flange seams": flange,
        "flange stiffness": flange,
    }
    if limit in plates:
        yield from plates[limit]
    elif limit == "contact pressure":
        yield from _larger(wheel)
    elif where == ROOT_BEAD:
        yield from _thicker_root(wheel)
    else:
        yield from _thicker_beads(wheel)


def _smaller_vents(wheel: WheelSpec) -> Iterator[Keys]:
    for share in (0.8, 0.6):
        yield {"vent_diameter_mm": float(math.floor(share * wheel.vent_diameter_mm))}


def _larger(wheel: WheelSpec) -> Iterator[Keys]:
    for share in (1.1, 1.25, 1.5):
        more = math.ceil(round((share - 1) * wheel.tread_diameter_mm, 6))
        yield {
            "tread_diameter_mm": wheel.tread_diameter_mm + more,
            "vent_circle_mm": wheel.vent_circle_mm + more,
        }


def _thicker_root(wheel: WheelSpec) -> Iterator[Keys]:
    """First plates that take the leg that is asked for, where they are thinner."""
    thin = wheel.root_weld_mm > min(wheel.tread_thickness_mm, wheel.flange_thickness_mm)
    for more in (0.0, *MORE_LEG_MM) if thin else MORE_LEG_MM:
        leg = math.ceil(2 * (wheel.root_weld_mm + more)) / 2 if more else wheel.root_weld_mm
        plates = {key: getattr(wheel, key) for key in ("tread_thickness_mm", "flange_thickness_mm")}
        yield {"root_weld_mm": leg} | {
            key: now if now >= leg else plate_from(leg, now) for key, now in plates.items()
        }


def _thicker_beads(wheel: WheelSpec) -> Iterator[Keys]:
    """With room for their legs, and discs that stand their heat."""
    for more in MORE_THROAT_MM:
        throat = wheel.weld_throat_mm + more
        leg = math.ceil(throat * math.sqrt(2))
        insets = {
            key: max(leg, getattr(wheel, key))
            for key in ("disc_field_inset_mm", "disc_gauge_inset_mm")
        }
        keys: Keys = {
            "weld_throat_mm": throat,
            "disc_thickness_mm": _disc_for(wheel.disc_thickness_mm, throat / MOST_OF_PLATE),
            **insets,
        }
        if wheel.has_tube:
            box = wheel.tread_width_mm - sum(insets.values())
            length = keys["hub_tube_length_mm"] = max(wheel.hub_tube_length_mm, box + 2 * leg)
        yield keys
        grown = wheel.hub_tube_length_mm + 2 * (leg - math.floor(wheel.weld_leg_mm))
        if wheel.has_tube and grown > length:  # as much free beside the beads, for a set screw
            yield keys | {"hub_tube_length_mm": float(grown)}


def _disc_for(now_mm: float, least_mm: float) -> float:
    return now_mm if now_mm >= least_mm - 1e-9 else plate_from(least_mm, now_mm)
