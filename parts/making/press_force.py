"""What presses a fit together, or heat in its place; what a threaded rod pulls. N, mm, degrees."""

from __future__ import annotations

import math

from platewheel.parts.base.steel import E_N_MM2, POISSON

FRICTION_IN = 0.15  # steel pressed into steel, oiled; high end of DIN 7190, from memory
BRONZE_E_N_MM2, BRONZE_POISSON = 100_000.0, 0.34  # tin bronze; handbooks, from memory
FORCE_SOURCE = (
    "Lame's thick rings, greatest overlap of the ISO 286 fit, friction 0.15: DIN 7190, from memory"
)
EXPANSION = 11e-6  # steel for each degree; EN 1993-1-1:2005 takes 12e-6, the lower is safe here
HEAT_SOURCE = "overlap and 0.05 mm to slide by, over 11e-6 a degree: plain physics"
SLIDE_MM = 0.05
NUT_FACTOR = 0.2  # as received; Shigley, Mechanical Engineering Design, table 8-15, from memory
NUT_SOURCE = "T = 0.2 F d, nut and thread as bought: Shigley, table 8-15, from memory"
TONNE_N = 9810.0
# proof load of threaded rod as bought, 4.6, N: ISO 898-1, coarse threads, from memory
RODS_N = {12: 18_900.0, 16: 35_300.0, 20: 55_100.0, 24: 79_400.0}
ROD_SOURCE = "proof load of class 4.6: ISO 898-1, from memory"


def fit_pressure_n_mm2(
    overlap_mm: float,
    at_mm: float,
    outside_mm: float,
    inside_mm: float = 0.0,
    inner_e: float = E_N_MM2,
    inner_poisson: float = POISSON,
) -> float:
    """Pressure between a steel hub and what is pressed into it, solid or hollow; `overlap_mm` on
    the diameter, nothing for clearance. Source: Lame, two rings.

    Raises: ValueError where inside, fit and outside do not rise.
    """
    if not 0 <= inside_mm < at_mm < outside_mm:
        raise ValueError(f"at_mm: found {at_mm:g}; allowed: {inside_mm:g} to {outside_mm:g} mm")
    d2, out2, in2 = at_mm**2, outside_mm**2, inside_mm**2
    hub = ((out2 + d2) / (out2 - d2) + POISSON) / E_N_MM2
    inner = ((d2 + in2) / (d2 - in2) - inner_poisson) / inner_e
    return max(overlap_mm, 0.0) / (at_mm * (hub + inner))


def pressing_force_n(pressure_n_mm2: float, at_mm: float, length_mm: float) -> float:
    """Force that pushes it home, at the end of its way. Source: FORCE_SOURCE."""
    return FRICTION_IN * pressure_n_mm2 * math.pi * at_mm * length_mm


def warmer_by_deg(overlap_mm: float, at_mm: float) -> float:
    """How much warmer the hub must be than what slides into it. Source: HEAT_SOURCE."""
    return (max(overlap_mm, 0.0) + SLIDE_MM) / (EXPANSION * at_mm)


def rod_for_mm(force_n: float) -> int | None:
    """Thinnest threaded rod that pulls so hard, as bought; None where none does. Source:
    ROD_SOURCE."""
    return next((size for size, most in RODS_N.items() if force_n <= most), None)


def nut_torque_n_m(force_n: float, thread_mm: float) -> float:
    """Torque on the nut of a threaded rod that pulls so hard. Source: NUT_SOURCE."""
    return NUT_FACTOR * force_n * thread_mm / 1000
