"""How much thinner than its name steel may be delivered: the lower limits of the mills' standards.

Sheet: EN 10029, class A, the lower of the editions of 1991 and 2010 (1991 up to 25 mm as printed,
the rest from memory). Sheet from coil, and all below 3 mm, where EN 10029 begins: EN 10051, its
widest coils (from memory; printed values of coils up to 1200 mm are 0.04 to 0.09 mm less). Flat
bar: EN 10058:2018. Pipe and tube: an eighth of the wall, the most of EN 10210-2 (a tenth; seamless
an eighth on a quarter of the girth), EN 10219-2 (a tenth up to 5 mm, 0.5 mm above) and EN 10255
(a tenth, seamless an eighth).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from platewheel.parts.wheel.part import CutFrom
from platewheel.parts.wheel.spec import WheelSpec

ThicknessTolerance = Literal["by standard", "coil", "nominal"]

_PLATE = ((5, 0.4), (8, 0.4), (15, 0.5), (25, 0.6), (40, 0.8), (80, 1.0))  # below so many mm
PLATE_FROM_MM, MOST_MM = 3.0, 80.0
_COIL = (  # up to so many mm
    *((2, 0.21), (2.5, 0.25), (3, 0.26), (4, 0.27), (5, 0.29), (6, 0.31)),
    *((8, 0.35), (10, 0.40), (12.5, 0.43), (15, 0.46), (25, 0.50)),
)
# yield strength above which a steel is of category B, and what that adds; EN 10051, table 1
_HARD_N_MM2, _HARD = 300.0, 1.15
_BAR = ((20, 0.5), (40, 1.0), (80, 1.5))  # up to so many mm
_PIPE_SHARE = 0.125


@dataclass(frozen=True)
class Below:
    """How far a plate may be below its thickness, mm, and the standard that says so."""

    mm: float
    standard: str


def below_thickness(
    spec: WheelSpec, cut_from: CutFrom, thickness_mm: float, tolerance: ThicknessTolerance
) -> Below:
    """What may be missing from the thickness of a part of this wheel, by what it is cut from.

    Raises: ValueError for a thickness that is not above 0, or sheet or bar of 80 mm and more.
    """
    round_stock = cut_from in ("pipe", "tube")
    if not (thickness_mm > 0 and (round_stock or thickness_mm < MOST_MM)):
        raise ValueError(
            f"thickness_mm: found {thickness_mm:g}; allowed: above 0, sheet and bar below "
            f"{MOST_MM:g} mm"
        )
    if tolerance == "nominal":
        return Below(0.0, "as measured")
    if round_stock:
        return Below(_PIPE_SHARE * thickness_mm, "EN 10210, EN 10255, an eighth of the wall")
    if cut_from == "bar":
        return Below(next(off for most, off in _BAR if thickness_mm <= most), "EN 10058")
    if thickness_mm < PLATE_FROM_MM or (tolerance == "coil" and thickness_mm <= _COIL[-1][0]):
        off = next(off for most, off in _COIL if thickness_mm <= most)
        hard = spec.grade.fy_n_mm2(thickness_mm) > _HARD_N_MM2
        return Below(off * (_HARD if hard else 1.0), "EN 10051")
    return Below(next(off for most, off in _PLATE if thickness_mm < most), "EN 10029, class A")
