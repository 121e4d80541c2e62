"""Which stretches of a closed path lie in steel: there the torch runs, and over narrow gaps."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from platewheel.parts.geometry.outline import Point

HAIR_MM = 1e-6


@dataclass(frozen=True)
class _Stretch:
    """Points of a run, the sides of the path that it begins and ends on, and where these lie
    along the path."""

    points: tuple[Point, ...]
    first: int
    last: int
    low_mm: float
    high_mm: float


def in_steel(
    corners: Sequence[Point], free: Any, plate: Any, kerf_mm: float
) -> Iterator[tuple[Point, ...]]:
    """Stretches of a closed path, its first corner repeated, that lie in steel; as it runs.

    `free` is what is left of the `plate`. Past a gap in the plate narrower than the kerf, as
    between the teeth of a rough edge, the torch runs on: it would not leave the one tooth before
    it is in the next.
    """
    found: list[_Stretch] = []
    for here in _stretches(corners, free):
        if found and _goes_on(found[-1], here, corners, plate, kerf_mm):
            found.append(_joined(found.pop(), here, corners))
        else:
            found.append(here)
    if len(found) > 1:
        around, total = [*corners[:-1], *corners], math.fsum(map(math.dist, corners, corners[1:]))
        one, count = found[0], len(corners) - 1
        low, high = one.low_mm + total, one.high_mm + total
        again = _Stretch(one.points, one.first + count, one.last + count, low, high)
        if _goes_on(found[-1], again, around, plate, kerf_mm):
            found[0] = _joined(found.pop(), again, around)
    yield from (one.points for one in found)


def _stretches(corners: Sequence[Point], free: Any) -> Iterator[_Stretch]:
    """What of each side lies in steel, one side after the other."""
    import shapely

    begun = 0.0
    for side, (a, b) in enumerate(pairwise(corners)):
        cut = shapely.LineString([a, b]).intersection(free)
        lines = [one for one in shapely.get_parts(cut) if _in_the_midst(one, free)]
        ends = [[(float(x), float(y)) for x, y in line.coords] for line in lines]
        sides = [tuple(sorted(end, key=lambda p: math.dist(p, a))) for end in ends]
        for points in sorted(sides, key=lambda side: math.dist(side[0], a)):
            low, high = (begun + math.dist(a, at) for at in (points[0], points[-1]))
            yield _Stretch((points[0], points[-1]), side, side, low, high)
        begun += math.dist(a, b)


def _in_the_midst(line: Any, free: Any) -> bool:
    """Neither a point nor along the plate's own edge."""
    if line.length <= HAIR_MM:
        return False
    return bool(free.boundary.distance(line.interpolate(0.5, normalized=True)) > HAIR_MM)


def _goes_on(
    before: _Stretch, after: _Stretch, corners: Sequence[Point], plate: Any, kerf_mm: float
) -> bool:
    """Whether a stretch follows at once, or over a gap in the plate; not along the plate's own
    edge, nor over a cut made before."""
    import shapely

    if math.dist(before.points[-1], after.points[0]) < HAIR_MM:
        return True
    if after.low_mm - before.high_mm >= kerf_mm:
        return False
    gap = [before.points[-1], *corners[before.last + 1 : after.first + 1], after.points[0]]
    return bool(shapely.LineString(gap).intersection(plate).length < HAIR_MM)


def _joined(before: _Stretch, after: _Stretch, corners: Sequence[Point]) -> _Stretch:
    """Both as one, by the corners between them."""
    between = corners[before.last + 1 : after.first + 1]
    points = (*before.points[:-1], *between, *after.points[1:])
    return _Stretch(points, before.first, after.last, before.low_mm, after.high_mm)
