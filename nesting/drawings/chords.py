"""Lines as their chords in a tree: of thousands, only those about a place are looked at. mm."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from platewheel.parts.geometry.outline import Point

AT_ONCE = 2000  # places asked for in one call: a signal is heard between two


class Chords:
    """The closed rings of a boundary; `ends` are those of each chord, `after` the next's number."""

    def __init__(self, line: Any) -> None:
        import shapely

        self.line = line
        rings = [shapely.get_coordinates(part) for part in shapely.get_parts(line)]
        ends = [np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings]
        self.ends = np.concatenate(ends) if ends else np.empty((0, 2, 2))
        self.after = np.arange(1, len(self.ends) + 1)
        last = np.cumsum([len(one) for one in ends], dtype=int)
        if len(last):
            self.after[last - 1] = np.concatenate([[0], last[:-1]])
        self.tree = shapely.STRtree(shapely.linestrings(self.ends) if ends else [])
        starts = _as_numbers(self.ends[:, 0])
        self._order = np.argsort(starts, kind="stable")
        self._starts = starts[self._order]

    def gaps(self, places: Any, most_mm: float) -> Any:
        """Distance of each place (rows of x, y) from the line; infinite beyond the greatest."""
        import shapely

        found = np.full(len(places), np.inf)
        for i in range(0, len(places), AT_ONCE):
            points = shapely.points(places[i : i + AT_ONCE])
            (asked, _), gaps = self.tree.query_nearest(
                points, max_distance=most_mm, return_distance=True, all_matches=False
            )
            found[i + asked] = gaps
        return found

    def corner_numbers(self, places: Any) -> Any:
        """Numbers of the chords that start right at the places, -1 where none does."""
        asked = _as_numbers(places)
        at = np.searchsorted(self._starts, asked)
        at[at == len(self._starts)] = 0
        if not len(self._starts):
            return np.full(len(places), -1)
        return np.where(self._starts[at] == asked, self._order[at], -1)

    def nearest(self, places: Any) -> Any:
        """Where the line is nearest to each of the places: rows of x, y."""
        import shapely

        found = []
        for i in range(0, len(places), AT_ONCE):
            here = places[i : i + AT_ONCE]
            _, chord = self.tree.query_nearest(shapely.points(here), all_matches=False)
            start, way = self.ends[chord, 0], self.ends[chord, 1] - self.ends[chord, 0]
            square = (way**2).sum(axis=1)
            share = ((here - start) * way).sum(axis=1) / np.where(square > 0, square, 1.0)
            found.append(start + np.clip(share, 0.0, 1.0)[:, None] * way)
        return np.concatenate(found) if found else np.empty((0, 2))

    def runs_in(self, centres: Any, reach_mm: float) -> list[list[tuple[Point, float]]]:
        """Of discs about the centres, each unbroken run of chords in it: the place where it is
        nearest to the centre, and its length."""
        found: list[list[tuple[Point, float]]] = []
        for i in range(0, len(centres), AT_ONCE):
            here = centres[i : i + AT_ONCE]
            runs: list[list[tuple[Point, float]]] = [[] for _ in here]
            for k, place, length in self._runs(here, reach_mm):
                runs[k].append((place, length))
            found += runs
        return found

    def _runs(self, centres: Any, reach_mm: float) -> Iterator[tuple[int, Point, float]]:
        import shapely
        from scipy.sparse import coo_array
        from scipy.sparse.csgraph import connected_components

        near = self.tree.query(shapely.points(centres), predicate="dwithin", distance=reach_mm)
        disc, chord = near[:, np.lexsort((near[1], near[0]))]
        start, way = self.ends[chord, 0] - centres[disc], self.ends[chord, 1] - self.ends[chord, 0]
        a = (way**2).sum(axis=1)
        a[a == 0] = 1e-300
        b = (start * way).sum(axis=1)
        root = np.sqrt(np.maximum(b**2 - a * ((start**2).sum(axis=1) - reach_mm**2), 0.0))
        enters, leaves = np.clip((-b - root) / a, 0, 1), np.clip((-b + root) / a, 0, 1)
        kept = leaves > enters
        disc, chord, start, way, a, b = (one[kept] for one in (disc, chord, start, way, a, b))
        enters, leaves = enters[kept], leaves[kept]
        count = len(chord)
        if not count:
            return
        key = disc * len(self.ends) + chord
        wanted = disc * len(self.ends) + self.after[chord]
        then = np.minimum(np.searchsorted(key, wanted), count - 1)
        on = (key[then] == wanted) & (leaves == 1) & (enters[then] == 0)
        links = coo_array((np.ones(on.sum()), (np.flatnonzero(on), then[on])), (count, count))
        runs, of = connected_components(links, directed=False)
        places = start + np.clip(-b / a, enters, leaves)[:, None] * way
        gaps = np.hypot(*places.T)
        lengths = np.bincount(of, (leaves - enters) * np.sqrt(a), runs)
        best = np.lexsort((gaps, of))
        best = best[np.unique(of[best], return_index=True)[1]]
        for k in best[np.argsort(best)]:
            x, y = places[k] + centres[disc[k]]
            yield int(disc[k]), (float(x), float(y)), float(lengths[of[k]])


def _as_numbers(places: Any) -> Any:
    """Each place as one number, so that they can be sorted."""
    return places[:, 0] + 1j * places[:, 1]
