"""Miner's sum of one place by the blocks of the spectrum: each range with its turns, one by one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from platewheel.parts.loads.spectrum import Block, spectrum
from platewheel.parts.rating.detail import Detail
from platewheel.parts.rating.endurance import Endurance
from platewheel.parts.rating.miner import damage
from platewheel.parts.setting.setting import Setting


@dataclass(frozen=True)
class BlockSum:
    """Of one block at the worst place: its turns without a joint, their range and damage; its
    strikes at joints, the greatest of their ranges (it hangs on where the joint is met) and their
    damage together."""

    block: Block
    turns: float
    range_n_mm2: float
    damage: float
    strikes: float
    most_range_n_mm2: float
    strike_damage: float

    @property
    def bears(self) -> float:
        """Turns of this range until a crack; infinite where it does no harm."""
        return self.turns / self.damage if self.damage else math.inf


def sum_by_block(one: Endurance, setting: Setting) -> list[BlockSum]:
    """In the order of the spectrum; all damages together are `one.damage` where its detail is the
    worst of its limit."""
    cycles, detail = one.cycles, one.detail
    done = damage(cycles, detail.fat_n_mm2, setting.fatigue_factor, detail.in_shear)
    worst = int(done.sum(axis=1).argmax())
    ranges, harm = cycles.ranges[worst], done[worst]
    found = []
    for number, block in enumerate(spectrum(setting)):
        calm = (cycles.block == number) & ~cycles.at_joint
        struck = (cycles.block == number) & cycles.at_joint
        found.append(
            BlockSum(
                block,
                float(cycles.counts[calm].sum()),
                float(ranges[calm].max()),
                float(harm[calm].sum()),
                float(cycles.counts[struck].sum()),
                float(ranges[struck].max(initial=0.0)),
                float(harm[struck].sum()),
            )
        )
    return found


def whole_sum(blocks: Sequence[BlockSum]) -> tuple[float, float, float]:
    """Damage of rolling, of joints, and of both."""
    rolling = sum(one.damage for one in blocks)
    struck = sum(one.strike_damage for one in blocks)
    return rolling, struck, rolling + struck


def range_for_one_n(detail: Detail) -> tuple[float, float]:
    """Stress range of a turn, N/mm2, for 1 N down at the worst place of the tread, and for 1 N
    across."""
    down = _ranges([detail.down[place] for place in range(len(detail.down))])
    return max(down), _ranges([detail.across])[0]


def _ranges(series: Sequence[np.ndarray[tuple[int, ...], np.dtype[np.float64]]]) -> list[float]:
    return [float(np.sqrt(((one.max(axis=0) - one.min(axis=0)) ** 2).sum())) for one in series]
