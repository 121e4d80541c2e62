"""Palmgren and Miner: the damage that a life of stress ranges does, and the loads that make it 1.

D = sum of n / N, at most 1. Source: EN 1993-1-9:2005, annex A.5, from memory; N by the S-N curves
of `parts.rating.fatigue`, ranges times the partial factor.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.detail import Cycles
from platewheel.parts.rating.fatigue import damage_a_cycle

if TYPE_CHECKING:
    from numpy.typing import NDArray

ROUNDS = 14  # each leaves a quarter of the error or less


def damage(
    cycles: Cycles, fat_n_mm2: float, factor: float, in_shear: bool = False
) -> NDArray[np.float64]:
    """Of each kind of cycle at each place of the tread, (places, kinds)."""
    return damage_a_cycle(factor * cycles.ranges, fat_n_mm2, in_shear) * cycles.counts


def allowed_share(cycles: Cycles, fat_n_mm2: float, factor: float, in_shear: bool = False) -> float:
    """All loads of the life, times this, do a damage of 1 at the worst place of the tread;
    infinite where nothing is stressed."""
    ranges = factor * cycles.ranges
    worst = int(damage(cycles, fat_n_mm2, factor, in_shear).sum(axis=1).argmax())
    if not (ranges[worst] * cycles.counts).any():
        return float("inf")
    share = 1.0
    for _ in range(ROUNDS):  # the damage grows with a power between 3 and 5
        done = float(
            (damage_a_cycle(share * ranges[worst], fat_n_mm2, in_shear) * cycles.counts).sum()
        )
        if done == 0:
            return float("inf")
        share *= done**-0.25
    # another place may be the worst of heavier or lighter loads
    every = (damage_a_cycle(share * ranges, fat_n_mm2, in_shear) * cycles.counts).sum(axis=1)
    if every.argmax() != worst and every.max() > 1 + 1e-9:
        return min(
            share,
            *(
                allowed_share(
                    cycles._replace(ranges=cycles.ranges[[i]]), fat_n_mm2, factor, in_shear
                )
                for i in np.flatnonzero(every > 1 + 1e-9)
            ),
        )
    return float(share)
