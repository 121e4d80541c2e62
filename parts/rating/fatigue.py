"""The S-N curves by which wheel and welded axle are judged: damage that a cycle of stress does."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

CATEGORY_CYCLES = 2e6  # a detail's class is its range at this life
IIW_KNEE_CYCLES = 1e7


def knee_n_mm2(fat_n_mm2: float) -> float:
    """Range at which the curve of normal stress bends, at `IIW_KNEE_CYCLES`. Source: as below."""
    return float(fat_n_mm2 * (CATEGORY_CYCLES / IIW_KNEE_CYCLES) ** (1 / 3))


def damage_a_cycle(
    ranges_n_mm2: NDArray[np.float64], fat_n_mm2: float, in_shear: bool = False
) -> NDArray[np.float64]:
    """1 / N of each range, loads of varying size: slope 3 to 1e7 cycles, then slope 5; of shear
    slope 5 all the way. There is no cut-off: with varying loads small ranges count too (safe).

    Source: IIW recommendations for fatigue design of welded joints (Hobbacher), normal stress,
    variable amplitude; shear EN 1993-1-9:2005, 7.1, figure 7.2; both from memory.
    """
    if in_shear:
        return np.asarray((ranges_n_mm2 / fat_n_mm2) ** 5 / CATEGORY_CYCLES)
    share = ranges_n_mm2 / knee_n_mm2(fat_n_mm2)
    return np.asarray(np.where(share > 1, share**3, share**5) / IIW_KNEE_CYCLES)
