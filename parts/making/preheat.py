"""How warm plates and axles are before they are welded, so that no bead cracks beside itself."""

from __future__ import annotations

import math

SOURCE = (
    "EN 1011-2:2001, annex C.3: Tp = 697 CET + 160 tanh(d / 35) + 62 HD^0.35 + (53 CET - 32) Q "
    "- 328; from memory"
)
# carbon equivalent CET = C + (Mn + Mo) / 10 + Cu / 20 of the most that EN 10025-2 lets into a
# product up to 40 mm, S275 and S355 too; from memory. Steel as sold has a third less.
CET = {
    "S235": 0.17 + 0.140 + 0.0275,
    "S275": 0.18 + 0.150 + 0.0275,
    "S355": 0.20 + 0.160 + 0.0275,
}
HYDROGEN_ML = {"dry": 5.0, "plain": 15.0}  # basic rods dried at 350 degrees, or wire; rutile rods
HEAT_KJ_MM = 1.2  # 140 A at 24 V, 130 mm/min, four fifths of it in the plate
LEAST_MM = 10.0  # thinner plates are outside the formula, and need none above freezing
LEAST_DEG = 20.0


def preheat_deg(steel: str, thickness_mm: float, hydrogen: str = "dry") -> float:
    """Least temperature of both parts before each run; room temperature, 20, where no more is
    needed. Source: SOURCE.

    Raises: KeyError for a steel that is not to be welded.
    """
    if thickness_mm < LEAST_MM:
        return LEAST_DEG
    cet = CET[steel]
    needed = (
        697 * cet
        + 160 * math.tanh(thickness_mm / 35)
        + 62 * HYDROGEN_ML[hydrogen] ** 0.35
        + (53 * cet - 32) * HEAT_KJ_MM
        - 328
    )
    return max(LEAST_DEG, float(needed))
