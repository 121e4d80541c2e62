"""What to change on the track, the wagon or its use when no wheel passes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Literal

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import RUNNING
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.screening import (
    FAILED,
    Check,
    Wheels,
    asked,
    first_wheels,
    judge,
    widened,
)
from platewheel.parts.propose.sifting import rims
from platewheel.parts.setting.setting import Setting

Section = Literal["track", "wagon", "use", "axle"]


@dataclass(frozen=True)
class Remedy:
    """One key with the values that are tried, the least change first."""

    section: Section
    key: str
    values: tuple[Any, ...]
    what: str


def _remedies(setting: Setting) -> Iterator[Remedy]:
    track, wagon, use = setting.track, setting.wagon, setting.use

    def less(value: float, shares: tuple[float, ...]) -> tuple[float, ...]:
        return tuple(round(value * share, 2) for share in shares)

    down, up = (0.85, 0.7, 0.55, 0.4, 0.25), (1.25, 1.5, 2.0, 3.0)
    if track.twist_mm_per_m:
        yield Remedy("track", "twist_mm_per_m", less(track.twist_mm_per_m, down), "pack the track")
    if wagon.suspension == "rigid":
        yield Remedy(
            "wagon",
            "suspension",
            ("three-point", "sprung"),
            "let one axle rock, so that four wheels stand on a twisted track",
        )
    yield Remedy("wagon", "wheelbase_mm", less(wagon.wheelbase_mm, down), "shorter wagons")
    yield Remedy("track", "min_curve_radius_m", less(track.min_curve_radius_m, up), "wider curves")
    if track.joint_step_mm:
        step = less(track.joint_step_mm, (0.5, 0.25, 0.1))
        yield Remedy("track", "joint_step_mm", step, "align the rail ends")
    wider = tuple(track.flangeway_mm + more for more in (4, 8, 12))
    yield Remedy("track", "flangeway_mm", wider, "wider flangeways")
    if track.flangeway_depth_mm is not None:
        deeper = tuple(track.flangeway_depth_mm + more for more in (5, 10, 20, 30))
        yield Remedy("track", "flangeway_depth_mm", deeper, "deeper flangeways")
    yield Remedy("wagon", "payload_kg", less(wagon.payload_kg, down), "smaller loads")
    yield Remedy("wagon", "max_speed_km_h", less(wagon.max_speed_km_h, down), "slower")
    yield Remedy("use", "push_force_n", less(use.push_force_n, up), "more people, or a machine")


def running_choices(setting: Setting, choices: Choices) -> int:
    """How many rims (diameter, width, flange) pass the checks of running, each with some play."""
    return rims(setting, choices, RUNNING)[0].count


def never_passed(setting: Setting, choices: Choices) -> list[CheckResult]:
    """Checks of running that no wheel passes whatever its rim and play, each as the deepest,
    largest rim hears it with the job's own play."""
    wheels = first_wheels(setting.wheel, choices)
    for axis in ("flange", "depth"):
        wheels = widened(wheels, axis)
    told = []
    for check in RUNNING:
        if _never(wheels, setting, check) and _never(_of_every_play(wheels), setting, check):
            result = check(wheels.setting(setting, wheels.count - 1))
            if result is not None:
                told.append(result)
    return told


def _never(wheels: Wheels, setting: Setting, check: Check) -> bool:
    verdicts = asked(wheels, judge(setting, check), check)
    return verdicts is not None and len(verdicts) > 0 and not (verdicts < FAILED).any()


def _of_every_play(wheels: Wheels) -> Wheels:
    """Set for a play, a flange counts with its angle."""
    if len(wheels.choices.play) == 1:
        return wheels
    return widened(widened(wheels, "angle"), "play")


def track_advice(setting: Setting, choices: Choices) -> list[str]:
    """The least change of each key that lets a wheel run, alone; nothing where none does."""
    lines = []
    for remedy in _remedies(setting):
        for value in remedy.values:
            try:
                other = changed(setting, remedy.section, remedy.key, value)
            except SpecError:
                continue
            if running_choices(other, choices):
                was = getattr(getattr(setting, remedy.section), remedy.key)
                told = f'"{value}"' if isinstance(value, str) else f"{value:g}"
                was = f'"{was}"' if isinstance(was, str) else f"{was:g}"
                lines.append(
                    f"{remedy.section}.{remedy.key} = {told} in place of {was} ({remedy.what})"
                )
                break
    return lines


def changed(setting: Setting, section: Section, key: str, value: Any) -> Setting:
    """The setting with one key changed. Raises: SpecError."""
    spec = getattr(setting, section)
    other = type(spec)(**(spec.model_dump() | {key: value}))
    if section == "track":
        return replace(setting, track=other)
    if section == "wagon":
        return replace(setting, wagon=other)
    return replace(setting, use=other)
