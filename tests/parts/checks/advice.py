"""Following what a check advises: the value read from its sentence, and put into the setting.

The number is read as it is printed, for that is all that the reader has. Each room's
`test_advice` has a table with a line for each value that its checks advise.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from platewheel.parts.checks.result import CheckResult, Verdict
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.running.settings import running_setting

Keys = dict[str, Any]
Check = Callable[[Setting], CheckResult | None]
Follow = Callable[[Setting, float], Keys]
MILDEST_FIRST: tuple[Verdict, ...] = ("pass", "not-assessed", "warn", "fail")
NUMBER = r"(\d+(?:\.\d+)?(?:e[+-]?\d+)?)"


@dataclass(frozen=True)
class Advice:
    """Where a sentence advises a value, what is done with it, and how far it may be on the safe
    side, in the unit of the keys: its rounding, or None where it is no bound."""

    check: Check
    pattern: str  # `#` stands for the number
    follow: Follow
    slack: float | None = 0.2


def verdict_of(check: Check, keys: Keys) -> Verdict:
    """The check's verdict; one that no longer applies passes."""
    result = check(running_setting(**keys))
    return result.verdict if result else "pass"


def advised(advice: Advice, keys: Keys) -> tuple[Verdict, Keys]:
    """The verdict on a setting that the check has something against, and the keys advised."""
    setting = running_setting(**keys)
    with advice_tried():
        result = advice.check(setting)
    assert result is not None
    assert result.verdict in ("warn", "fail"), f"{result.id} has nothing against {keys}"
    found = re.search(advice.pattern.replace("#", NUMBER), result.says)
    assert found, f"no such advice in: {result.says}"
    return result.verdict, advice.follow(setting, float(found[1] or 0))


def assert_heeded(advice: Advice, keys: Keys, leaves: Verdict = "pass") -> None:
    """With the advice followed the check passes; a failed one may be left with a warning."""
    before, then = advised(advice, keys)
    assert MILDEST_FIRST.index(leaves) < MILDEST_FIRST.index(before)
    after = verdict_of(advice.check, keys | then)
    assert after == leaves, f"{then}: {after}, not {leaves}"


def assert_no_more_than_needed(advice: Advice, keys: Keys, leaves: Verdict = "pass") -> None:
    """A little short of the advice, towards what there is, the check has more against it."""
    assert advice.slack is not None
    setting = running_setting(**keys)
    _, then = advised(advice, keys)
    for key, value in then.items():
        back = now(setting, key) - value
        then[key] = value + math.copysign(min(abs(back), advice.slack), back)
    after = verdict_of(advice.check, keys | then)
    assert MILDEST_FIRST.index(after) > MILDEST_FIRST.index(leaves)


def now(setting: Setting, key: str) -> float:
    """What a key has in a setting."""
    if key == "back_to_back_mm":
        return setting.back_to_back_mm
    if key == "flangeway_mm":
        return setting.flangeway_mm
    sections = (setting.wheel, setting.track, setting.wagon, setting.use, setting.shop)
    home = next(one for one in sections if key in type(one).model_fields)
    return float(getattr(home, key))


def to(*keys: str) -> Follow:
    """The value is that of these keys."""
    return lambda _, value: dict.fromkeys(keys, value)


def count(key: str) -> Follow:
    """The value is that of this key, a whole number."""
    return lambda _, value: {key: int(value)}


def more(key: str, times: float = 1.0) -> Follow:
    """The value, so many times, is added to this key."""
    return lambda setting, value: {key: now(setting, key) + times * value}


def manifold(key: str) -> Follow:
    """The value is how many times the key is to be what it is."""
    return lambda setting, value: {key: value * now(setting, key)}


def keys_set(**keys: Any) -> Follow:
    """The value is nothing to this advice, which names keys."""
    return lambda *_: keys
