"""Advice that works: a value is tried on the check before it is advised.

Trying costs a few more runs of a check, so it is done where a person reads the results
(`run_checks`), and not where millions of wheels are screened.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import replace
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.setting.setting import Setting

Check = Callable[[Setting], CheckResult | None]
Change = Callable[[Setting, float], Setting | None]
MOST_TRIES = 60
_TRIED: ContextVar[bool] = ContextVar("advice is tried", default=False)


@contextmanager
def advice_tried(on: bool = True) -> Iterator[None]:
    """Within it checks try what they advise."""
    before = _TRIED.set(on)
    try:
        yield
    finally:
        _TRIED.reset(before)


def tried(
    check: Check,
    setting: Setting,
    change: str | Change,
    start: float,
    step: float,
    most: int = MOST_TRIES,
) -> float | None:
    """The first of `start`, `start + step` ... with which the check passes, for a key such as
    `wheel.disc_thickness_mm` or a change of several; None where none of `most` does. Outside
    `advice_tried`, and for a setting that passes as it is, it is `start`."""
    if not _TRIED.get():
        return start
    with advice_tried(False):
        if _passes(check, setting):
            return start
        for k in range(most):
            value = round(start + k * step, 6)
            if isinstance(change, str):
                other = with_keys(setting, {change: value})
            else:
                other = change(setting, value)
            if other is not None and _passes(check, other):
                return value
    return None


def payload_that_passes(check: Check, setting: Setting) -> int | None:
    """The largest payload, in whole kg, found by halving, with which the check passes; None where
    not even the empty wagon does. Outside `advice_tried`, and for a setting that passes, it is the
    payload there is."""
    low, high = 0, math.floor(setting.wagon.payload_kg)
    if not _TRIED.get():
        return high
    with advice_tried(False):
        if _passes(check, setting):
            return high
        if not _passes(check, _loaded(setting, low)):
            return None
        while high - low > max(1, low // 200):
            middle = (low + high) // 2
            if _passes(check, _loaded(setting, middle)):
                low = middle
            else:
                high = middle
    return low


def _loaded(setting: Setting, payload_kg: float) -> Setting:
    wagon = unchecked(setting.wagon, {"payload_kg": float(payload_kg)})
    return replace(setting, wagon=wagon)


def still_pass(setting: Setting, keys: Mapping[str, Any], *checks: Check) -> bool:
    """Whether these checks pass with other values of keys of one section: what mends one check and
    breaks another is no advice. Outside `advice_tried` nothing is tried, and it is True."""
    if not _TRIED.get():
        return True
    other = with_keys(setting, keys)
    with advice_tried(False):
        return other is not None and all(_passes(check, other) for check in checks)


def with_keys(setting: Setting, keys: Mapping[str, Any]) -> Setting | None:
    """The setting with other values of keys; None where rules of their sections refuse them."""
    sections: dict[str, dict[str, Any]] = {}
    for key, value in keys.items():
        section, name = key.split(".")
        sections.setdefault(section, {})[name] = value
    try:
        made = {name: _changed(setting, name, values) for name, values in sections.items()}
    except SpecError:
        return None
    return replace(setting, **made)


def _changed(setting: Setting, section: str, values: Mapping[str, Any]) -> Any:
    spec = getattr(setting, section)
    return type(spec)(**(spec.model_dump() | values))


def keys_told(keys: Mapping[str, Any]) -> str:
    """Keys as a job file has them, `wheel.hub_bore_mm = 45, axle.steel = "C45"`; those that are to
    be left out are not told."""
    return ", ".join(f"{key} = {_toml(value)}" for key, value in keys.items() if value is not None)


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return f"[{', '.join(map(_toml, value))}]"
    return f'"{value}"' if isinstance(value, str) else f"{value:.12g}"


def _passes(check: Check, setting: Setting) -> bool:
    try:
        result = check(setting)
    except SpecError:  # the axle cannot be made
        return False
    return result is None or result.verdict == "pass"
