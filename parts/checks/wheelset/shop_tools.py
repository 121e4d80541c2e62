"""Can this shop make what holds its wheels, and the axle that they sit on?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.making.welder import least_current_a
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.trying import keys_told, with_keys
from platewheel.parts.checks.wheelset import axle_bending, axle_crack, bearings, wheel_retention
from platewheel.parts.checks.wheelset.tools import has_all, lacking, turned
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset

SOURCE = "the tools in [shop] of this job; what each way asks: common practice, no source"
Keys = Mapping[str, Any]
WAYS = ("key", "screws", "weld", "press")  # of fixed wheels, as tried, in turn
BORES_MM = (25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0)  # bright bar and bearings of one size
LOOSE: Keys = {"axle.wheels_on_axle": "loose", "axle.retention": None, "axle.bearing": "bush"}
JUDGED_BY = (
    *wheel_retention.CHECKS,
    *axle_crack.CHECKS,
    *axle_bending.CHECKS,
    *bearings.CHECKS,
)


def retention_in_shop(setting: Setting, made: Wheelset) -> CheckResult | None:
    """The way that holds the wheels against the tools; None for a shop that has them all."""
    if has_all(setting.shop):
        return None
    gaps = lacking(setting.shop, made.retention)
    id, title = "retention-in-shop", "What holds the wheels can be made here"
    if not gaps:
        says = _made_with(setting, made)
        return CheckResult(id, title, None, None, "", "pass", says, SOURCE)
    named = keys_told({f"shop.{name}": getattr(setting.shop, name) for name in gaps})
    by_hand = made.retention == "screws"
    other = next(_others(setting, made), None)
    ways = [other] if other else list(_thicker(setting, made))
    advice = "; or ".join(map(keys_told, ways)) or "have it made elsewhere"
    return CheckResult(
        id,
        title,
        None,
        None,
        "",
        "warn" if by_hand else "fail",
        f'axle.retention = "{made.retention}" asks for what the shop has not ({named}): '
        + ("drill along a guide block, or " if by_hand else "")
        + advice,
        SOURCE,
    )


def axle_in_shop(setting: Setting, made: Wheelset) -> CheckResult | None:
    """An axle that is turned against a shop without a lathe; None with one."""
    if setting.shop.lathe:
        return None
    id, title = "axle-in-shop", "The axle can be made here"
    why = turned(made)
    if not why:
        says = "bright bar of one diameter as bought, sawn and filed at its ends"
        return CheckResult(id, title, None, None, "", "pass", says, SOURCE)
    plain = _plain(setting, made)
    advice = (
        f"{keys_told(plain)}: one diameter throughout"
        if plain
        else "have it turned, or another hub_bore_mm that a bearing fits too"
    )
    says = f"shop.lathe = false, and the axle has {' and '.join(why)}: {advice}"
    return CheckResult(id, title, None, None, "", "fail", says, SOURCE)


def _made_with(setting: Setting, made: Wheelset) -> str:
    """What the way is made with here."""
    if made.retention == "weld":
        most, needed = setting.shop.welder_most_a, least_current_a(made.seat_diameter_mm)
        if most is not None and most < needed:
            return (
                f"welded to the axle; {most:g} A fuse into {made.seat_diameter_mm:g} mm once it "
                "is warmed, as the step says: the wheel never comes off again"
            )
        return "welded to the axle: the wheel never comes off again"
    if made.retention == "collar":
        return "collars are bought, bored and threaded"
    return "the shop has the tools for it"


def _others(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Keys of ways that the shop can make and that no check of axle and wheel seat fails more
    than the present one: fixed ways, then loose wheels with bought collars."""
    now = _failed(setting, made)
    if made.turning:
        ways: list[Keys] = [{"axle.retention": way} for way in WAYS if way != made.retention]
        for keys in (*ways, LOOSE):
            if _will_do(with_keys(setting, keys), now):
                yield keys


def _thicker(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """The same for a weld and for loose wheels, each on the first thicker axle that does; the
    hub tube keeps its wall."""
    now, wheel = _failed(setting, made), setting.wheel
    wall = wheel.hub_tube_outside_mm - wheel.hub_bore_mm
    bores = [one for one in BORES_MM if one > wheel.hub_bore_mm] if wheel.has_tube else []
    for keys in ({"axle.retention": "weld"}, LOOSE) if made.turning else ():
        for bore in bores:
            hub = {"wheel.hub_bore_mm": bore, "wheel.hub_tube_outside_mm": bore + wall}
            wide = with_keys(setting, hub)
            if wide is not None and _will_do(with_keys(wide, keys), now):
                yield {**keys, **hub}
                break


def _will_do(other: Setting | None, failed: set[str]) -> bool:
    """Whether its way can be made here and no check fails that did not fail before."""
    try:
        then = None if other is None else wheelset(other)
    except SpecError:
        return False
    if other is None or then is None or lacking(other.shop, then.retention):
        return False
    return (other.shop.lathe or not turned(then)) and _failed(other, then) <= failed


def _failed(setting: Setting, made: Wheelset) -> set[str]:
    results = [check(setting, made) for check in JUDGED_BY]
    return {result.id for result in results if result is not None and result.verdict == "fail"}


def _plain(setting: Setting, made: Wheelset) -> dict[str, Any] | None:
    """Keys that make the axle one diameter; None where none were found."""
    seat = made.seat_diameter_mm
    same = {"axle.journal_diameter_mm": seat, "axle.body_diameter_mm": seat}
    for bearing in (None, "insert", "bush"):
        keys: dict[str, Any] = dict(same)
        if bearing is not None:
            keys["axle.bearing"] = bearing
        other = with_keys(setting, keys)
        try:
            if other is not None and not turned(wheelset(other)):
                return keys
        except SpecError:
            continue
    return None


CHECKS = (retention_in_shop, axle_in_shop)
