"""How far steel is bent past its shape, and what presses a rolled ring round."""

from __future__ import annotations

import math

from platewheel.parts.base.steel import E_N_MM2, STEELS
from platewheel.parts.wheel.spec import WheelSpec

SOURCE = (
    "a strip of elastic, perfectly plastic steel, R / R released = 4 X^3 - 3 X + 1 with "
    "X = Re R / (E t): Gardiner 1957, from memory"
)
STRONGER = 1.5  # yield strength of sheet over that of its name, at most; common practice, no source
RING_SOURCE = "thin ring, two opposite forces: Roark's Formulas, table of circular rings, case 1"
SHORTER, WIDER = math.pi / 4 - 2 / math.pi, 2 / math.pi - 1 / 2  # of F R^3 / (E I): 0.1488, 0.1366


def released_mm(radius_mm: float, thickness_mm: float, yield_n_mm2: float) -> float:
    """Radius of the middle of a plate once it is let go, bent to this radius; infinite where it
    was bent within its elasticity. Source: Gardiner, see SOURCE."""
    x = yield_n_mm2 * radius_mm / (E_N_MM2 * thickness_mm)
    return radius_mm / (4 * x**3 - 3 * x + 1) if x < 0.5 else math.inf


def bent_to_mm(radius_mm: float, thickness_mm: float, yield_n_mm2: float) -> float:
    """Radius to which a plate is bent so that it is let go at this one, both of its middle."""
    from scipy.optimize import brentq

    elastic = E_N_MM2 * thickness_mm / yield_n_mm2  # R = X elastic
    x = brentq(lambda x: radius_mm * (4 * x**3 - 3 * x + 1) - x * elastic, 0.0, 0.5, xtol=1e-12)
    return float(x * elastic)


def rolled_to_mm(spec: WheelSpec) -> tuple[float, float]:
    """Least and greatest inside radius of the ring in the rolls: steel stronger than its name, and
    as named."""
    wall = spec.tread_thickness_mm
    middle = spec.bore_radius_mm(0.0) + wall / 2
    least, most = _span(middle, wall, spec)
    return least - wall / 2, most - wall / 2


def flange_bent_mm(spec: WheelSpec) -> tuple[float, tuple[float, float]]:
    """Radius of the flange across its marks, half way from root to tip, and the least and greatest
    to which it is bent for it; a cone bends by cos(angle to the axle) / r (Meusnier).

    Raises: ZeroDivisionError for a flange of 90 degrees, which is flat.
    """
    away = math.cos(math.radians(spec.flange_angle_deg)) if spec.flange_angle_deg < 90 else 0.0
    radius = (spec.tread_radius_mm + spec.flange_depth_mm / 2) / away
    return radius, _span(radius, spec.flange_thickness_mm, spec)


def _span(radius_mm: float, thickness_mm: float, spec: WheelSpec) -> tuple[float, float]:
    named = STEELS[spec.steel].fy_n_mm2(thickness_mm)
    least, most = (bent_to_mm(radius_mm, thickness_mm, share * named) for share in (STRONGER, 1.0))
    return least, most


def round_force_n(spec: WheelSpec, difference_mm: float) -> float:
    """Force across the largest diameter that takes so much difference of the diameters out of the
    ring while it is held. Source: see RING_SOURCE."""
    radius, bending = _ring(spec)
    return difference_mm * bending / ((SHORTER + WIDER) * radius**3)


def lasting_squeeze_mm(spec: WheelSpec) -> float:
    """How far a diameter is squeezed before anything of it stays: first yield, M = F R / pi.
    Source: see RING_SOURCE."""
    radius, bending = _ring(spec)
    wall = spec.tread_thickness_mm
    section = spec.tread_width_mm * wall**2 / 6
    force = math.pi * STEELS[spec.steel].fy_n_mm2(wall) * section / radius
    return SHORTER * force * radius**3 / bending


def _ring(spec: WheelSpec) -> tuple[float, float]:
    """Mean radius, mm, and E I, N mm2, of the tread ring."""
    wall = spec.tread_thickness_mm
    radius = spec.bore_radius_mm(0.0) + wall / 2
    return radius, E_N_MM2 * spec.tread_width_mm * wall**3 / 12
