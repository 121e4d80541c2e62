"""A proof load from weights on a lever, where no jack tells its force. N, mm, kg."""

from __future__ import annotations

import math
from dataclasses import dataclass

GRAVITY = 9.81
MOST_KG = 80.0  # that is hung on its end: a few sacks; common practice, no source
SHORT_MM = 150.0  # hinge to wheel, room for a bar and a plate
STRESS_N_MM2 = 235 / 1.5  # S235 by EN 10025-2, 1.5 against yield
SOURCE = "moments about the hinge; bending of the lever W (L - a), S235 to 2/3 of yield: statics"


@dataclass(frozen=True)
class Lever:
    """Hinged at one end below an anchor, the wheel `short_mm` from the hinge, the weight at
    `long_mm`. `section_mm3` is the section modulus that it needs; `anchor_n` pulls the hinge up."""

    short_mm: float
    long_mm: float
    weight_kg: float
    section_mm3: float
    anchor_n: float


def proof_lever(force_n: float) -> Lever:
    """The lever that presses with this force, its own weight left out: half of it counts as hung
    on the end. Source: SOURCE."""
    ratio = max(2, math.ceil(force_n / (GRAVITY * MOST_KG) - 1e-9))
    weight = force_n / ratio
    long = ratio * SHORT_MM
    return Lever(
        short_mm=SHORT_MM,
        long_mm=long,
        weight_kg=weight / GRAVITY,
        section_mm3=weight * (long - SHORT_MM) / STRESS_N_MM2,
        anchor_n=force_n - weight,
    )
