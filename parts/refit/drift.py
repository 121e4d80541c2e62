"""How far two wheels of different size on one axle steer off a straight track."""

from __future__ import annotations

import math

RUN_MM = 10_000.0  # of straight track, over which the drift is told
SOURCE = (
    "rolling radius difference: two circles on one axle roll as a cone, R = s r / dr (plain "
    "geometry; the rolling condition of Redtenbacher, from memory); drift: offset of a circle "
    "from its tangent, x^2 / 2R"
)


def curve_radius_mm(spacing_mm: float, first_mm: float, second_mm: float) -> float:
    """Radius in which an axle rolls freely on two treads of these diameters: s r / dr, with the
    mean radius r and the difference of the radii dr; infinite where they are alike."""
    apart = abs(first_mm - second_mm) / 2
    return math.inf if apart == 0 else spacing_mm * (first_mm + second_mm) / 4 / apart


def drift_mm(radius_mm: float, run_mm: float = RUN_MM) -> float:
    """Sideways over a length of straight track if no flange held it: x^2 / 2R, for x well below R;
    towards the smaller wheel."""
    return run_mm**2 / (2 * radius_mm)


def flange_after_mm(radius_mm: float, play_mm: float) -> float:
    """Run from the middle of the track until the flange touches: half the play is taken up."""
    return math.sqrt(radius_mm * max(play_mm, 0.0))
