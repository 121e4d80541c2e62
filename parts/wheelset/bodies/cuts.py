"""Steel that keyways, screw holes and dimples take away, by plain geometry. mm."""

from __future__ import annotations

import math
from itertools import pairwise

DRILL_POINT_DEG = 118.0  # of a twist drill as bought; common practice, no source


def slot_in_shaft_mm2(radius_mm: float, width_mm: float, depth_mm: float) -> float:
    """Section of a keyway cut into a shaft, `depth_mm` below its top."""
    return _under_arc_mm2(radius_mm, width_mm) - width_mm * (radius_mm - depth_mm)


def slot_in_bore_mm2(radius_mm: float, width_mm: float, depth_mm: float) -> float:
    """Section of a keyway cut into a bore, `depth_mm` above its top."""
    return width_mm * (radius_mm + depth_mm) - _under_arc_mm2(radius_mm, width_mm)


def radial_hole_mm3(
    drill_mm: float,
    outside_mm: float,
    bore_mm: float,
    slot_mm: tuple[float, float] = (0.0, 0.0),
) -> float:
    """A hole of diameter `drill_mm` square through one wall of a tube, its diameters given; from
    the bottom of a keyway (width, depth) where it is drilled over one. By Gauss's rule."""
    import numpy as np

    hole, outer, inner = drill_mm / 2, outside_mm / 2, bore_mm / 2
    width, depth = slot_mm
    edges = [-hole, *(y for y in (-width / 2, width / 2) if 0 < abs(y) < hole), hole]
    nodes, weights = np.polynomial.legendre.leggauss(40)
    volume = 0.0
    for low, high in pairwise(edges):
        # y = hole sin(angle): its ends are no longer steep
        start, end = math.asin(low / hole), math.asin(high / hole)
        angle = (start + end) / 2 + (end - start) / 2 * nodes
        y = hole * np.sin(angle)
        over = abs(low + high) / 2 < width / 2
        below = inner + depth if over else np.sqrt(inner**2 - y**2)
        chord = 2 * (hole * np.cos(angle)) ** 2
        volume += (end - start) / 2 * float(weights @ (chord * (np.sqrt(outer**2 - y**2) - below)))
    return volume


def dimple_mm3(shaft_mm: float, depth_mm: float) -> float:
    """What a drill's point takes out of a shaft's side: the cone below the cylinder's face."""
    import numpy as np

    radius, apex = shaft_mm / 2, shaft_mm / 2 - depth_mm
    steep = 1 / math.tan(math.radians(DRILL_POINT_DEG / 2))
    across = np.sin(np.linspace(0, 2 * math.pi, 64, endpoint=False)) ** 2
    a, b, c = steep**2 + across, apex * steep, apex**2 - radius**2
    widest = (np.sqrt(b * b - a * c) - b) / a  # where the cone meets the cylinder
    nodes, weights = np.polynomial.legendre.leggauss(24)
    rho = widest[:, None] * (nodes + 1) / 2
    high = np.sqrt(radius**2 - rho**2 * across[:, None]) - apex - rho * steep
    return float(2 * math.pi * np.mean((high * rho) @ weights * widest / 2))


def _under_arc_mm2(radius_mm: float, width_mm: float) -> float:
    """Between a chord's mid-line and the arc over it: the integral of sqrt(R^2 - y^2)."""
    half = width_mm / 2
    return half * math.sqrt(radius_mm**2 - half**2) + radius_mm**2 * math.asin(half / radius_mm)
