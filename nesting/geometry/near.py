"""Which segments of two outlines come near each other: all boxes compared at once. mm.

For outlines of very many segments, where each with each would take minutes. Boxes only leave out
what is too far; each pair that is left is measured as exactly as ever.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.geometry.outline import Arc, Line, Point, Segment, bounds

if TYPE_CHECKING:
    from numpy.typing import NDArray

AT_ONCE = 1_000_000  # pairs of boxes in one array
HAIR = 1e-9  # of numbers so large: boxes are as wide as their rounding


class _Same:
    """An outline known by being the same object: to compare all its corners takes too long."""

    def __init__(self, ring: Sequence[Segment]) -> None:
        self.ring = ring

    def __hash__(self) -> int:
        return id(self.ring)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.ring is other.ring


def known_boxes(ring: tuple[Segment, ...]) -> NDArray[np.float64]:
    """`boxes_of` an outline that will be asked for again."""
    found: NDArray[np.float64] = _known(_Same(ring))
    return found


def known_ends(ring: tuple[Segment, ...]) -> NDArray[np.float64]:
    """`ends_of` an outline that will be asked for again."""
    found: NDArray[np.float64] = _known_ends(_Same(ring))
    return found


def known_arcs(ring: tuple[Segment, ...]) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Numbers of the arcs among the segments, and their centre x, y, radius, sweep: rows of 4."""
    found: tuple[NDArray[np.int64], NDArray[np.float64]] = _known_arcs(_Same(ring))
    return found


@lru_cache(maxsize=64)
def _known_ends(same: _Same) -> NDArray[np.float64]:
    return ends_of(same.ring)


@lru_cache(maxsize=64)
def _known_arcs(same: _Same) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    arcs = [(i, one) for i, one in enumerate(same.ring) if isinstance(one, Arc)]
    rows = [(*arc.centre, arc.radius_mm, arc.sweep_deg) for _, arc in arcs]
    return np.array([i for i, _ in arcs], dtype=np.int64), np.array(rows).reshape(-1, 4)


@lru_cache(maxsize=64)  # parts beside each other on a plate
def _known(same: _Same) -> NDArray[np.float64]:
    return boxes_of(same.ring)


def boxes_of(ring: Sequence[Segment]) -> NDArray[np.float64]:
    """Least x, y, greatest x, y of each segment: (segments, 4)."""
    if all(isinstance(one, Line) for one in ring):
        ends = ends_of(ring).reshape(-1, 2, 2)
        return np.concatenate([ends.min(axis=1), ends.max(axis=1)], axis=1)
    return np.array([bounds((one,)) for one in ring])


def near_pairs(
    a: NDArray[np.float64], b: NDArray[np.float64], within_mm: float
) -> Iterator[tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """Numbers of boxes of `a` and of `b` that lie within a distance, or a hair further; by rising
    number in `a`, in several arrays."""
    if not len(a) or not len(b):
        return
    within = within_mm + HAIR * (within_mm + float(max(np.abs(a).max(), np.abs(b).max())))
    of_a, of_b = _about(a, b, within), _about(b, a, within)
    a, b = a[of_a], b[of_b]
    if not len(a) or not len(b):
        return
    order = np.argsort(b[:, 0], kind="stable")
    left = b[order, 0]
    widest = float((b[:, 2] - b[:, 0]).max())
    first = np.searchsorted(left, a[:, 0] - within - widest, "left")
    counts = np.searchsorted(left, a[:, 2] + within, "right") - first
    ends = np.cumsum(counts)
    begin = 0
    while begin < len(a):
        done = ends[begin - 1] if begin else 0
        stop = max(begin + 1, int(np.searchsorted(ends, done + AT_ONCE, "right")))
        here = counts[begin:stop]
        i = np.repeat(np.arange(begin, stop), here)
        k = np.arange(len(i)) - np.repeat(np.cumsum(here) - here, here)
        k = order[k + np.repeat(first[begin:stop], here)]
        one, other = a[i], b[k]
        gap = np.maximum(one[:, :2] - other[:, 2:], other[:, :2] - one[:, 2:]).clip(min=0.0)
        near = np.hypot(gap[:, 0], gap[:, 1]) <= within
        yield of_a[i[near]], of_b[k[near]]
        begin = stop


def _about(
    boxes: NDArray[np.float64], others: NDArray[np.float64], within: float
) -> NDArray[np.int64]:
    """Numbers of the boxes no further from the others' common box: of two large outlines side by
    side a few."""
    low, high = others[:, :2].min(axis=0) - within, others[:, 2:].max(axis=0) + within
    near = (boxes[:, :2] <= high) & (boxes[:, 2:] >= low)
    return np.flatnonzero(near.all(axis=1))


def line_gaps(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.float64]:
    """Least distance of each straight segment (start, end: rows of 4) from the other; 0 where they
    cross."""
    p, q, r, s = a[:, :2], a[:, 2:], b[:, :2], b[:, 2:]
    gaps = np.minimum(
        np.minimum(_to_line(p, r, s), _to_line(q, r, s)),
        np.minimum(_to_line(r, p, q), _to_line(s, p, q)),
    )
    cross = (_side(p, q, r) * _side(p, q, s) < 0) & (_side(r, s, p) * _side(r, s, q) < 0)
    return np.where(cross, 0.0, gaps)


def gaps_to(point: Point, lines: NDArray[np.float64]) -> NDArray[np.float64]:
    """Distance of a point from each straight segment (start, end: rows of 4)."""
    found: NDArray[np.float64] = _to_line(np.array(point), lines[:, :2], lines[:, 2:])
    return found


def _to_line(point: Any, start: Any, end: Any) -> Any:
    along = end - start
    square = (along**2).sum(axis=1)
    share = ((point - start) * along).sum(axis=1) / np.where(square > 0, square, 1.0)
    off = point - start - np.clip(share, 0.0, 1.0)[:, None] * along
    return np.hypot(off[:, 0], off[:, 1])


def _side(start: Any, end: Any, point: Any) -> Any:
    along, off = end - start, point - start
    return along[:, 0] * off[:, 1] - along[:, 1] * off[:, 0]


def ends_of(ring: Sequence[Segment]) -> NDArray[np.float64]:
    """Start and end of each segment: (segments, 4)."""
    return np.array([(*one.start, *one.end) for one in ring]).reshape(-1, 4)


def start_gap(a: Sequence[Segment], b: Sequence[Segment]) -> float:
    """Least distance between the starts of two outlines' segments: the outlines are no further
    apart."""
    from scipy.spatial import KDTree

    one, other = (np.array([segment.start for segment in ring]) for ring in (a, b))
    return float(KDTree(other).query(one)[0].min())
