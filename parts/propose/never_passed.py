"""Which checks of running keep every wheel from a track."""

from __future__ import annotations

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
