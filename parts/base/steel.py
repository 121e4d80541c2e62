"""Structural steel: strength by thickness, density."""

from __future__ import annotations

import math
from dataclasses import dataclass

DENSITY_KG_MM3 = (
    7.85e-6  # EN 1991-1-1:2002 table A.4, steel 77.0 to 78.5 kN/m3; trade: 7.85 kg/m2/mm
)
E_N_MM2, POISSON = 210_000.0, 0.3  # EN 1993-1-1:2005, 3.2.6

THICK_MM, THICKEST_MM = 100.0, 150.0  # where tensile strengths fall, and where all end


@dataclass(frozen=True)
class Steel:
    """Grade of EN 10025-2: yield strength by thickness band, tensile strength; N/mm2.

    Source: EN 10025-2:2004 table 7 (bands up to 16, 40, 63 mm; Rm for 3 to 100 mm); the bands
    from 63 to 150 mm and Rm over 100 mm from memory.
    """

    name: str
    yield_by_thickness: tuple[tuple[float, float], ...]  # (up to mm, ReH N/mm2)
    fu_n_mm2: float  # up to THICK_MM
    fu_thick_n_mm2: float
    beta_w: float  # correlation factor of fillet welds, EN 1993-1-8:2005 table 4.1

    def fy_n_mm2(self, thickness_mm: float) -> float:
        """Least yield strength at this thickness. Raises: ValueError above THICKEST_MM."""
        for limit_mm, fy in self.yield_by_thickness:
            if thickness_mm <= limit_mm:
                return fy
        raise ValueError(
            f"{self.name}: no yield strength listed above 150 mm, got {thickness_mm:g}"
        )

    def fu_at_n_mm2(self, thickness_mm: float) -> float:
        """Least tensile strength at this thickness. Raises: ValueError above THICKEST_MM."""
        if thickness_mm > THICKEST_MM:
            raise ValueError(f"{self.name}: no tensile strength listed, got {thickness_mm:g}")
        return self.fu_n_mm2 if thickness_mm <= THICK_MM else self.fu_thick_n_mm2


STEELS = {
    "S235": Steel(
        "S235", ((16, 235), (40, 225), (63, 215), (80, 215), (100, 215), (150, 195)), 360, 350, 0.80
    ),
    "S275": Steel(
        "S275", ((16, 275), (40, 265), (63, 255), (80, 245), (100, 235), (150, 225)), 410, 400, 0.85
    ),
    "S355": Steel(
        "S355", ((16, 355), (40, 345), (63, 335), (80, 325), (100, 315), (150, 295)), 470, 450, 0.90
    ),
}
# C45 normalised, EN 10083-2, from memory: 16 to 100 mm, taken for thinner too (safe), and above.
# Not to be welded, so its beta_w stands for nothing.
AXLE_STEELS = STEELS | {"C45": Steel("C45", ((100, 305), (150, 275)), 580, 560, math.nan)}
