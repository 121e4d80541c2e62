"""Rolling away, holding on a slope, stopping, and what the rails can take of it."""

from __future__ import annotations

import math

from platewheel.parts.setting.setting import GRAVITY
from platewheel.parts.wagon.resistance import gradient_share

STOP_S = (
    5.0  # a stop takes at most the way run in so long at full speed: common practice, no source
)
BRAKE_RESERVE = 1.25  # adhesion over braking force used: common practice, no source


def roll_away_percent(least_resistance: float) -> float:
    """Slope on which an unbraked wagon rolls away: tan a = w, so the resistance in percent.

    Source: plain statics. Wind, a knock, or a rail joint that it stands on starts it on less.
    """
    return 100 * least_resistance


def stop_distance_m(speed_km_h: float, seconds: float = STOP_S) -> float:
    """Way within which a wagon is to be stopped: what it runs in `seconds` at full speed."""
    return speed_km_h / 3.6 * seconds


def holding_share(gradient_percent: float) -> float:
    """Brake force over weight to hold on a slope; rolling resistance is not counted on."""
    return gradient_share(gradient_percent)


def stopping_share(speed_km_h: float, distance_m: float, gradient_percent: float) -> float:
    """Brake force over weight to stop downhill within a distance: v2 / (2 g s) + sin a.

    Turning masses of the wheels and rolling resistance left out: they about cancel. Source:
    plain dynamics.
    """
    return (speed_km_h / 3.6) ** 2 / (2 * GRAVITY * distance_m) + gradient_share(gradient_percent)


def stoppable_speed_km_h(share: float, gradient_percent: float, seconds: float = STOP_S) -> float:
    """Speed from which `share` of the weight stops a wagon downhill within the way run in
    `seconds`: v = 2 g t (share - sin a); 0 where it does not even hold."""
    return 3.6 * 2 * GRAVITY * seconds * max(share - gradient_share(gradient_percent), 0.0)


def adhesion_share(
    friction: float, gradient_percent: float, braked_axles: int = 1, axles: int = 1
) -> float:
    """Most brake force over the wagon's weight before wheels slide: mu cos a x braked / all
    axles, evenly loaded. Source: Coulomb friction; load moved forward by braking left out."""
    slope = math.atan(gradient_percent / 100)
    return friction * math.cos(slope) * braked_axles / axles


def braked_axles(share: float, friction: float, gradient_percent: float, axles: int) -> int | None:
    """Axles that must have brakes for a brake force over weight, with reserve; at least one.
    None where all of them are not enough."""
    one = adhesion_share(friction, gradient_percent, 1, axles) / BRAKE_RESERVE
    needed = max(1, math.ceil(share / one - 1e-9))
    return needed if needed <= axles else None


def steepest_braked_percent(friction: float) -> float:
    """Slope on which a wagon braked on all axles still holds, with reserve: tan a = mu / n."""
    return 100 * friction / BRAKE_RESERVE
