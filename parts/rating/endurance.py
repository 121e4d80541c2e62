"""Fatigue limits of a wheel: every place that may crack against every load of its life."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.loads.spectrum import Block, spectrum
from platewheel.parts.rating.detail import Cycles, Detail, cycles_of
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.miner import allowed_share, damage
from platewheel.parts.setting.setting import Setting

if TYPE_CHECKING:
    from numpy.typing import NDArray

# Bending that presses a root shut, counted as if it pulled: EN 1993-1-9:2005, table 8.5, judges
# roots by force over the throat, whole range (the limit "weld roots"), and EN 1993-1-8:2005, 4.12,
# counts the bending of a one-sided fillet where it opens the root. From memory
TOLD_BESIDE = frozenset({"weld roots, full range"})
NEAR = 30.0  # damage of a place below this part of the worst's: more loads hardly make it the worst


@dataclass(frozen=True)
class BlockDamage:
    """What the turns of one kind do to the place that cracks first: Miner's sum over the life,
    of rolling and of joints."""

    where: str
    state: str
    turns: float
    load_n: float
    push_n: float
    damage: float
    joints: float


@dataclass(frozen=True)
class Endurance:
    """One fatigue limit: the place that sets it, its cycles, the loads in proportion, and the most
    damage of any of its places."""

    detail: Detail
    cycles: Cycles
    share: float
    damage: float

    def limit(self, design_n: float) -> Limit:
        """As a limit on the design wheel load."""
        return Limit(
            self.detail.name,
            self.share * design_n,
            self.detail.where,
            f"FAT {self.detail.fat_n_mm2:g}",
            self.damage,
            self.judged,
        )

    @property
    def judged(self) -> bool:
        """Whether the rating is judged by it, or it is told beside."""
        return self.detail.name not in TOLD_BESIDE


def endurances(
    details: Sequence[Detail], setting: Setting, turns: NDArray[np.float64]
) -> list[Endurance]:
    """For each name of a limit the place that allows least; `turns` are the angles of details."""
    blocks, factor = spectrum(setting), setting.fatigue_factor
    found: dict[str, list[tuple[Detail, Cycles, float]]] = {}
    for detail in details:
        cycles = cycles_of(detail, blocks, turns)
        done = float(damage(cycles, detail.fat_n_mm2, factor, detail.in_shear).sum(axis=1).max())
        found.setdefault(detail.name, []).append((detail, cycles, done))
    result = []
    for places in found.values():
        most = max(done for _, _, done in places)
        rated = [
            Endurance(
                detail,
                cycles,
                allowed_share(cycles, detail.fat_n_mm2, factor, detail.in_shear),
                most,
            )
            for detail, cycles, done in places
            if done >= most / NEAR
        ]
        result.append(min(rated, key=lambda one: one.share))
    return result


def damage_by_block(one: Endurance, setting: Setting) -> list[BlockDamage]:
    """What each kind of turn does to a place, heavy and light, leading and trailing together."""
    blocks = spectrum(setting)
    done = damage(one.cycles, one.detail.fat_n_mm2, setting.fatigue_factor, one.detail.in_shear)
    worst = done[int(done.sum(axis=1).argmax())]
    of_block = one.cycles.block
    kinds: dict[tuple[str, str], list[int]] = {}
    for i, block in enumerate(blocks):
        kinds.setdefault((block.where, block.state), []).append(i)

    def total(numbers: list[int], at_joint: bool) -> float:
        mask = np.isin(of_block, numbers) & (one.cycles.at_joint == at_joint)
        return float(worst[mask].sum())

    return [
        BlockDamage(
            where,
            state,
            sum(blocks[i].turns for i in numbers),
            max(blocks[i].load_n for i in numbers),
            max(_push(blocks[i], one.detail) for i in numbers),
            total(numbers, False),
            total(numbers, True),
        )
        for (where, state), numbers in kinds.items()
    ]


def _push(block: Block, detail: Detail) -> float:
    return block.push_n if detail.feels_push else block.side_n
