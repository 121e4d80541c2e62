"""Sizes worth trying on rings, some of which are trued, and which rings they miss."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.parts.refit.fewest_missed import Pair, cheapest_points
from platewheel.parts.refit.ring_windows import moved
from platewheel.parts.refit.shared_blanks import Window, steps_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Sizes = tuple[Sequence[int], Sequence[int]]  # of discs and flanges, in steps, rising


@dataclass(frozen=True)
class Ring:
    """Windows of one ring as it is and once it is round, on discs and on its flange (none where
    the one tried on stays); least and most that it is resized by."""

    now: tuple[tuple[Window, ...], tuple[Window, ...]]
    round: tuple[tuple[Window, ...], tuple[Window, ...]]
    resize_mm: tuple[float, float]

    def spans(self, pool: int) -> list[Pair]:
        """What each of its windows on discs (0) or on its flange (1) meets as it is and what it
        can be brought to meet, in steps."""
        low, high = self.resize_mm
        pairs = []
        for one, whole in zip(self.now[pool], self.round[pool], strict=True):
            now = steps_of(one)
            wide = steps_of(
                Window(moved(whole, low).least_mm, whole.wanted_mm, moved(whole, high).greatest_mm)
            )
            pairs.append((now, (min(now[0], wide[0]), max(now[1], wide[1]))))
        return pairs


@dataclass(frozen=True)
class Pool:
    """Discs or flanges: the kind of ring of each window, what it meets as it is and what it can
    be brought to meet, in steps; (n), (n, 2) and (n, 2). `unlike` are the spans of `now` each once
    and `which` of them each is."""

    kind: NDArray[np.int64]
    now: NDArray[np.int64]
    wide: NDArray[np.int64]
    unlike: NDArray[np.int64]
    which: NDArray[np.int64]

    def missed(self, points: Sequence[int]) -> NDArray[np.bool_]:
        """Windows as they are in which none of these points, rising, lies."""
        import numpy as np

        at = np.searchsorted(np.array(points, dtype=np.int64), self.unlike[:, 0])
        beyond = np.iinfo(np.int64).max
        first = np.array([*points, beyond], dtype=np.int64)[at]
        missed: NDArray[np.bool_] = (first > self.unlike[:, 1])[self.which]
        return missed


@dataclass(frozen=True)
class Kinds:
    """Rings that are alike counted once: one of each kind, and where in the list its rings are."""

    of_each: tuple[Ring, ...]
    places: tuple[tuple[int, ...], ...]
    pools: tuple[Pool, Pool]
    counts: NDArray[np.int64]

    @classmethod
    def of(cls, rings: Sequence[Ring]) -> Kinds:
        """In the order in which they are first met."""
        import numpy as np

        places: dict[Ring, list[int]] = defaultdict(list)
        for i, ring in enumerate(rings):
            places[ring].append(i)
        pools = [_pool(tuple(places), pool) for pool in (0, 1)]
        counts = np.array([len(one) for one in places.values()], dtype=np.int64)
        return cls(tuple(places), tuple(map(tuple, places.values())), (pools[0], pools[1]), counts)

    def rings(self, kinds: NDArray[np.bool_]) -> int:
        """How many rings these kinds are."""
        return int(self.counts[kinds].sum())

    def missed(self, sizes: Sizes) -> NDArray[np.bool_]:
        """Whether each kind as it is lacks a size."""
        return self.missed_by(0, sizes[0]) | self.missed_by(1, sizes[1])

    def missed_by(self, pool: int, points: Sequence[int]) -> NDArray[np.bool_]:
        """Whether each kind as it is lacks a size of one pool."""
        import numpy as np

        one, missed = self.pools[pool], np.zeros(len(self.counts), dtype=bool)
        missed[one.kind[one.missed(points)]] = True
        return missed

    def cheapest(self, pool: int, trued: NDArray[np.bool_], most: int) -> list[tuple[int, ...]]:
        """`cheapest_points` of one pool, once rings of these kinds are trued."""
        import numpy as np

        one = self.pools[pool]
        now = np.where(trued[one.kind][:, None], one.wide, one.now)
        pairs, inverse = np.unique(np.hstack([now, one.wide]), axis=0, return_inverse=True)
        counts = np.zeros(len(pairs))
        np.add.at(counts, inverse.ravel(), self.counts[one.kind])
        return cheapest_points(pairs, most, counts)


def some_sizes(kinds: Kinds, now: tuple[int, int], most_trued: int) -> Iterator[Sizes]:
    """Sizes worth trying: for each number of one pool the cheapest points, and then of the other
    with the rings at hand that are trued already; none that one pool misses more rings by."""
    none = kinds.counts < 0
    for first in (0, 1):
        second = 1 - first
        for points in kinds.cheapest(first, none, now[first]):
            trued = kinds.missed_by(first, points)
            if kinds.rings(trued) > most_trued:
                continue
            for others in kinds.cheapest(second, trued, now[second]):
                yield (points, others) if first == 0 else (others, points)


def near_sizes(ring: Ring, sizes: Sizes) -> Sizes:
    """Those of the sizes that the ring might be brought to."""
    low, high = ring.resize_mm
    near: list[Sequence[int]] = []
    for windows, points in zip(ring.round, sizes, strict=True):
        if not windows:
            near.append(points[:0])
            continue
        least = min(steps_of(moved(window, low))[0] for window in windows)
        most = max(steps_of(moved(window, high))[1] for window in windows)
        near.append(points[bisect_left(points, least - 1) : bisect_right(points, most + 1)])
    return near[0], near[1]


def _pool(rings: Sequence[Ring], pool: int) -> Pool:
    import numpy as np

    pairs = [(i, pair) for i, ring in enumerate(rings) for pair in ring.spans(pool)]
    kind = np.array([i for i, _ in pairs], dtype=np.int64)
    spans = np.array([pair for _, pair in pairs], dtype=np.int64).reshape(-1, 2, 2)
    unlike, which = np.unique(spans[:, 0], axis=0, return_inverse=True)
    return Pool(kind, spans[:, 0], spans[:, 1], unlike, which.ravel())
