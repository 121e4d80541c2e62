"""Section of a body of revolution in the r-z plane: the one home of each part's shape."""

from __future__ import annotations

import math
from collections.abc import Sequence

RZ = tuple[float, float]  # radius from the wheel axis, position along it; mm
Section = tuple[RZ, ...]  # corners of a closed polygon, in order, either way round


def slanted_plate(foot: RZ, run: RZ, thickness_mm: float) -> Section:
    """Plate whose outer face goes from `foot` along `run`; thickness to the left, square edges."""
    length = math.hypot(*run)
    left = (-run[1] / length * thickness_mm, run[0] / length * thickness_mm)
    top = (foot[0] + run[0], foot[1] + run[1])
    return (foot, top, (top[0] + left[0], top[1] + left[1]), (foot[0] + left[0], foot[1] + left[1]))


def rectangle(r0: float, r1: float, z0: float, z1: float) -> Section:
    """Section of a straight ring."""
    return ((r0, z0), (r1, z0), (r1, z1), (r0, z1))


def area_mm2(section: Sequence[RZ]) -> float:
    """Area of the polygon (shoelace)."""
    return abs(math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in _edges(section))) / 2


def first_moment_mm3(section: Sequence[RZ]) -> float:
    """Integral of r over the polygon: area x radius of its centroid."""
    terms = ((a[0] + b[0]) * (a[0] * b[1] - b[0] * a[1]) for a, b in _edges(section))
    return abs(math.fsum(terms)) / 6


def revolved_volume_mm3(section: Sequence[RZ], turn: float = 2 * math.pi) -> float:
    """Volume swept by turning the section through `turn` radians. Source: Pappus' theorem."""
    return turn * first_moment_mm3(section)


def _edges(section: Sequence[RZ]) -> list[tuple[RZ, RZ]]:
    return list(zip(section, [*section[1:], section[0]], strict=True))
