"""Diameters along an axle, and the bearing or bush on it."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.wheelset.bearing_table import Bearing

BUSH_WALL_MM = 5.0  # common practice, no source


@dataclass(frozen=True)
class Bush:
    """One plain bush, mm."""

    bore_mm: float
    length_mm: float
    wall_mm: float
    material: str

    @property
    def outside_mm(self) -> float:
        """Outside diameter."""
        return self.bore_mm + 2 * self.wall_mm


@dataclass(frozen=True)
class Seats:
    """Diameters of an axle in mm, and what turns on it or carries it."""

    seat_mm: float
    journal_mm: float
    body_mm: float
    bearing: Bearing | None
    bush: Bush | None
