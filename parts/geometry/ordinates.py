"""An arc struck without its centre: heights over a straight chord, at even stations. mm.

For arcs that no compass reaches, and to prove those that one has struck.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.units import MM_PER_INCH, Units
from platewheel.parts.geometry.marking_out import height_mm

MOST_PART_DEG = 120.0  # a longer arc is struck in equal parts
MOST_STATIONS = 9  # on each side of the middle
STEPS_MM = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0)
STEPS_IN = (0.25, 0.5, 1.0, 2.0, 4.0, 8.0)


@dataclass(frozen=True)
class Ordinates:
    """One of `parts` equal parts of an arc: its chord, and heights at stations from the chord's
    middle, alike on both sides; the last station is the chord's end."""

    radius_mm: float
    parts: int
    chord_mm: float
    stations: tuple[tuple[float, float], ...]  # along, height


def ordinates(radius_mm: float, sweep_deg: float, units: Units = "mm") -> Ordinates:
    """Stations at whole steps of the rule. Source: sqrt(R^2 - x^2) - R cos(half angle), x along
    the chord from its middle; chord 2 R sin(half angle)."""
    parts = math.ceil(abs(sweep_deg) / MOST_PART_DEG - 1e-9)
    half = math.radians(abs(sweep_deg)) / parts / 2
    end = radius_mm * math.sin(half)
    steps = STEPS_MM if units == "mm" else tuple(step * MM_PER_INCH for step in STEPS_IN)
    step = next((one for one in steps if one * MOST_STATIONS >= end), steps[-1])
    count = math.ceil(end / step - 1e-9)
    stations = [(k * step, height_mm(radius_mm, half, k * step / end)) for k in range(count)]
    return Ordinates(radius_mm, parts, 2 * end, (*stations, (end, 0.0)))
