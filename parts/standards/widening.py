"""Gauge widening that a wagon needs, by radius."""

from __future__ import annotations

from dataclasses import dataclass, replace

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.running.curve import (
    axle_yaw,
    fits_curve,
    room_given_mm,
    room_needed_mm,
)
from platewheel.parts.setting.setting import Setting

MOST_MM = 60.0  # what the track's spec takes
TIMES = (1.0, 1.5, 2.0, 3.0, 5.0)  # of the tightest curve's radius


@dataclass(frozen=True)
class Widening:
    """Least widening with which the flanges clear in a curve; None where no widening up to
    MOST_MM does, or the wagon does not fit the curve."""

    radius_m: float
    least_mm: float | None


def widening_table(setting: Setting) -> tuple[Widening, ...]:
    """For the tightest curve and easier ones."""
    radii = (times * setting.track.min_curve_radius_m for times in TIMES)
    return tuple(Widening(radius, least_widening_mm(setting, radius)) for radius in radii)


def least_widening_mm(setting: Setting, radius_m: float) -> float | None:
    """Least widening, mm, to a tenth, in a curve of this radius, by the room that the yawed
    flanges need there and have; a wagon skews more where there is more play, so it is tried."""
    if not _clears(setting, radius_m, MOST_MM):
        return None
    low, high = 0, round(10 * MOST_MM)
    if _clears(setting, radius_m, 0.0):
        return 0.0
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _clears(setting, radius_m, middle / 10) else (middle, high)
    return high / 10


def _clears(setting: Setting, radius_m: float, widening_mm: float) -> bool:
    track = unchecked(
        setting.track, {"min_curve_radius_m": radius_m, "gauge_widening_mm": widening_mm}
    )
    there = replace(setting, track=track)
    try:
        if not fits_curve(there):
            return False
    except (SpecError, ValueError):
        return False
    need = room_needed_mm(there, there.wheel.flange_angle_deg, axle_yaw(there))
    return need <= room_given_mm(there)
