"""Ends of lines that meet, found by a tree of places: near to linear in the number of lines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from platewheel.parts.geometry.outline import Point

NEIGHBOURS = 8  # looked at about each end; where more ends meet, the corner is a branch anyway


@dataclass(frozen=True)
class Met:
    """Which ends meet. Ends 2 k and 2 k + 1 are those of line k."""

    partner: dict[int, int]  # of each end that meets one other
    branches: list[tuple[Point, int]]  # places where more meet, and how many
    loose: list[Point]  # ends that meet none


def joined_ends(
    ends: Sequence[Point], may_close: Sequence[bool], same_mm: float, join_mm: float
) -> Met:
    """Ends within `same_mm` are one corner; of those left alone, pairs within `join_mm` are, too.

    Two steps, so that a line shorter than `join_mm` between two others is no branch. `may_close`
    by line: its own two ends may meet.
    """
    partner: dict[int, int] = {}
    branches: list[tuple[Point, int]] = []
    left = list(range(len(ends)))
    for reach in (same_mm, join_mm):
        alone: list[int] = []
        for group in _groups([ends[i] for i in left], reach):
            here = [left[k] for k in group]
            own = len(here) == 2 and here[0] // 2 == here[1] // 2
            if len(here) == 1 or (own and not may_close[here[0] // 2]):
                alone += here
            elif len(here) == 2:
                partner |= {here[0]: here[1], here[1]: here[0]}
            else:
                branches.append((min(ends[i] for i in here), len(here)))
        left = alone
    return Met(partner, sorted(branches), sorted(ends[i] for i in left))


def _groups(points: Sequence[Point], reach_mm: float) -> list[list[int]]:
    """Numbers of the points, those within reach of each other together."""
    import numpy as np
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import KDTree

    if not points:
        return []
    places, home = np.unique(np.array(points), axis=0, return_inverse=True)  # a tree minds twins
    home = home.ravel()
    count = len(places)
    _, near = KDTree(places).query(
        places, min(NEIGHBOURS, count), distance_upper_bound=np.nextafter(reach_mm, math.inf)
    )
    near = near.reshape(count, -1)
    rows, columns = np.nonzero(near < count)
    links = coo_matrix((np.ones(len(rows)), (rows, near[rows, columns])), shape=(count, count))
    _, label = connected_components(links, directed=False)
    groups: dict[int, list[int]] = {}
    for i, place in enumerate(home.tolist()):
        groups.setdefault(int(label[place]), []).append(i)
    return list(groups.values())


def walks(partner: dict[int, int]) -> Iterator[list[tuple[int, bool]]]:
    """Closed walks from line to line where every end has a partner: (line, walked backwards)."""
    done: set[int] = set()
    for first in sorted({end // 2 for end in partner}):
        if first in done:
            continue
        walk: list[tuple[int, bool]] = []
        end = 2 * first
        while end // 2 not in done:
            done.add(end // 2)
            walk.append((end // 2, end % 2 == 1))
            end = partner[end ^ 1]
        yield walk


def gaps(loose: Sequence[Point], most: int) -> list[tuple[Point, Point]]:
    """Loose ends in pairs, the nearest first, at most so many."""
    import numpy as np
    from scipy.spatial import KDTree

    left = sorted(set(loose))
    pairs: list[tuple[Point, Point]] = []
    while len(left) > 1 and len(pairs) < most:
        far, near = KDTree(np.array(left)).query(np.array(left), min(NEIGHBOURS, len(left)))
        edges = sorted(
            (float(gap), *sorted((left[i], left[k])))
            for i, (row, ways) in enumerate(zip(near.tolist(), far.tolist(), strict=True))
            for k, gap in zip(row, ways, strict=True)
            if i != k
        )
        free = set(left)
        for _, a, b in edges:
            if a in free and b in free and len(pairs) < most:
                pairs.append((a, b))
                free -= {a, b}
        left = sorted(free)
    return pairs
