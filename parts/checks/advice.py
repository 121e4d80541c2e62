"""What mends a check that names no value itself: keys of the job, tried on every check.

What would do is told where the check passes with it and no other gets worse. It takes some runs of
all checks, so it is done where a person reads it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks import axle_ways as axle
from platewheel.parts.checks import wheel_ways as wheel
from platewheel.parts.checks.axle_ways import Keys
from platewheel.parts.checks.result import WORST_FIRST, CheckResult
from platewheel.parts.checks.run import CHECKS as OF_WHEEL
from platewheel.parts.checks.run_wheelset import CHECKS as OF_WHEELSET
from platewheel.parts.checks.trying import (
    advice_tried,
    keys_told,
    payload_that_passes,
    with_keys,
)
from platewheel.parts.checks.wheelset import shop_tools
from platewheel.parts.checks.wheelset.tools import lacking, turned
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset

MOST_TOLD = 2
LASTS = "axle-fatigue"  # asked of another way to hold a wheel too: some crack the axle
JUDGING = tuple(one for one in OF_WHEELSET if one not in shop_tools.CHECKS)  # those search too
# whether a measured factor is below the one worked out: no matter of the wheel
OWN_FACTORS = {"load-unevenness", "shock-factor", "lateral-share"}
SAYS_A_VALUE = re.compile(r"\b[a-z]+\.[a-z_]+ = ")
ASKS_LESS = {  # keys that make nothing better: the check passes because less is asked of it
    "use.years": "ask for less and renew then",
    "wagon.payload_kg": "ask for less and load less",
    "wagon.max_speed_km_h": "ask for less and run slower",
}
AXLE_WAYS: dict[str, tuple[axle.Way, ...]] = {
    "axle-bending": (
        axle.thicker_body,
        axle.thicker_journal,
        axle.thicker_axle,
        axle.other_steel,
        axle.nearer_bearings,
    ),
    "axle-fatigue": (
        axle.thicker_body,
        axle.thicker_journal,
        axle.other_retention,
        axle.thicker_axle,
        axle.other_steel,
        axle.nearer_bearings,
        axle.thicker_and_other,
        axle.loose_wheels,
    ),
    "axle-slope": (
        axle.rocking,
        axle.thicker_axle,
        axle.shorter_bush,
        axle.nearer_bearings,
    ),
    "axle-spread": (
        axle.thicker_body,
        axle.thicker_axle,
        axle.nearer_bearings,
    ),
    "bearing-life": (axle.heavier_bearing, axle.thicker_axle, axle.longer_hub),
    "bearing-static": (axle.heavier_bearing, axle.thicker_axle, axle.longer_hub),
    "bearing-axial": (axle.heavier_bearing, axle.thicker_axle),
    "bush-pressure": (axle.longer_bush, axle.other_bush, axle.thicker_axle, axle.longer_hub),
    "bush-edge": (axle.longer_hub, axle.other_bush, axle.thicker_axle),
    "bush-pv": (axle.longer_bush, axle.other_bush, axle.longer_hub),
    "wheel-held": (
        axle.other_retention,
        axle.longer_hub,
        axle.shoulder,
        axle.thicker_throat,
        axle.thicker_axle,
        axle.thicker_and_longer,
        axle.thicker_and_other,
        axle.loose_wheels,
    ),
    "press-hub": (axle.hub_steel, axle.other_retention, axle.thicker_axle),
}
LAST_RESORTS = (axle.thicker_and_longer, axle.thicker_and_other, axle.loose_wheels)
CURVED = (wheel.easier_curve, wheel.longer_wheelbase, wheel.shorter_wheelbase)
WAYS: dict[str, tuple[wheel.Way, ...]] = {
    "bearing-axial": (wheel.easier_curve,),
    "bush-edge": (wheel.easier_curve,),
    "bush-pv": (wheel.slower,),
    "wheel-held": (wheel.easier_curve,),
    "bore-pressure": (wheel.longer_tube, wheel.stronger_steel),
    "brake-adhesion": (wheel.flatter_line,),
    "coating-life": (wheel.fewer_years,),
    "corner-flat": CURVED,
    "curve-room": (
        wheel.shorter_wheelbase,
        wheel.easier_curve,
        wheel.more_widening,
        wheel.nearer_wheels,
    ),
    "middle-axle": (wheel.shorter_wheelbase, wheel.easier_curve),
    "disc-buckling": (wheel.thicker_disc, wheel.stronger_steel),
    "disc-rim-stress": (wheel.thicker_disc, wheel.thicker_ring, wheel.stronger_steel),
    "flange-bending": (wheel.thicker_flange, wheel.stronger_steel, *CURVED),
    "flange-climb": (wheel.slower, *CURVED),
    "flange-contact": (*CURVED, wheel.lower_flange),
    "flange-wear": (*CURVED, wheel.fewer_years),
    "flange-window": (wheel.nearer_wheels, *CURVED, wheel.slower),
    "hub-tube-bending": (wheel.stronger_steel, *CURVED),
    "play-most": (wheel.truer_gauge, wheel.nearer_wheels),
    "pushers": (wheel.flatter_line, wheel.easier_curve, wheel.larger_wheel),
    "ring-curvature": (wheel.thinner_ring, wheel.larger_wheel),
    "torch-access": (wheel.shorter_tube,),
    "tread-pressure-crowned": (wheel.flatter_rail, wheel.larger_wheel, wheel.stronger_steel),
    "tread-sliding": (wheel.stronger_steel, wheel.easier_curve, wheel.wider_head),
    "weld-rim": (wheel.stronger_steel, *CURVED),
    "weld-root": (wheel.thicker_root, wheel.stronger_steel, *CURVED),
    "weld-room": (wheel.insets, wheel.longer_tube, wheel.thinner_beads),
    "weld-tube": (wheel.stronger_steel, wheel.longer_tube, *CURVED),
}


def with_cures(
    results: Sequence[CheckResult], setting: Setting, made: Wheelset | None
) -> list[CheckResult]:
    """The results; of those that are not passed and name no value, the sentences say what was
    found to do. `made` is the wheelset, where the job has one."""
    if not any(_asks(one) for one in results):
        return list(results)
    with advice_tried(False):
        job = _Job(setting, made)
        return [
            replace(one, says=f"{one.says}; {job.cure(one.id)}") if _asks(one) else one
            for one in results
        ]


def _asks(result: CheckResult) -> bool:
    known = result.id in WAYS or result.id in AXLE_WAYS
    return known and result.verdict in ("fail", "warn") and not SAYS_A_VALUE.search(result.says)


@dataclass(frozen=True)
class _Job:
    """The setting as it is, and what is tried on it."""

    setting: Setting
    made: Wheelset | None

    @cached_property
    def now(self) -> dict[str, CheckResult]:
        """Each check now."""
        return {id: result for id, (_, result) in self.asked.items()}

    @cached_property
    def asked(self) -> dict[str, tuple[Callable[[Setting], CheckResult | None], CheckResult]]:
        """Each check that says something now, and what."""
        found = {}
        for check in _checks(with_axle=self.made is not None):
            result = check(self.setting)
            if result is not None:
                found[result.id] = check, result
        return found

    def ways(self, id: str) -> Iterator[tuple[bool, Iterator[Keys]]]:
        """Keys to try, way by way; before them, whether it is a last resort."""
        if self.made is not None:
            for one in AXLE_WAYS.get(id, ()):
                yield one in LAST_RESORTS, one(self.setting, self.made)
        yield from ((False, way(self.setting)) for way in WAYS.get(id, ()))

    def cure(self, id: str) -> str:
        """What would do for a check, as keys; the load where nothing else does."""
        found: list[Keys] = []
        without: dict[str, None] = {}  # names of the keys that did not do, in order
        for last, way in self.ways(id):
            if last and found:
                continue
            for keys in way:
                if self.does(id, keys):
                    found.append(keys)
                    break
                without.update(dict.fromkeys(keys))
            if len(found) == MOST_TOLD:
                break
        if not found:
            found = list(self.lighter(id))
        if not found:
            names = ", ".join([*without, "wagon.payload_kg"])
            return f"no value was found of {names} with which it passes and no other gets worse"
        return "; or ".join(_told(found))

    def does(self, id: str, keys: Keys) -> bool:
        """Whether the check passes with these keys, and no other gets worse."""
        other = with_keys(self.setting, keys)
        if other is None or not self.can_make(other):
            return False
        asked = {id, LASTS} & self.asked.keys() if "axle.retention" in keys else {id}
        if not all(_good(self.asked[one][0](other)) for one in asked):
            return False
        for check in _checks(with_axle=self.made is not None):
            then = check(other)
            if then is None or then.id in OWN_FACTORS:
                continue
            if _bad(then) > _bad(self.now.get(then.id)):
                return False
        return True

    def can_make(self, setting: Setting) -> bool:
        """Whether its wheelset can be made, and the shop lacks nothing more for it."""
        if self.made is None:
            return True
        try:
            other = wheelset(setting)
        except SpecError:
            return False
        shop, now = self.setting.shop, self.made
        if set(lacking(shop, other.retention)) - set(lacking(shop, now.retention)):
            return False
        return shop.lathe or not turned(other) or bool(turned(now))

    def lighter(self, id: str) -> Iterator[Keys]:
        """The payload with which the check passes."""
        with advice_tried():
            payload = payload_that_passes(self.asked[id][0], self.setting)
        if payload is not None:
            yield {"wagon.payload_kg": payload}


def _told(found: Sequence[Keys]) -> Iterator[str]:
    """What is better made first; then what only asks less, as what it is."""
    asks_less = [keys for keys in found if keys.keys() <= ASKS_LESS.keys()]
    better = [keys for keys in found if keys not in asks_less]
    if better:
        yield f"this would do: {'; or '.join(map(keys_told, better))}"
    for keys in asks_less:
        (name,) = keys
        yield f"{ASKS_LESS[name]}, {keys_told(keys)}"


def _checks(*, with_axle: bool) -> Iterator[Callable[[Setting], CheckResult | None]]:
    yield from OF_WHEEL
    if with_axle:
        yield from (_of_setting(check) for check in JUDGING)


def _of_setting(
    check: Callable[[Setting, Wheelset], CheckResult | None],
) -> Callable[[Setting], CheckResult | None]:
    return lambda setting: check(setting, wheelset(setting))


def _good(result: CheckResult | None) -> bool:
    return result is None or result.verdict == "pass"


def _bad(result: CheckResult | None) -> int:
    """How bad a check is; nothing is as good as passed."""
    return 0 if result is None else len(WORST_FIRST) - 1 - WORST_FIRST.index(result.verdict)
