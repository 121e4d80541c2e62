"""Plain bushes: pressure, rubbing speed and their product. Temperature and wear are not judged."""

from __future__ import annotations

import math

PV_LIMITS = {  # N/mm2 x m/s at room temperature, boundary lubricated
    "bronze": (2.625, "Mott, Machine Elements in Mechanical Design, table 16-1: leaded tin bronze"),
    "iron": (1.75, "cast iron, from memory"),
    "polymer": (0.105, "Mott, Machine Elements in Mechanical Design, table 16-1: nylon"),
    "hardwood": (0.42, "oiled hardwood, from memory"),
}


def bush_pressure_n_mm2(load_n: float, bore_mm: float, length_mm: float) -> float:
    """Mean pressure on the projected area, F / (d L). Textbook definition.

    Raises: ValueError for bore or length not above 0.
    """
    for key, value in (("bore_mm", bore_mm), ("length_mm", length_mm)):
        if not value > 0:
            raise ValueError(f"{key}: found {value:g}; allowed: above 0 mm")
    return load_n / (bore_mm * length_mm)


def rubbing_speed_m_s(bore_mm: float, turns_per_min: float) -> float:
    """Speed at the bore: pi d n. Plain kinematics."""
    return math.pi * bore_mm / 1000 * turns_per_min / 60


def turns_per_min(speed_km_h: float, tread_diameter_mm: float) -> float:
    """Turns of a wheel that rolls at this speed. Plain kinematics.

    Raises: ValueError for a diameter not above 0.
    """
    if not tread_diameter_mm > 0:
        raise ValueError(f"tread_diameter_mm: found {tread_diameter_mm:g}; allowed: above 0 mm")
    return speed_km_h * 1e6 / 60 / (math.pi * tread_diameter_mm)
