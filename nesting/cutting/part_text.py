"""Where a part's name and its number in the order of cuts are written on it.

Pure placing: the room of the words must lie inside the steel, clear of its edges and holes, of
the blank's own marks and of the words that it has already.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from platewheel.nesting.cutting.on_steel import SAG_MM, along, marks_on_steel, steel_of
from platewheel.nesting.geometry.stroke_words import word_box, word_strokes
from platewheel.nesting.stock.cutting import LEAST_WEB_MM, Cutting
from platewheel.parts.base.interruptible import interruptible
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Loop, Point

HEIGHTS_MM = (20.0, 16.0, 12.0, 10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0)
LEAST_MARKED_MM = {"laser": 2.0}  # letters that a marker still writes; common practice, no source
LEAST_BROAD_MM = 4.0  # by markers of other processes, their line about 1 mm; likewise
AROUND = 0.25  # free steel about the words, in heights
BESIDE, BESIDE_MM = 1.0, 1.5  # from a mark of the blank itself: a space's width, and at least
ROUGH_MM = 1.0  # how near the widest circle in the steel is found
LEVEL_DEG, SLANT_DEG = (0.0, 90.0), (45.0, -45.0, 30.0, 60.0, -30.0, -60.0)
SLANT_GAIN = 1.5  # words lie aslant only where they are so much taller
SMALLER = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)  # of the height drawn
GRID = 12  # places tried along and across a blank, when the likely ones are taken


def words_clear_mm(cutting: Cutting) -> float:
    """Least steel between words and a finished edge: half a kerf and a least web."""
    return cutting.kerf_mm / 2 + LEAST_WEB_MM


def least_marked_mm(cutting: Cutting) -> float:
    """Height of the smallest letters that are marked as strokes."""
    return LEAST_MARKED_MM.get(cutting.process, LEAST_BROAD_MM)


Place = tuple[Point, float]  # and the turn there, degrees


@lru_cache(maxsize=256)
def text_place(
    blank: Blank, word: str, clear_mm: float = 0.0, drilled_mm: float = 0.0
) -> MarkText | None:
    """Place for a word in the blank's own coordinates, letters as large as go; its text is empty.

    `clear_mm` of steel stands between it and every edge. A hole of `drilled_mm` at most may be
    drilled at each centre that is marked. None where not even small letters fit. A blank that
    bears its own name gives up that place.
    """
    import shapely

    named = next((m for m in own_words(blank) if m.text == blank.name), None)
    steel = _free_steel(blank, clear_mm, drilled_mm)
    if steel.is_empty:
        return None
    shapely.prepare(steel)
    others = shapely.union_all(list(_others(blank, named)))
    widest = shapely.maximum_inscribed_circle(steel, tolerance=ROUGH_MM)
    most = 2 * (widest.length + ROUGH_MM)  # a taller letter has no room anywhere

    def first_free(places: Sequence[Place], height: float) -> Place | None:
        around = max(AROUND * height - clear_mm, 0.0)
        there = shapely.contains(steel, _boxes(places, word, height, around))
        beside = max(BESIDE * height, BESIDE_MM)
        for k in there.nonzero()[0]:
            place = places[int(k)]
            (room,) = _boxes([place], word, height, 0.0)
            if others.is_empty or others.distance(room) >= beside:
                return place
        return None

    best: MarkText | None = None
    likely, spots = list(_likely(blank, named)), list(_spots(blank, steel, widest.coords[0]))
    for turns, gain in ((LEVEL_DEG, 1.0), (SLANT_DEG, SLANT_GAIN)):
        places = [*likely, *((spot, turn) for turn in turns for spot in spots)]
        least = gain * best.height_mm if best else 0.0
        for height in (h for h in HEIGHTS_MM if least <= h <= most):
            found = first_free(places, height)
            if found is not None:
                best = MarkText(found[0], "", height, found[1])
                break
    return best


def own_words(blank: Blank) -> list[MarkText]:
    """Words that a blank bears itself."""
    return [mark for mark in blank.marks if isinstance(mark, MarkText)]


@lru_cache(maxsize=256)
def fitted_words(blank: Blank, clear_mm: float, least_mm: float) -> tuple[MarkText | None, ...]:
    """A blank's own words as they are marked on its steel: as high as drawn, or less high where
    they would come nearer to an edge; None for those that do not go in letters of `least_mm`."""
    steel = _free_steel(blank, clear_mm, 0.0)
    return tuple(_fitted(words, steel, least_mm) for words in own_words(blank))


def _fitted(words: MarkText, steel: Any, least_mm: float) -> MarkText | None:
    import shapely

    for share in SMALLER:
        one = replace(words, height_mm=share * words.height_mm)
        strokes = word_strokes(one.text, one.at, one.height_mm, one.turn_deg)
        if one.height_mm >= least_mm and steel.covers(shapely.MultiLineString(strokes)):
            return one
    return None


def _free_steel(blank: Blank, clear_mm: float, drilled_mm: float) -> Any:
    """Steel that no edge is near to, of holes to drill neither."""
    import shapely

    off_centre = drilled_mm / 2 + clear_mm
    drilled = [
        shapely.Point(mark.at).buffer(off_centre, quad_segs=64)
        for mark in marks_on_steel(blank)
        if isinstance(mark, MarkPoint)
    ]
    shrunk_mm = clear_mm + 2 * SAG_MM if clear_mm else 0.0
    inner = interruptible(lambda: steel_of(blank).buffer(-shrunk_mm))
    return interruptible(lambda: inner.difference(shapely.union_all(drilled)))


def _others(blank: Blank, named: MarkText | None) -> Iterator[Any]:
    """Marks and words that a blank has already."""
    import shapely

    for mark in marks_on_steel(blank):
        if isinstance(mark, MarkPoint):
            yield shapely.Point(mark.at)
        else:
            yield shapely.LineString([*along(mark), mark.end])
    for words in own_words(blank):
        if words is not named:
            yield from _boxes([(words.at, words.turn_deg)], words.text, words.height_mm, 0.0)


def _likely(blank: Blank, named: MarkText | None) -> Iterator[Place]:
    """The place of the blank's own name, and such along its bands."""
    if named is not None:
        yield named.at, named.turn_deg
    yield from _along_bands(blank.outline)


