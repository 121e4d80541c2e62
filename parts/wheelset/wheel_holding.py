"""What holds a wheel on its axle, as numbers: key, set screws, press fit, weld. No limits here."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from platewheel.parts.base.steel import E_N_MM2

POISSON = 0.3  # EN 1993-1-1, 3.2.6

# over so many mm of axle: width, height, depth in the axle, depth in the hub; parallel keys of
# ISO 773, form of the keyway by the same; from memory, sections and the depths up to 50 mm checked
# against two public tables (tests/published/test_parallel_keys.py)
_KEYS = (
    (8, 3, 3, 1.8, 1.4),
    (10, 4, 4, 2.5, 1.8),
    (12, 5, 5, 3.0, 2.3),
    (17, 6, 6, 3.5, 2.8),
    (22, 8, 7, 4.0, 3.3),
    (30, 10, 8, 5.0, 3.3),
    (38, 12, 8, 5.0, 3.3),
    (44, 14, 9, 5.5, 3.8),
    (50, 16, 10, 6.0, 4.3),
    (58, 18, 11, 7.0, 4.4),
    (65, 20, 12, 7.5, 4.9),
    (75, 22, 14, 9.0, 5.4),
    (85, 25, 14, 9.0, 5.4),
    (95, 28, 16, 10.0, 6.4),
    (110, 32, 18, 11.0, 7.4),
)
SCREWS_MM = (5.0, 6.0, 8.0, 10.0, 12.0, 16.0)  # coarse threads of ISO 261
# cup point on a steel shaft, size in inches and what it holds in lbf: Shigley, Mechanical
# Engineering Design, table 7-4, from memory; between its sizes straight
_HOLDING = (
    (0.190, 540),
    (0.250, 1000),
    (0.3125, 1500),
    (0.375, 2000),
    (0.4375, 2500),
    (0.500, 3500),
    (0.5625, 4000),
    (0.625, 5000),
    (0.750, 6000),
)
LBF_N = 4.4482216
INCH_MM = 25.4


@dataclass(frozen=True)
class Key:
    """A parallel key, mm; its sides stand in axle and hub to these depths."""

    width_mm: float
    height_mm: float
    axle_depth_mm: float
    hub_depth_mm: float

    @property
    def side_mm(self) -> float:
        """Height of the side that bears on the hub."""
        return self.height_mm - self.axle_depth_mm


def key_for(axle_mm: float) -> Key:
    """The parallel key of this axle. Source: ISO 773, from memory.

    Raises: ValueError below 10 or above 130 mm.
    """
    if not 10 <= axle_mm <= 130:
        raise ValueError(f"axle_mm: found {axle_mm:g}; allowed: 10 up to 130 mm")
    rows = [row for row in _KEYS if row[0] < axle_mm]
    return Key(*rows[-1][1:])


def key_pressure_n_mm2(
    torque_n_mm: float, axle_mm: float, side_mm: float, length_mm: float
) -> float:
    """Pressure on the key's side: 2 T / (d l side). Source: Shigley, Mechanical Engineering
    Design, 7-7."""
    return 2 * torque_n_mm / (axle_mm * length_mm * side_mm)


def key_shear_n_mm2(torque_n_mm: float, axle_mm: float, width_mm: float, length_mm: float) -> float:
    """Shear through the key: 2 T / (d b l). Source: Shigley, Mechanical Engineering
    Design, 7-7."""
    return 2 * torque_n_mm / (axle_mm * width_mm * length_mm)


def screw_holding_n(screw_mm: float) -> float:
    """What one tightened cup point set screw holds, at rest. Source: see `_HOLDING`.

    Raises: ValueError outside 4.83 to 19.05 mm.
    """
    size = screw_mm / INCH_MM
    for (low, holds_low), (high, holds_high) in pairwise(_HOLDING):
        if low <= size <= high:
            part = (size - low) / (high - low)
            return LBF_N * (holds_low + part * (holds_high - holds_low))
    raise ValueError(f"screw_mm: found {screw_mm:g}; allowed: 4.83 up to 19.05 mm")


def press_pressure_n_mm2(overlap_mm: float, axle_mm: float, hub_outside_mm: float) -> float:
    """Pressure between a solid axle and a hub of the same steel; `overlap_mm` on the diameter.

    p = E overlap / (2 d) (1 - d^2 / D^2), nothing where the axle is the smaller.
    Source: Lame; Shigley, Mechanical Engineering Design, 3-16, one material, solid shaft.
    Raises: ValueError for a hub not larger than its axle.
    """
    if not 0 < axle_mm < hub_outside_mm:
        raise ValueError(
            f"hub_outside_mm: found {hub_outside_mm:g}; allowed: above the axle, {axle_mm:g} mm"
        )
    share = 1 - (axle_mm / hub_outside_mm) ** 2
    return E_N_MM2 * max(overlap_mm, 0.0) / (2 * axle_mm) * share


def press_hub_stress_n_mm2(pressure: float, axle_mm: float, hub_outside_mm: float) -> float:
    """Greatest stress in the hub by Tresca, at its bore: 2 p / (1 - d^2 / D^2). Source: Lame."""
    return 2 * pressure / (1 - (axle_mm / hub_outside_mm) ** 2)


def press_holding_n(pressure: float, axle_mm: float, length_mm: float, friction: float) -> float:
    """Force along or round the axle at which a press fit slips: mu p pi d l. Plain friction."""
    return friction * pressure * math.pi * axle_mm * length_mm
