"""The least that is done to the rings of a choice: none needlessly, each no more than it must."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from platewheel.parts.refit.fewest_missed import Span
from platewheel.parts.refit.ring_windows import moved
from platewheel.parts.refit.shared_blanks import steps_of
from platewheel.parts.refit.size_count import Spans
from platewheel.parts.refit.tried_sizes import Ring

EASED_MM = 0.02  # finer than any ring is trued
POOLS = (0, 1)  # discs, flanges


def least_trued(
    rings: Sequence[Ring], choices: Mapping[int, Mapping[int, float]]
) -> Iterator[tuple[int, dict[int, float]]]:
    """For each number of sizes, fewest first, its rings without those that need not be trued."""
    as_they_are = _AllSpans(rings)
    for count in sorted(choices):
        with_trued = as_they_are.trued(choices[count])
        yield count, _without_needless(with_trued, choices[count], count)


def eased(rings: Sequence[Ring], shifts: Mapping[int, float], count: int) -> dict[int, float]:
    """The same rings, each resized as little as still does, to EASED_MM; by halving."""
    spans = _AllSpans(rings).trued(shifts)
    left = dict(shifts)
    for i in sorted(shifts, key=lambda i: -abs(shifts[i])):
        enough, little = left[i], 0.0
        if not enough:
            continue
        spans.take(i, enough)
        if spans.do(i, 0.0, count):
            enough = 0.0
        while abs(enough - little) > EASED_MM:
            half = (enough + little) / 2
            if spans.do(i, half, count):
                enough = half
            else:
                little = half
        spans.put(i, enough)
        left[i] = enough
    return left


def _without_needless(
    spans: _AllSpans, shifts: Mapping[int, float], count: int
) -> dict[int, float]:
    left = dict(shifts)
    for i in sorted(shifts, key=lambda i: -abs(shifts[i])):
        spans.take(i, shifts[i])
        needless = spans.do(i, None, count)
        spans.put(i, None if needless else shifts[i])
        if needless:
            del left[i]
    return left


class _AllSpans:
    """What all rings take of discs and of flanges, some of them trued; a ring is known by its
    place, and None stands for one as it is."""

    def __init__(self, rings: Sequence[Ring], pools: Sequence[Spans] | None = None) -> None:
        self._rings = rings
        self._pools = pools or [
            Spans(steps_of(window) for ring in rings for window in ring.now[pool]) for pool in POOLS
        ]

    def trued(self, shifts: Mapping[int, float]) -> _AllSpans:
        """The same with those rings trued."""
        spans = _AllSpans(self._rings, [pool.copy() for pool in self._pools])
        for pool in POOLS:
            spans._pools[pool].change(
                [span for i in shifts for span in self._of(i, None, pool)],
                [span for i, shift in shifts.items() for span in self._of(i, shift, pool)],
            )
        return spans

    def take(self, ring: int, shift: float | None) -> None:
        """Without that ring."""
        for pool in POOLS:
            self._pools[pool].change(self._of(ring, shift, pool), ())

    def put(self, ring: int, shift: float | None) -> None:
        """With it again."""
        for pool in POOLS:
            self._pools[pool].change((), self._of(ring, shift, pool))

    def do(self, ring: int, shift: float | None, most: int) -> bool:
        """Whether so many sizes do for that ring too."""
        count = 0.0
        for pool in POOLS:
            count += self._pools[pool].points(self._of(ring, shift, pool), most - count)
        return count <= most

    def _of(self, ring: int, shift: float | None, pool: int) -> list[Span]:
        one = self._rings[ring]
        if shift is None:
            return [steps_of(window) for window in one.now[pool]]
        return [steps_of(moved(window, shift)) for window in one.round[pool]]
