"""Can this shop make what holds its wheels, and the axle that they sit on?"""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.making.welder import least_current_a
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.checks.wheelset.wheel_retention import wheel_held
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.wheelset.assembly import Wheelset, wheelset

SOURCE = "the tools in [shop] of this job; what each way asks: common practice, no source"
WAYS = {"fixed": ("key", "screws", "weld", "press"), "loose": ("collar",)}  # as tried, in turn
FULL = ShopSpec()


def lacking(setting: Setting, made: Wheelset) -> list[str]:
    """Tools that what holds the wheels asks for and the shop has not, by key; collars and keys
    are bought."""
    shop = setting.shop
    asked = {
        "key": ("keyway_cutter",),
        "screws": ("drill_press",),
        "press": ("lathe", "press_t", "reamer"),
        "weld": (),
        "collar": (),
    }[made.retention]
    found = [name for name in asked if not getattr(shop, name)]
    if made.retention == "press" and shop.measures_with == "caliper":
        found.append("measures_with")
    return found


def turned(made: Wheelset) -> list[str]:
    """Why the axle goes on a lathe; empty for bright bar as bought."""
    why = []
    if len(made.steps) > 1:
        sizes = " / ".join(f"{d:g}" for d in sorted({d for _, _, d in made.steps}))
        why.append(f"shoulders ({sizes} mm)")
    if made.bearing is not None and made.bearing.kind == "deep-groove":
        why.append(f"a seat for {made.bearing.name} that no bright bar has")
    return why


def retention_in_shop(setting: Setting, made: Wheelset) -> CheckResult | None:
    """The way that holds the wheels against the tools; None for a shop that has them all."""
    if _has_all(setting.shop):
        return None
    id, title = "retention-in-shop", "What holds the wheels can be made here"
    gaps = lacking(setting, made)
    if not gaps:
        return CheckResult(
            id, title, None, None, "", "pass", _with_words(setting, made), SOURCE, None
        )
    keys = ", ".join(_said(setting.shop, name) for name in gaps)
    other = next(_others(setting, made), None)
    advice = f'axle.retention = "{other}"' if other else "have it made or bought"
    only_slow = made.retention == "screws"
    return CheckResult(
        id,
        title,
        None,
        None,
        "",
        "warn" if only_slow else "fail",
        f'axle.retention = "{made.retention}" asks for what the shop has not ({keys}): '
        + ("drill along a guide block, or " if only_slow else "")
        + advice,
        SOURCE,
        None,
    )


def axle_in_shop(setting: Setting, made: Wheelset) -> CheckResult | None:
    """An axle that is turned against a shop without a lathe; None with one."""
    if setting.shop.lathe:
        return None
    id, title = "axle-in-shop", "The axle can be made here"
    why = turned(made)
    if not why:
        says = "bright bar of one diameter as bought, sawn and filed at its ends"
        return CheckResult(id, title, None, None, "", "pass", says, SOURCE, None)
    plain = _plain(setting, made)
    advice = (
        ", ".join(f"{key} = {_toml(value)}" for key, value in plain.items())
        + ": one diameter throughout"
        if plain
        else "have it turned, or another hub_bore_mm that a bearing fits too"
    )
    says = f"shop.lathe = false, and the axle has {' and '.join(why)}: {advice}"
    return CheckResult(id, title, None, None, "", "fail", says, SOURCE, None)


def _has_all(shop: ShopSpec) -> bool:
    names = ("lathe", "drill_press", "keyway_cutter", "reamer", "measures_with")
    alike = all(getattr(shop, name) == getattr(FULL, name) for name in names)
    return alike and shop.press_t > 0


def _said(shop: ShopSpec, name: str) -> str:
    value = getattr(shop, name)
    return f"shop.{name} = {_toml(value)}"


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return f'"{value}"' if isinstance(value, str) else f"{value:g}"


def _with_words(setting: Setting, made: Wheelset) -> str:
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


def _others(setting: Setting, made: Wheelset) -> Iterator[str]:
    """Ways that the shop can make and that hold the wheel, in the order of WAYS."""
    for way in WAYS[setting.axle.wheels_on_axle]:
        other = with_keys(setting, {"axle.retention": way}) if way != made.retention else None
        try:
            then = None if other is None else wheelset(other)
        except SpecError:
            continue
        if other is None or then is None or lacking(other, then):
            continue
        if wheel_held(other, then).verdict == "pass":
            yield way


def _plain(setting: Setting, made: Wheelset) -> dict[str, object] | None:
    """Keys that make the axle one diameter; None where none were found."""
    seat = made.seat_diameter_mm
    same = {"axle.journal_diameter_mm": seat, "axle.body_diameter_mm": seat}
    bearings = ("insert", "bush") if setting.axle.turning else ("bush",)
    for bearing in (None, *bearings):
        keys: dict[str, object] = dict(same)
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
