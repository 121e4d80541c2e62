"""A short open path through places that must keep an order among some of them.

Nearest neighbour first, then pieces of the path turned round (2-opt) and moved (Or-opt) as long as
that makes it shorter. Source: G. A. Croes, 1958 (2-opt) and I. Or, 1976 (Or-opt), from memory.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

LONGEST_PIECE = 3  # places that are moved together
KICKS, KICKED = 12, 120  # times a finished path is shaken and shortened again; places in all
LOOKED_AT = 8  # shortest new paths of one move that are tried against the rules


@dataclass(frozen=True)
class Places:
    """What there is between n places, as n x n tables; row: from, column: to.

    `travel_mm`; `first_mm` from home to each; `before`: the row's place must come first;
    `near`: the two must not follow each other while any other that may come is not near.
    """

    travel_mm: NDArray[np.float64]
    first_mm: NDArray[np.float64]
    before: NDArray[np.bool_]
    near: NDArray[np.bool_]


def short_path(places: Places) -> list[int]:
    """Order of the places; the same tables give the same order."""
    cost = _with_penalty(places)
    best = _shortened(places, cost, _nearest_next(places))
    rng = random.Random(0)  # own generator: other code cannot shift the result
    for _ in range(min(KICKS, KICKED // len(best)) if len(best) >= 5 else 0):
        shaken = _shaken(best, rng)
        if keeps_rules(places, shaken):
            other = _shortened(places, cost, shaken)
            if _total(cost, other) < _total(cost, best) - 1e-6:
                best = other
    return best


def keeps_rules(places: Places, order: list[int]) -> bool:
    """Whether all comes in its turn, and near follows near only where nothing else may come."""
    at = np.empty(len(order), dtype=np.int64)
    at[order] = np.arange(len(order))
    first, then = np.nonzero(places.before)
    if not bool(np.all(at[first] < at[then])):
        return False
    for i in np.nonzero(places.near[order[:-1], order[1:]])[0]:
        to_come = order[i + 1 :]
        open_to = ~places.before[np.ix_(to_come, to_come)].any(axis=0)
        if bool(np.any(open_to & ~places.near[order[i], to_come])):
            return False
    return True


def _with_penalty(places: Places) -> NDArray[np.float64]:
    """Table of costs with home as last row; a near step costs more than any whole path."""
    count = len(places.first_mm)
    cost = np.zeros((count + 1, count + 1))
    cost[:count, :count] = places.travel_mm
    cost[count, :count] = places.first_mm
    much = (count + 1) * (1.0 + float(cost.max(initial=0.0)))
    cost[:count, :count] += much * places.near
    return cost


def _nearest_next(places: Places) -> list[int]:
    """From home on the nearest place that may come; not near the last while any is not."""
    order: list[int] = []
    to_come = list(range(len(places.first_mm)))
    while to_come:
        may = [place for place in to_come if not places.before[to_come, place].any()]
        if order:
            may = [place for place in may if not places.near[order[-1], place]] or may
        way = places.travel_mm[order[-1]] if order else places.first_mm
        chosen = min(may, key=lambda place: (round(float(way[place]), 6), place))
        order.append(chosen)
        to_come.remove(chosen)
    return order


def _total(cost: NDArray[np.float64], order: list[int]) -> float:
    return float(cost[[len(order), *order[:-1]], order].sum())


def _shortened(places: Places, cost: NDArray[np.float64], order: list[int]) -> list[int]:
    """The order after all moves that make it cheaper."""
    better = True
    while better:
        better = False
        for i in range(len(order)):
            for candidate in _moves(cost, order, i):
                if keeps_rules(places, candidate):
                    order, better = candidate, True
                    break
    return order


def _moves(cost: NDArray[np.float64], order: list[int], i: int) -> Iterator[list[int]]:
    """Cheaper orders with a piece that begins at position i turned or moved, cheapest first."""
    count = len(order)
    found: list[tuple[float, int, int, bool]] = []  # gain, piece, position, turned
    gains = _gains_of_turning(cost, order, i)
    found += [(float(gains[k]), int(k) + 2, i, True) for k in np.nonzero(gains < -1e-6)[0]]
    for piece in range(1, min(LONGEST_PIECE, count - i) + 1):
        for turn in (False, True) if piece > 1 else (False,):
            gains = _gains_of_moving(cost, order, i, piece, turn)
            found += [(float(gains[k]), piece, int(k), turn) for k in np.nonzero(gains < -1e-6)[0]]
    for _, piece, position, turn in sorted(found)[:LOOKED_AT]:
        part, rest = order[i : i + piece], order[:i] + order[i + piece :]
        yield rest[:position] + (part[::-1] if turn else part) + rest[position:]


def _gains_of_turning(cost: NDArray[np.float64], order: list[int], i: int) -> NDArray[np.float64]:
    """Change of cost when positions i to i + 1, i + 2, ... the last are run backwards."""
    home = len(order)
    ring = np.array(order)
    before = order[i - 1] if i else home
    ahead = np.cumsum(cost[ring[i:-1], ring[i + 1 :]])
    back = np.cumsum(cost[ring[i + 1 :], ring[i:-1]])
    lasts = ring[i + 1 :]
    follow = np.append(ring[i + 2 :], home)[: len(lasts)]
    change: NDArray[np.float64] = (
        back
        - ahead
        + cost[before, lasts]
        - cost[before, order[i]]
        + cost[order[i], follow]
        - cost[lasts, follow]
    )  # the column of home is nothing: a path ends where its last cut does
    return change


def _gains_of_moving(
    cost: NDArray[np.float64], order: list[int], i: int, piece: int, turn: bool
) -> NDArray[np.float64]:
    """Change of cost when a piece goes before position 0, 1, ... of the rest."""
    home, ring = len(order), order
    before = ring[i - 1] if i else home
    after = ring[i + piece] if i + piece < len(ring) else home
    part = ring[i : i + piece]
    out = cost[before, after] - cost[before, part[0]] - cost[part[-1], after]
    inner = 0.0
    if turn:
        inner = sum(float(cost[b, a] - cost[a, b]) for a, b in pairwise(part))
        part = part[::-1]
    rest = ring[:i] + ring[i + piece :]
    left, right = np.array([home, *rest]), np.array([*rest, home])
    change: NDArray[np.float64] = (
        out + inner + cost[left, part[0]] + cost[part[-1], right] - cost[left, right]
    )
    return change


def _shaken(order: list[int], rng: random.Random) -> list[int]:
    """Two neighbouring stretches of the order changed over."""
    a, b, c = sorted(rng.sample(range(len(order) + 1), 3))
    return order[:a] + order[b:c] + order[a:b] + order[c:]
