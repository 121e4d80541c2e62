"""A place that may crack: how its stress runs over one turn, for a newton down and one across."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from platewheel.parts.loads.spectrum import Block

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True)
class Detail:
    """`down` (places, angles, parts) is the stress for 1 N on each place of the tread, `across`
    (angles, parts) for 1 N of push, over half a turn where the other half is its mirror, else
    over one half and then the other; the parts of a range add up square. `opened` counts what
    pulls alone. `feels_push` says that it is the flange's: it feels the push on the flange, any
    other place what of it the wheel hands on. `in_shear` is the shear of a
    wheel that slips on the rail: it comes in turns that slide alone. `name` is of the limit,
    `fat_n_mm2` its class."""

    name: str
    where: str
    fat_n_mm2: float
    down: NDArray[np.float64]
    across: NDArray[np.float64]
    opened: bool = False
    feels_push: bool = False
    in_shear: bool = False


class Cycles(NamedTuple):
    """Stress ranges of a life, N/mm2, at each place of the tread: (places, kinds); how many of
    each kind (kinds,); and the block each is of, those of joints marked."""

    ranges: NDArray[np.float64]
    counts: NDArray[np.float64]
    block: NDArray[np.int64]
    at_joint: NDArray[np.bool_]


def turn_weights(turns: NDArray[np.float64]) -> NDArray[np.float64]:
    """Share of a turn that each angle from 0 to pi stands for; they add up to 1."""
    edges = np.concatenate([[0.0], (turns[1:] + turns[:-1]) / 2, [np.pi]])
    return np.asarray(np.diff(edges) / np.pi)


def _weights(detail: Detail, turns: NDArray[np.float64]) -> NDArray[np.float64]:
    """The same, for a detail that is told over half a turn, or over both halves."""
    half = turn_weights(turns)
    if len(detail.across) == len(half):
        return half
    return np.concatenate([half, half]) / 2


def cycles_of(detail: Detail, blocks: tuple[Block, ...], turns: NDArray[np.float64]) -> Cycles:
    """One range a turn, largest less smallest; in a turn with a joint, which may come at any
    angle, the stress there is that of the struck wheel.

    The mean does not count (welded, full range: EN 1993-1-9:2005, 7.2.1, from memory).
    """
    loads = np.array([block.load_n for block in blocks])
    struck = np.array([block.struck_n for block in blocks])
    if detail.in_shear:
        slides = np.array([block.slides for block in blocks])
        loads, struck = loads * slides, struck * slides
    pushes = np.array([block.push_n if detail.feels_push else block.side_n for block in blocks])
    across = pushes[:, None, None, None] * detail.across[None, None]

    def stress(load: NDArray[np.float64]) -> NDArray[np.float64]:
        """(blocks, places, angles, parts)."""
        found = load[:, None, None, None] * detail.down[None] + across
        return np.maximum(found, 0.0) if detail.opened else found

    rolling = stress(loads)
    high, low = rolling.max(axis=2), rolling.min(axis=2)
    calm = np.sqrt(((high - low) ** 2).sum(axis=-1))  # (blocks, places)
    hit = stress(struck)
    spread = np.maximum(high[:, :, None], hit) - np.minimum(low[:, :, None], hit)
    jolted = np.sqrt((spread**2).sum(axis=-1))  # (blocks, places, angles)
    weights = _weights(detail, turns)
    places, angles = calm.shape[1], len(weights)
    hits = np.array([block.hits for block in blocks])
    life = np.array([block.turns for block in blocks])
    numbers = np.arange(len(blocks))
    return Cycles(
        np.concatenate([calm.T, jolted.transpose(1, 0, 2).reshape(places, -1)], axis=1),
        np.concatenate(
            [
                life * np.maximum(1 - hits, 0.0),
                ((life * hits)[:, None] * weights[None]).ravel(),
            ]
        ),
        np.concatenate([numbers, np.repeat(numbers, angles)]),
        np.concatenate([np.zeros(len(blocks), bool), np.ones(len(blocks) * angles, bool)]),
    )
