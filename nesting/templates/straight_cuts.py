"""Straight cuts that take an angle grinder to within 2 mm of a round line. Closed forms; mm.

The cuts touch the circle from outside: they make a polygon drawn about it, and only its corners
stand proud, to be ground off.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

PROUD_MM = 2.0  # most steel left for the grinding disc; common practice, no source


@dataclass(frozen=True)
class StraightCuts:
    """Equal straight cuts about an arc (360 degrees: a whole disc)."""

    count: int
    radius_mm: float
    sweep_deg: float

    @property
    def half_turn(self) -> float:
        """Half of the angle that one cut covers, radians."""
        return math.radians(self.sweep_deg) / (2 * self.count)

    @property
    def across_mm(self) -> float:
        """Width across two opposite cuts of a whole disc: the disc's own diameter."""
        return 2 * self.radius_mm

    @property
    def length_mm(self) -> float:
        """Length of one cut, corner to corner. Source: side of a circumscribed polygon."""
        return 2 * self.radius_mm * math.tan(self.half_turn)

    @property
    def step_mm(self) -> float:
        """Compass step along the line from the middle of one cut to the next."""
        return 2 * self.radius_mm * math.sin(self.half_turn)

    @property
    def proud_mm(self) -> float:
        """How far the corners stand out, R (1 / cos(pi / n) - 1)."""
        return self.radius_mm * (1 / math.cos(self.half_turn) - 1)


def cuts_of_disc(radius_mm: float, proud_mm: float = PROUD_MM) -> StraightCuts:
    """Fewest cuts, of even number: two lie opposite, so that their width can be measured."""
    least = math.pi / math.acos(radius_mm / (radius_mm + proud_mm))
    return StraightCuts(max(4, 2 * math.ceil(least / 2 - 1e-9)), radius_mm, 360.0)


def cuts_of_arc(radius_mm: float, sweep_deg: float, proud_mm: float = PROUD_MM) -> StraightCuts:
    """Fewest equal cuts about the outer arc of a segment."""
    most = 2 * math.degrees(math.acos(radius_mm / (radius_mm + proud_mm)))
    return StraightCuts(max(1, math.ceil(sweep_deg / most - 1e-9)), radius_mm, sweep_deg)
