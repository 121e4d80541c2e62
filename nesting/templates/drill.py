"""Round holes of a blank for the drill: how many, what size, drilled or cut. mm."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.small_holes import LEAST_BY_HAND_MM, least_hole, round_hole
from platewheel.parts.base.cut_process import HOLE_SOURCE
from platewheel.parts.base.units import MM_PER_INCH, PARTS, Units, inches
from platewheel.parts.geometry.blank import Blank

MOST_TWIST_DRILL_MM = 32.0  # beyond it a hole saw; common practice, no source
TOLERANCE_MM = 1e-6


@dataclass(frozen=True)
class RoundHoles:
    """Holes of one size of one blank; `drilled`: too small for the process."""

    diameter_mm: float
    count: int
    drilled: bool


def round_holes(blank: Blank, cutting: Cutting) -> tuple[RoundHoles, ...]:
    """The blank's round holes by size, the smallest first."""
    least = least_hole(cutting, blank.thickness_mm)
    circles = [circle for circle in map(round_hole, blank.holes) if circle]
    sizes = Counter(round(2 * circle.radius_mm, 6) for circle in circles)
    return tuple(
        RoundHoles(size, sizes[size], size < least - TOLERANCE_MM) for size in sorted(sizes)
    )


def drill_size(diameter_mm: float, units: Units) -> str:
    """The next drill that is not smaller, in words.

    Metric drills come in steps of 0.1 mm up to 14 mm and of 0.25 mm up to 32 mm (ISO 235, from
    memory); inch drills in steps of 1/64 inch.
    """
    if diameter_mm > MOST_TWIST_DRILL_MM:
        return "hole saw, or bore it"
    if units == "inch":
        sixty_fourth = MM_PER_INCH / PARTS
        return f"drill {inches(math.ceil(diameter_mm / sixty_fourth - 1e-6) * sixty_fourth)}"
    step = 0.1 if diameter_mm <= 14 else 0.25
    return f"drill {round(math.ceil(diameter_mm / step - 1e-6) * step, 2):g} mm"


def least_source(cutting: Cutting) -> str:
    """Where the least hole of the process is from."""
    if cutting.least_hole_mm is not None:
        return "cutting.least_hole_mm of the job file"
    if cutting.process == "hand":
        return f"common practice: below {LEAST_BY_HAND_MM:g} mm by drill or hole saw"
    return HOLE_SOURCE[cutting.process]