def _spots(blank: Blank, steel: Any, widest: Point) -> Iterator[Point]:
    """Middles to try: where most steel is likely, then all over the blank, from its middle on."""
    import shapely

    x0, y0, x1, y1 = blank.bounds
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    for x, y in (middle, steel.representative_point().coords[0], widest):
        yield float(x), float(y)
    if isinstance(blank.outline, Circle):  # between the hub hole and the rim
        (x, y), radius = blank.outline.centre, blank.outline.radius_mm
        yield from (
            (x, y + side * share * radius) for share in (0.6, 0.75, 0.5) for side in (1, -1)
        )
    shares = [(k + 0.5) / GRID for k in range(GRID)]
    grid = [(x0 + u * (x1 - x0), y0 + v * (y1 - y0)) for u in shares for v in shares]
    grid = [spot for spot in grid if steel.contains(shapely.Point(spot))]
    yield from sorted(grid, key=lambda spot: round(math.dist(spot, middle), 6))


def _along_bands(outline: Loop) -> Iterator[Place]:
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


def _boxes(places: Sequence[Place], word: str, height: float, around: float) -> Any:
    """Rooms of a word at each of these places, with so much free steel about it."""
    import numpy as np
    import shapely

    room = word_box(word, height)
    half, up, down = room.half_mm + around, room.up_mm + around, room.down_mm + around
    corners = np.array([(-half, -down), (half, -down), (half, up), (-half, up)])
    at = np.array([spot for spot, _ in places])
    turn = np.radians([deg for _, deg in places])[:, None]
    cos, sin = np.cos(turn), np.sin(turn)
    x = at[:, :1] + cos * corners[:, 0] - sin * corners[:, 1]
    y = at[:, 1:] + sin * corners[:, 0] + cos * corners[:, 1]
    return shapely.polygons(np.stack([x, y], axis=-1))
