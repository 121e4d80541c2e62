"""Plays that an axle can be set for, and the back-to-back that gives one to a wheel."""

from __future__ import annotations

import math

from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.usual_clearance import least_play_mm
from platewheel.parts.wheel.flange import flange_reach_mm
from platewheel.parts.wheel.spec import WheelSpec

SHARES = (1.0, 0.75, 1.25, 1.5)  # of the usual play; common practice, no source
STEP_MM = 0.5  # of plays tried and of back-to-backs told: what a steel rule shows


def play_choices(setting: Setting) -> tuple[float | None, ...]:
    """Total plays in the nominal gauge, mm: the job's own, then others about the usual one, none
    so small that less than the least is left in the tightest gauge. None is the usual play of a
    job that gives no back-to-back: no key has to be written for it."""
    own = None if setting.axle.back_to_back_mm is None else setting.play_mm
    usual = setting.usual_play_mm
    least = least_play_mm(setting.track.gauge_mm) + setting.tight_mm
    others = [STEP_MM * math.floor(share * usual / STEP_MM + 0.5) for share in SHARES]
    known = usual if own is None else own
    fit = [play for play in others if play >= least - 1e-9 and abs(play - known) > 1e-9]
    return (own, *dict.fromkeys(fit))


def back_to_back_mm(setting: Setting, wheel: WheelSpec, play_mm: float | None) -> float | None:
    """What sets this wheel for a play: gauge - play - two flanges, rounded down so that the play
    is never less; None leaves the axle as the job has it."""
    given = setting.axle.back_to_back_mm
    if play_mm is None:
        return given
    exact = setting.track.gauge_mm - play_mm - 2 * flange_reach_mm(wheel)
    if given is not None and abs(exact - given) < 1e-6:
        return given
    return STEP_MM * math.floor(exact / STEP_MM + 1e-9)


def axle_set(setting: Setting, wheel: WheelSpec, play_mm: float | None) -> AxleSpec:
    """The axle with that back-to-back. Raises: SpecError where the flanges would meet."""
    between = back_to_back_mm(setting, wheel, play_mm)
    return AxleSpec(**(setting.axle.model_dump() | {"back_to_back_mm": between}))
