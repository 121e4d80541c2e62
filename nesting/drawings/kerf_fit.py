"""What of a drawn part is finer than the kerf: holes, hollows and necks that the cut does not go
into, webs that do not stand between two cuts. mm.

An inner corner that the kerf leaves round is none of these.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from platewheel.nesting.drawings.closed_loops import MOST_TOLD, Wrong, more, said
from platewheel.nesting.drawings.narrow_places import (
    SLIP,
    Narrow,
    narrow_places,
    outside_of,
    region_of,
)
from platewheel.nesting.geometry.spans import Span, span_of
from platewheel.nesting.stock.cutting import LEAST_WEB_MM
from platewheel.parts.geometry.outline import (
    Circle,
    Loop,
    Point,
    segments,
)

ROUNDS = 4  # a place that is filled may show another
LEAST_MM = 1e-4  # shorter pieces of an edge are rounding
MOST_NOTED, FIRST = 60, 20  # places told one by one, and of more than these
SAME_MM = 0.005  # places nearer to each other are one: told by hundredths
OFF_MM = 0.02  # a place further off an edge is not on it


@dataclass(frozen=True)
class Fine:
    """One place that is too fine, in words; `lost` says what becomes of it where it is allowed."""

    what: str
    place: Point
    width_mm: float
    lost: str

    def told(self, origin: Point, unit_mm: float) -> str:
        """With its place in the drawing."""
        at = (round(self.place[0] + origin[0], 2), round(self.place[1] + origin[1], 2))
        return f"{self.what} {self.width_mm:.2f} mm wide at {said(at, unit_mm)}"


@dataclass(frozen=True)
class Fitted:
    """The loops as the kerf can follow them, and all that was too fine."""

    outline: Loop
    holes: tuple[Loop, ...]
    fine: tuple[Fine, ...]
    stuck: tuple[Fine, ...] = ()  # of these, what could not be left out


def fitted(outline: Loop, holes: Sequence[Loop], kerf_mm: float) -> Fitted:
    """A part whose loops are all cut, with what is finer than the kerf filled with steel.

    Webs stay as they are drawn: what is left of them is the cut's affair.
    """
    if not kerf_mm > 0:
        return Fitted(outline, tuple(holes), ())
    fine = [*_webs(outline, holes)]
    rim, told, left = _followed(outline, kerf_mm, hole=False)
    fine += told
    stuck = list(left)
    kept: list[Loop] = []
    for hole in holes:
        rest, told, left = _followed(hole, kerf_mm, hole=True)
        fine += told
        stuck += left
        kept += [rest] if rest is not None else []
    assert rim is not None  # what is about a part is never narrow on all sides
    return Fitted(rim, tuple(kept), tuple(fine), tuple(stuck))


def wrong_of(
    part: str, fine: Sequence[Fine], kerf_mm: float, origin: Point, unit_mm: float, *, stuck: bool
) -> Iterator[Wrong]:
    """What to refuse; `stuck`: it cannot be allowed."""
    for one in fine[:MOST_TOLD]:
        least = LEAST_WEB_MM if one.what == WEB else kerf_mm
        allowed = (
            f"no web thinner than {least:g} mm between two cuts"
            if one.what == WEB
            else f"nothing narrower than the kerf of {kerf_mm:g} mm"
        )
        least = math.floor(least * 10 + 1 + 1e-9) / 10
        yield (
            f"{allowed}; {part} has {one.told(origin, unit_mm)}{more(len(fine))}",
            f"draw it {least:g} mm wide or leave it out"
            + ("" if stuck else f", or finer_than_kerf = true: {one.lost}"),
        )


def notes_of(fine: Sequence[Fine], kerf_mm: float, origin: Point, unit_mm: float) -> Iterator[str]:
    """What is lost where it is allowed; of very many places the first, and how many more."""
    told, rest = (fine, ()) if len(fine) <= MOST_NOTED else (fine[:FIRST], fine[FIRST:])
    for one in told:
        than = f"the {LEAST_WEB_MM:g} mm that stand" if one.what == WEB else "the kerf"
        than += "" if one.what == WEB else f" of {kerf_mm:g} mm"
        yield f"{one.told(origin, unit_mm)}, narrower than {than}: {one.lost}"
    for what, lost in dict.fromkeys((one.what, one.lost) for one in rest):
        widths = [one.width_mm for one in rest if one.what == what]
        places = (
            "and 1 more place, " if len(widths) == 1 else f"and {len(widths)} more places, each "
        )
        yield f"{places}{what} {min(widths):.2f} to {max(widths):.2f} mm wide: {lost}"


HOLE, HOLLOW, NECK, WEB = "a hole", "a hollow", "a neck", "a web"
LOST = {
    "whole": (HOLE, "it is not cut"),
    "end": (HOLLOW, "it is not cut, its steel stays"),
    "between": (NECK, "it is not cut, nor what lies behind it"),
}


def _webs(outline: Loop, holes: Sequence[Loop]) -> Iterator[Fine]:
    import shapely

    half = LEAST_WEB_MM / 2
    inside = [region_of(hole) for hole in holes]
    about = [outside_of(hole, half) for hole in holes if not isinstance(hole, Circle)]
    found = [
        (one.place, one.width_mm, one.lost)
        for steel in (region_of(outline), *about)
        for one in narrow_places(steel, half)
        if one.kind != "end" or one.deep_mm >= one.width_mm  # or a tooth as short as it is thick
    ]
    edges = [region_of(outline).boundary, *(hole.boundary for hole in inside)]
    known = shapely.STRtree([lost for *_, lost in found])
    short: list[tuple[Point, float]] = []
    for place, width in _near_edges(edges):
        spot = shapely.Point(place)
        told = known.query(spot, predicate="dwithin", distance=LEAST_WEB_MM)
        if not len(told) and all(math.dist(place, at) > LEAST_WEB_MM for at, _ in short):
            short.append((place, width))
    told_all = [*((place, width) for place, width, _ in found), *short]
    for place, width in sorted(told_all, key=lambda one: one[0]):
        yield Fine(WEB, place, width, "it stays as drawn and may burn or break away")


def _near_edges(edges: Sequence[Any]) -> Iterator[tuple[Point, float]]:
    """Where two edges come nearer than a web may be thick: half way, and how near."""
    import shapely
    import shapely.ops

    least = LEAST_WEB_MM * (1 - SLIP)
    near = shapely.STRtree(edges).query(edges, predicate="dwithin", distance=least)
    for i, k in sorted((int(i), int(k)) for i, k in near.T if i < k):
        a, b = shapely.ops.nearest_points(edges[i], edges[k])
        yield ((a.x + b.x) / 2, (a.y + b.y) / 2), a.distance(b)


def _followed(
    loop: Loop, kerf_mm: float, *, hole: bool
) -> tuple[Loop | None, list[Fine], list[Fine]]:
    """The loop with its narrow places filled, None where nothing is left; those, and the rest."""
    told: list[Fine] = []
    if isinstance(loop, Circle):
        wide = 2 * loop.radius_mm
        fine = Fine(HOLE, loop.centre, wide, LOST["whole"][1])
        return (None, [fine], []) if hole and wide <= kerf_mm else (loop, [], [])
    for _ in range(ROUNDS):
        region = region_of(loop) if hole else outside_of(loop, kerf_mm / 2)
        found = narrow_places(region, kerf_mm / 2)
        if not found:
            return loop, told, []
        if found[0].kind == "whole" and hole:
            return None, [*told, _fine(found[0])], []
        here = [_fine(one) for one in found]
        told += _not_told(here, told)
        ring = filled = span_of([one for one in segments(loop) if one.length_mm > LEAST_MM])
        for one in found:
            if one.contacts is not None:
                filled = _without(filled, one, one.contacts) or filled
        if filled is ring:
            return loop, told, here
        loop = filled.segments
    return loop, told, told


def _not_told(here: Sequence[Fine], told: Sequence[Fine]) -> list[Fine]:
    """Those that are none of an earlier round: what is left as it was is found there again."""
    from scipy.spatial import KDTree

    if not told:
        return list(here)
    gaps, _ = KDTree([one.place for one in told]).query([one.place for one in here])
    return [one for one, gap in zip(here, gaps, strict=True) if gap > SAME_MM]


def _fine(one: Narrow) -> Fine:
    what, lost = LOST[one.kind]
    return Fine(what, one.place, one.width_mm, lost)


def _without(ring: Span, narrow: Narrow, contacts: tuple[Point, Point]) -> Span | None:
    """The ring with a straight edge from contact to contact instead of its way into the narrow
    place; None where it does not go there any more."""
    first, last = (ring.at(place, OFF_MM) for place in contacts)
    if first is None or last is None or math.dist(*contacts) <= LEAST_MM:
        return None
    ways = [ring.between(first, last, LEAST_MM), ring.between(last, first, LEAST_MM)]
    if not all(way.segments for way in ways):
        return None
    if any(len(way.segments) == 1 and way.straight[0] for way in ways):  # filled with another
        return None
    inside = narrow.lost.representative_point()
    for i in sorted((0, 1), key=lambda i: ways[i].closed_area_mm2()):  # the smaller is the pocket
        if _region_behind(ways[i]).distance(inside) < LEAST_MM:
            return ways[1 - i].closed()
    return None


def _region_behind(way: Span) -> Any:
    """The area between it and a straight line from its end to its start."""
    import shapely

    if not way.straight.all():
        return region_of(way.closed().segments)
    return shapely.polygons(np.vstack([way.ends[:, :2], way.ends[-1:, 2:]])).buffer(0)
