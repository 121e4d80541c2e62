"""Ball bearings: life by ISO 281 in turns, km and years, and safety at rest (C0 / P0)."""

from __future__ import annotations

import math
from itertools import pairwise

# f0 Fa / C0, e, Y of deep groove ball bearings, normal clearance; ISO 281 factors in makers' tables
FACTORS = (
    (0.172, 0.19, 2.30),
    (0.345, 0.22, 1.99),
    (0.689, 0.26, 1.71),
    (1.03, 0.28, 1.55),
    (1.38, 0.30, 1.45),
    (2.07, 0.34, 1.31),
    (3.45, 0.38, 1.15),
    (5.17, 0.42, 1.04),
    (6.89, 0.44, 1.00),
)
# ISO 76 gives f0 by size, 12 to 16 or so; 12.3 turns rows by f0 Fa / C0 into those by Fa / C0 of
# Shigley, Mechanical Engineering Design, table 11-1 (from memory). A lower f0 is the safe side.
F0 = 12.3


def axial_factors(axial_n: float, c0_n: float, f0: float = F0) -> tuple[float, float]:
    """e and Y for an axial load, straight between the table's rows, held at its ends.

    Below the first row e and Y are the first row's (safe); above the last the table ends.
    Raises: ValueError above the last row or for C0 not above 0. Source: ISO 281.
    """
    if not c0_n > 0:
        raise ValueError(f"c0_n: found {c0_n:g}; allowed: above 0 N")
    ratio = f0 * axial_n / c0_n
    if ratio > FACTORS[-1][0]:
        most = FACTORS[-1][0] * c0_n / f0
        raise ValueError(f"axial_n: found {axial_n:g}; allowed: up to {most:.0f} N for this C0")
    if ratio <= FACTORS[0][0]:
        return FACTORS[0][1:]
    for (low, e_low, y_low), (high, e_high, y_high) in pairwise(FACTORS):
        if ratio <= high:
            part = (ratio - low) / (high - low)
            return e_low + part * (e_high - e_low), y_low + part * (y_high - y_low)
    raise AssertionError("unreachable")


def equivalent_load_n(radial_n: float, axial_n: float, c0_n: float, f0: float = F0) -> float:
    """P = X Fr + Y Fa: X 1, Y 0 where Fa / Fr <= e, else X 0.56. Source: ISO 281.

    Raises: ValueError as `axial_factors`.
    """
    e, y = axial_factors(axial_n, c0_n, f0)
    return radial_n if axial_n <= e * radial_n else 0.56 * radial_n + y * axial_n


def life_turns(c_n: float, load_n: float) -> float:
    """L10 of a ball bearing in turns: 1e6 (C / P)^3; infinite without load. Source: ISO 281."""
    return 1e6 * (c_n / load_n) ** 3 if load_n > 0 else math.inf


def life_km(turns: float, tread_diameter_mm: float) -> float:
    """Way rolled in so many turns of the wheel. Plain geometry."""
    return turns * math.pi * tread_diameter_mm / 1e6


def life_years(way_km: float, km_per_year: float) -> float:
    """Years at a use. Raises: ValueError for a use not above 0."""
    if not km_per_year > 0:
        raise ValueError(f"km_per_year: found {km_per_year:g}; allowed: above 0 km")
    return way_km / km_per_year


def static_load_n(radial_n: float, axial_n: float) -> float:
    """P0 = 0.6 Fr + 0.5 Fa, at least Fr. Source: ISO 76, deep groove bearings, from memory."""
    return max(radial_n, 0.6 * radial_n + 0.5 * axial_n)
