"""Wheels one step away: the next choice up or down on one axis, all else the same."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.choices import Choices, followers
from platewheel.parts.wheel.spec import WheelSpec

# axis -> the keys that move with it
MOVES: dict[str, tuple[str, ...]] = {
    "diameter": ("tread_diameter_mm",),
    "disc": ("disc_thickness_mm",),
    "flange": ("flange_thickness_mm",),
    "depth": ("flange_depth_mm",),
    "inset": ("disc_field_inset_mm", "disc_gauge_inset_mm"),
    "throat": ("weld_throat_mm",),
    "root": ("root_weld_mm",),
}


@dataclass(frozen=True)
class Step:
    """One change, and the wheel that it makes."""

    key: str
    was: str
    becomes: str
    wheel: WheelSpec
    changes: dict[str, float]


def neighbours(wheel: WheelSpec, choices: Choices, base: WheelSpec) -> list[Step]:
    """One step up and one down on every axis of MOVES and on the ring's wall, where there is one
    and a wheel can be made of it. Vent circle and hub tube follow as they do for all choices, see
    `choices.wheel_values`; `base` is the job's own wheel."""
    return list(_steps(wheel, choices, base.model_dump()))


def _steps(wheel: WheelSpec, choices: Choices, base: dict[str, Any]) -> Iterator[Step]:
    for axis, keys in MOVES.items():
        if axis == "diameter" and wheel.tread_from == "pipe":
            continue
        for value in _beside(sorted(getattr(choices, axis)), getattr(wheel, keys[0])):
            yield from _step(wheel, base, dict.fromkeys(keys, value), " and ".join(keys))
    if wheel.tread_from == "pipe":
        return
    walls = sorted({ring.thickness_mm for ring in choices.ring if ring.source != "pipe"})
    for wall in _beside(walls, wheel.tread_thickness_mm):
        yield from _step(wheel, base, {"tread_thickness_mm": wall}, "tread_thickness_mm")


def _beside(values: list[float], now: float) -> list[float]:
    above = [value for value in values if value > now + 1e-9][:1]
    below = [value for value in values if value < now - 1e-9][-1:]
    return above + below


def _step(
    wheel: WheelSpec, base: dict[str, Any], changes: dict[str, float], key: str
) -> Iterator[Step]:
    other = _changed(wheel, base, changes)
    first = key.split(" ", 1)[0]
    if other is not None:
        yield Step(key, f"{getattr(wheel, first):g}", f"{changes[first]:g}", other, changes)


def together(wheel: WheelSpec, one: Step, other: Step, base: WheelSpec) -> Step | None:
    """Both steps at once; None where they move the same key or no wheel can be made of them."""
    if one.changes.keys() & other.changes.keys():
        return None
    changes = one.changes | other.changes
    made = _changed(wheel, base.model_dump(), changes)
    if made is None:
        return None
    return Step(
        f"{one.key} with {other.key}",
        f"{one.was}, {other.was}",
        f"{one.becomes}, {other.becomes}",
        made,
        changes,
    )


def foretold(borne_n: float, *percents: float | None) -> float:
    """Load, N, that steps together should bear where each alone changes the rating by so many per
    cent; 0 where one cannot be rated."""
    rated = [percent for percent in percents if percent is not None]
    if len(rated) < len(percents):
        return 0.0
    return borne_n * math.prod(1 + percent / 100 for percent in rated)


def _changed(wheel: WheelSpec, base: dict[str, Any], changes: dict[str, float]) -> WheelSpec | None:
    values = wheel.model_dump() | changes
    values |= followers(base, values)
    try:
        return WheelSpec(**values)
    except SpecError:
        return None
