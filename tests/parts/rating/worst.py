"""The worst range of a few places that may crack, under one load."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.parts.loads.spectrum import Block
from platewheel.parts.rating.detail import Detail, cycles_of
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles


@dataclass(frozen=True)
class Found:
    """The worst of a limit's places under 1 N, and a push of a share of it."""

    range_per_n: float
    where: str
    fat_n_mm2: float


def worst(details: Sequence[Detail], response: Response, share: float = 0.0) -> dict[str, Found]:
    """By name of the limit."""
    block = Block("straight", "loaded", 1.0, 1.0, 1.0, 0.0, share, share)
    found: dict[str, Found] = {}
    for detail in details:
        size = float(cycles_of(detail, (block,), angles(response)).ranges[:, 0].max())
        if detail.name not in found or size > found[detail.name].range_per_n:
            found[detail.name] = Found(size, detail.where, detail.fat_n_mm2)
    return found
