"""How many sizes do for all rings, asked again and again while one ring or another changes."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence

from platewheel.parts.refit.fewest_missed import Span


class Spans:
    """Spans (first and last size that fits, in steps), each as often as rings have it, and the
    fewest points that meet all of them.

    Of spans that lie in one another the inner one alone counts: what is left rises at both ends
    and is kept in order, so that a change costs no more than the spans that are not alike.
    """

    def __init__(self, spans: Iterable[Span] = ()) -> None:
        self._counts = Counter(spans)
        self._narrow()

    def copy(self) -> Spans:
        """The same, to be changed for itself."""
        other = Spans()
        other._counts = self._counts.copy()
        other._lows, other._highs = self._lows, self._highs
        return other

    def change(self, less: Sequence[Span], more: Sequence[Span]) -> None:
        """Takes some away, each once, and adds others."""
        for span in less:
            self._counts[span] -= 1
            if not self._counts[span]:
                del self._counts[span]
        for span in more:
            self._counts[span] += 1
        gone = any(span not in self._counts and self._holds(span) for span in less)
        if gone or not all(map(self._within, more)):
            self._narrow()

    def points(self, more: Sequence[Span] = (), most: float = math.inf) -> float:
        """Fewest points that meet all spans and `more` too; beyond `most` it is not counted on.

        The greedy rule for covering intervals by points: the least upper end left over is next.
        """
        count, point = 0, -math.inf
        while count <= most:
            at = bisect_right(self._lows, point)
            after: float = self._highs[at] if at < len(self._highs) else math.inf
            after = min([after, *(high for low, high in more if low > point)])
            if after == math.inf:
                break
            count, point = count + 1, after
        return count

    def _narrow(self) -> None:
        self._lows: list[int] = []
        self._highs: list[int] = []
        least = math.inf
        for low, high in sorted(self._counts, key=lambda span: (-span[0], span[1])):
            if high < least:
                least = high
                self._lows.append(low)
                self._highs.append(high)
        self._lows.reverse()
        self._highs.reverse()

    def _within(self, span: Span) -> bool:
        """Whether a span that is there lies in it already."""
        at = bisect_left(self._lows, span[0])
        return at < len(self._lows) and self._highs[at] <= span[1]

    def _holds(self, span: Span) -> bool:
        at = bisect_left(self._lows, span[0])
        return at < len(self._lows) and (self._lows[at], self._highs[at]) == span
