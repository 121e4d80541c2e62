"""Where a part's name and its number in the order of cuts are written on it.

Pure placing: a rectangle as wide as the words must lie inside the steel, clear of holes and of
the words that the blank has already.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, segments

HEIGHTS_MM = (20.0, 16.0, 12.0, 10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0)
WIDE = 0.85  # width of a letter to its height, on the safe side for a plain font
AROUND = 0.4  # free steel about the words, in heights
TURNS_DEG = (0.0, 90.0, 45.0, -45.0, 30.0, 60.0, -30.0, -60.0)


@lru_cache(maxsize=256)
def text_place(blank: Blank, letters: int) -> MarkText | None:
    """Place for so many letters in the blank's own coordinates; its text is empty.

    None where not even small letters fit. A blank that bears its own name gives up that place.
    """
    import shapely

    named = next((m for m in own_words(blank) if m.text == blank.name), None)
    steel = _steel(blank)
    others = [
        _box(m.at, len(m.text), m.height_mm, m.turn_deg) for m in own_words(blank) if m is not named
    ]
    steel = steel.difference(shapely.union_all(others))
    shapely.prepare(steel)
    places = list(_places(blank, steel, named))
    for height in HEIGHTS_MM:
        for at, turn in places:
            if steel.contains(_box(at, letters, height, turn)):
                return MarkText(at, "", height, turn)
    return None


def own_words(blank: Blank) -> list[MarkText]:
    """Words that a blank bears itself."""
    return [mark for mark in blank.marks if isinstance(mark, MarkText)]


def _places(blank: Blank, steel: Any, named: MarkText | None) -> Iterator[tuple[Point, float]]:
    import shapely

    if named is not None:
        yield named.at, named.turn_deg
    yield from _along_bands(blank.outline)
    x0, y0, x1, y1 = blank.bounds
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    spots = [middle, steel.representative_point().coords[0]]
    if not steel.is_empty:
        spots.append(shapely.maximum_inscribed_circle(steel, tolerance=1.0).coords[0])
    if isinstance(blank.outline, Circle):  # between the hub hole and the rim
        (x, y), radius = blank.outline.centre, blank.outline.radius_mm
        spots += [(x, y + side * share * radius) for share in (0.6, 0.75, 0.5) for side in (1, -1)]
    for turn in TURNS_DEG:
        for spot in spots:
            yield (float(spot[0]), float(spot[1])), turn


def _along_bands(outline: Loop) -> Iterator[tuple[Point, float]]:
    """On the middle line between two arcs about one centre: half way along, and beside it."""
    if isinstance(outline, Circle):
        return
    arcs = [s for s in outline if isinstance(s, Arc)]
    for arc in arcs:
        partner = next(
            (
                other
                for other in arcs
                if other.sweep_deg < 0 < arc.sweep_deg
                and math.dist(other.centre, arc.centre) < 1e-6
                and other.radius_mm < arc.radius_mm
            ),
            None,
        )
        if partner is not None:
            middle = Arc(
                arc.centre, (arc.radius_mm + partner.radius_mm) / 2, arc.start_deg, arc.sweep_deg
            )
            for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9):
                angle = arc.start_deg + share * arc.sweep_deg
                yield middle.at(angle), angle - 90


def _box(at: Point, letters: int, height: float, turn_deg: float) -> Any:
    import shapely

    half = WIDE * letters * height / 2 + AROUND * height
    tall = (0.5 + AROUND) * height
    turn = math.radians(turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    corners = [(-half, -tall), (half, -tall), (half, tall), (-half, tall)]
    return shapely.Polygon(
        [(at[0] + cos * x - sin * y, at[1] + sin * x + cos * y) for x, y in corners]
    )


def _steel(blank: Blank) -> Any:
    import shapely

    holes = [shapely.Polygon(_points(hole)) for hole in blank.holes]
    return shapely.Polygon(_points(blank.outline)).buffer(0).difference(shapely.union_all(holes))


def _points(loop: Loop) -> list[Point]:
    points: list[Point] = []
    for segment in segments(loop):
        if isinstance(segment, Line):
            points.append(segment.start)
        else:
            count = max(2, math.ceil(abs(segment.sweep_deg) / 3))
            step = segment.sweep_deg / count
            points += [segment.at(segment.start_deg + k * step) for k in range(count)]
    return points
