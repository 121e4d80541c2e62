"""What a disc leaves over of a region, as its edge runs: along the rim of what the disc reaches,
its mouths, and along the edge of the region, its walls. mm."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, TypeVar

import numpy as np

from platewheel.nesting.drawings.chords import Chords
from platewheel.parts.base.interruptible import interruptible
from platewheel.parts.geometry.outline import Point

T = TypeVar("T")
RIM_MM = 1e-6  # from the rim of what the disc reaches to what is left over at it
FEW = 50  # walls compared each with each
LONG = 500  # corners: work on more is long
NEAR_MM = 0.0005  # how near a place is shrunk to what vanishes
FIRST_STEP_MM, LEAST_STEP_MM = 0.1, 0.001
SHRUNK = 16  # facets of a quarter turn
TURNS = np.arange(8) * (math.pi / 4)


def mouths_and_walls(rests: list[Any], rim: Chords, least_mm: float) -> list[tuple[Any, Any]]:
    """Of each polygon its mouths and its walls, as lines; shorter mouths are part of the walls."""
    import shapely

    loops, owner = shapely.get_rings(rests, return_index=True)
    corners, of = shapely.get_coordinates(loops, return_index=True)
    on_rim = _on_rim(corners, of, rim)
    first = np.searchsorted(of, np.arange(len(loops) + 1))
    found: list[tuple[list[Any], list[Any]]] = [([], []) for _ in rests]
    for i, k in enumerate(owner):
        ring, on = corners[first[i] : first[i + 1]], on_rim[first[i] : first[i + 1] - 1]
        lengths = np.hypot(*np.diff(ring, axis=0).T)
        for run, open_here in _runs(on):
            if open_here and lengths[run].sum() <= least_mm:
                on[run] = False
        for run, open_here in _runs(on):
            line = ring[[*run, (run[-1] + 1) % len(on)]]
            found[k][0 if open_here else 1].append(line)
    return [(_lines(mouths), _lines(walls)) for mouths, walls in found]


def neck(walls: Any) -> tuple[Point, float] | None:
    """The narrowest place between two walls."""
    import shapely
    import shapely.ops

    if len(walls) < 2:
        return None
    if len(walls) <= FEW:
        pairs = [(i, k) for i in range(len(walls)) for k in range(i)]
        gaps = shapely.distance(*(walls[list(side)] for side in zip(*pairs, strict=True)))
        one, other = pairs[int(np.argmin(gaps))]
    else:
        near, gaps = shapely.STRtree(walls).query_nearest(
            walls, exclusive=True, return_distance=True, all_matches=False
        )
        one, other = near[:, int(np.argmin(gaps))]
    p, q = shapely.ops.nearest_points(walls[one], walls[other])
    return ((p.x + q.x) / 2, (p.y + q.y) / 2), p.distance(q)


def widest(rest: Any) -> tuple[Point, float]:
    """Where it is widest, and how wide: what is left of it last, shrunk more and more.

    A slit takes as long as any other place of as many corners, whatever its length: a search by
    cells looks at thousands along it.
    """
    return heard(rest, lambda: _shrunk(rest))


def _shrunk(rest: Any) -> tuple[Point, float]:
    x0, y0, x1, y1 = rest.bounds
    most = min(x1 - x0, y1 - y0, 2 * math.sqrt(rest.area / math.pi)) / 2
    least, last = 0.0, rest
    while most - least > NEAR_MM:
        middle = (least + most) / 2
        left = rest.buffer(-middle, quad_segs=SHRUNK)
        if left.is_empty:
            most = middle
        else:
            least, last = middle, left
    spot = last.representative_point()
    place, gap = _uphill(rest.boundary, np.array(spot.coords[0]), rest.boundary.distance(spot))
    return (float(place[0]), float(place[1])), 2 * gap


def _uphill(edge: Any, place: Any, gap: float) -> tuple[Any, float]:
    """From a place on, away from the edge as far as steps lead, shorter ones where none does."""
    import shapely

    shapely.prepare(edge)
    step = min(FIRST_STEP_MM, gap / 2)  # none leads over the edge
    ways = np.column_stack((np.cos(TURNS), np.sin(TURNS)))
    while step > LEAST_STEP_MM:
        spots = place + step * ways
        gaps = shapely.distance(edge, shapely.points(spots))
        best = int(np.argmax(gaps))
        if gaps[best] > gap + step / 100:
            place, gap = spots[best], float(gaps[best])
        else:
            step /= 2
    return place, gap


def heard(shape: Any, work: Callable[[], T]) -> T:
    """What the work on a shape gives; where it is long, a stop is heard meanwhile."""
    import shapely

    return interruptible(work) if shapely.get_num_coordinates(shape) > LONG else work()


def _on_rim(corners: Any, of: Any, rim: Chords) -> Any:
    """Whether the chord that starts at a corner of a ring runs on the rim; (corners,)."""
    number = rim.corner_numbers(corners)
    one, then = number[:-1], number[1:]
    both = (one >= 0) & (then >= 0)
    on = np.append(both & ((rim.after[one] == then) | (rim.after[then] == one)), False)
    asked = np.flatnonzero(~on[:-1] & (of[:-1] == of[1:]))
    places = np.concatenate(
        [corners[asked], corners[asked + 1], (corners[asked] + corners[asked + 1]) / 2]
    )
    on[asked] = (rim.gaps(places, RIM_MM) <= RIM_MM).reshape(3, -1).all(axis=0)
    return on


def _runs(on: Any) -> list[tuple[list[int], bool]]:
    """Numbers of chords of a ring that follow each other and are all on or all off."""
    count = len(on)
    turns = np.flatnonzero(on != np.roll(on, 1))
    if not len(turns):
        return [(list(range(count)), bool(on[0]))]
    ends = np.append(turns[1:], turns[0] + count)
    return [
        ([k % count for k in range(first, last)], bool(on[first]))
        for first, last in zip(turns.tolist(), ends.tolist(), strict=True)
    ]


def _lines(runs: list[Any]) -> Any:
    import shapely

    return np.array([shapely.linestrings(run) for run in runs], dtype=object)
