"""Segments end to end beside their numbers as arrays: cut out and joined on again and again. mm.

For outlines of very many segments, of which each is looked at once and not at every cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING

import numpy as np

from platewheel.nesting.geometry.gaps import point_gap
from platewheel.nesting.geometry.near import boxes_of, ends_of, gaps_to
from platewheel.nesting.geometry.trim import between, share_of
from platewheel.parts.geometry.outline import Line, Point, Segment, signed_area_mm2

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True)
class Span:
    """Segments that follow each other; of each its start and end, its box, whether it is straight,
    and what it adds to the area about the origin."""

    segments: tuple[Segment, ...]
    ends: NDArray[np.float64]  # (segments, 4)
    boxes: NDArray[np.float64]  # (segments, 4)
    straight: NDArray[np.bool_]
    areas_mm2: NDArray[np.float64]

    def __getitem__(self, part: slice) -> Span:
        return Span(
            self.segments[part],
            self.ends[part],
            self.boxes[part],
            self.straight[part],
            self.areas_mm2[part],
        )

    def closed_area_mm2(self) -> float:
        """Area between it and a straight line from its end to its start."""
        (x0, y0), (x1, y1) = self.segments[-1].end, self.segments[0].start
        return abs(float(self.areas_mm2.sum()) + (x0 * y1 - x1 * y0) / 2)

    def closed(self) -> Span:
        """With that line."""
        return joined_spans([self, span_of([Line(self.segments[-1].end, self.segments[0].start)])])

    def at(self, place: Point, within_mm: float) -> tuple[int, float] | None:
        """The segment that is nearest to a place, and the share of its length there; None where
        none is as near as that."""
        x, y = place
        x0, y0, x1, y1 = self.boxes.T
        off = np.maximum(np.maximum(x0 - x, x - x1), np.maximum(y0 - y, y - y1))
        near = np.flatnonzero(off <= within_mm)
        if not len(near):
            return None
        gaps = gaps_to(place, self.ends[near])
        for i in np.flatnonzero(~self.straight[near]):
            gaps[i] = point_gap(place, self.segments[near[i]])
        least = int(np.argmin(gaps))
        if gaps[least] > within_mm:
            return None
        nearest = int(near[least])
        return nearest, min(1.0, max(0.0, share_of(self.segments[nearest], place)))

    def between(self, first: tuple[int, float], last: tuple[int, float], least_mm: float) -> Span:
        """From one place on a ring to another, the way it runs; each a segment's number and a
        share of its length. Ends shorter than the least are left out."""
        (i, s), (k, t) = first, last
        if i == k and s < t:
            return span_of(_longer([between(self.segments[i], s, t)], least_mm))
        begins = [between(self.segments[i], s, 1.0)] if s < 1 else []
        ends = [between(self.segments[k], 0.0, t)] if t > 0 else []
        middle = [self[i + 1 : k]] if i < k else [self[i + 1 :], self[:k]]
        before, after = (span_of(_longer(pieces, least_mm)) for pieces in (begins, ends))
        return joined_spans([before, *middle, after])


def _longer(pieces: Sequence[Segment], least_mm: float) -> list[Segment]:
    return [piece for piece in pieces if piece.length_mm > least_mm]


def span_of(pieces: Sequence[Segment]) -> Span:
    """Segments end to end as a span."""
    return Span(
        tuple(pieces),
        ends_of(pieces),
        boxes_of(pieces).reshape(-1, 4),
        np.array([isinstance(one, Line) for one in pieces], dtype=bool),
        np.array([signed_area_mm2((one,)) for one in pieces], dtype=float),
    )


def joined_spans(spans: Sequence[Span]) -> Span:
    """One behind the other."""
    return Span(
        tuple(chain.from_iterable(span.segments for span in spans)),
        np.concatenate([span.ends for span in spans]),
        np.concatenate([span.boxes for span in spans]),
        np.concatenate([span.straight for span in spans]),
        np.concatenate([span.areas_mm2 for span in spans]),
    )
