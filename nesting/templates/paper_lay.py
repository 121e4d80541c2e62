"""How a blank is laid on paper: turned, shifted, upright or on its side, to take few pages. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from platewheel.nesting.templates.paper import Page, Paper
from platewheel.nesting.templates.tiles import EDGE_MM, TileSet, blank_on_paper, with_pages
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Line, Point, contains, moved, moved_point

CLEAR_MM = 5.0  # a centre mark's arm and a little, off the overlap
TURN_STEP_DEG = 15.0
MANY_LINES = 500
SHIFTS = 8  # places of the grid to look at on each side of the middle, each way
TRIES = 6  # of them, how many are counted in pages


@dataclass(frozen=True)
class Lay:
    """A blank turned as it is drawn, with its page and tiles in the turned coordinates."""

    blank: Blank
    page: Page
    tiles: TileSet


@lru_cache(maxsize=64)
def lay_on_paper(blank: Blank, paper: Paper, print_scale: float = 1.0) -> Lay:
    """The turn that takes fewest pages, the blank as it is where that does as well; then the
    grid is shifted so that its overlaps meet few centre marks.

    Raises: SpecError for a print scale that cannot be, see `Paper.page`.
    """
    lays = []
    for turn in _turns(blank):
        turned = turned_blank(blank, turn)
        lays.append(Lay(turned, *blank_on_paper(turned, paper, print_scale)))
    # the first of equals; of as many pages the one with less paper to stick together
    best = min(lays, key=lambda lay: (len(lay.tiles.tiles), lay.tiles.columns * lay.tiles.rows))
    return replace(best, tiles=clear_of_centres(best.blank, best.tiles))


def turned_blank(blank: Blank, turn_deg: float) -> Blank:
    """The blank turned about its origin, marks and all."""
    if not turn_deg:
        return blank
    return replace(
        blank,
        outline=moved(blank.outline, 0.0, 0.0, turn_deg),
        holes=tuple(moved(hole, 0.0, 0.0, turn_deg) for hole in blank.holes),
        marks=tuple(moved_mark(mark, 0.0, 0.0, turn_deg) for mark in blank.marks),
    )


def moved_mark(mark: Mark, x_mm: float, y_mm: float, turn_deg: float) -> Mark:
    """A mark turned about the origin, then moved."""

    def place(point: Point) -> Point:
        return moved_point(point, x_mm, y_mm, turn_deg)

    if isinstance(mark, MarkPoint):
        return MarkPoint(place(mark.at))
    if isinstance(mark, MarkText):
        return replace(mark, at=place(mark.at), turn_deg=mark.turn_deg + turn_deg)
    if isinstance(mark, Line):
        return Line(place(mark.start), place(mark.end))
    return replace(mark, centre=place(mark.centre), start_deg=mark.start_deg + turn_deg)


def _turns(blank: Blank) -> tuple[float, ...]:
    """Turns to try: none for a disc or a drawing of very many lines, where each takes its time;
    the middle of a sector upright first, then all steps."""
    if isinstance(blank.outline, Circle) or len(blank.outline) > MANY_LINES:
        return (0.0,)
    base = 0.0
    arcs = [s for s in blank.outline if isinstance(s, Arc) and s.sweep_deg > 0]
    if arcs:
        long = max(arcs, key=lambda arc: arc.length_mm)
        run = [a for a in arcs if a.centre == long.centre and a.radius_mm == long.radius_mm]
        middle = run[0].start_deg + math.fsum(a.sweep_deg for a in run) / 2
        base = 90 - middle
    steps = (i * TURN_STEP_DEG for i in range(12))
    return (0.0, *(base + step for step in steps if base + step))


def centre_marks(blank: Blank) -> tuple[Point, ...]:
    """Centres to punch or drill: marks on the plate, round holes, the middle of a disc."""
    points = [m.at for m in blank.marks if isinstance(m, MarkPoint)]
    points = [at for at in points if contains(blank.outline, at)]
    points += [loop.centre for loop in (blank.outline, *blank.holes) if isinstance(loop, Circle)]
    return tuple(dict.fromkeys(points))


def cut_centres(centres: tuple[Point, ...], tiles: TileSet) -> int:
    """How many centre marks an overlap of the grid meets."""
    return sum(
        any(low - CLEAR_MM < at[axis] < high + CLEAR_MM for low, high in bands)
        for axis, bands in ((0, _upright_bands(tiles)), (1, _level_bands(tiles)))
        for at in centres
    )


def clear_of_centres(blank: Blank, tiles: TileSet) -> TileSet:
    """The grid shifted where that takes no more pages and fewer centres are in overlaps."""
    centres = centre_marks(blank)
    if not centres or not cut_centres(centres, tiles):
        return tiles
    grids = sorted(_shifted(blank, tiles), key=lambda grid: cut_centres(centres, grid))
    pages = len(tiles.tiles)
    best, least = tiles, cut_centres(centres, tiles)
    for grid in grids[:TRIES]:
        cut = cut_centres(centres, grid)
        if cut < least:
            moved_grid = with_pages(blank, grid)
            if len(moved_grid.tiles) <= pages:
                best, least = moved_grid, cut
    return best


def _shifted(blank: Blank, tiles: TileSet) -> Iterator[TileSet]:
    """The same grid over the blank, near the middle first."""
    left, bottom, right, top = blank.bounds
    _, low, far, _ = tiles.box((tiles.columns, tiles.rows))
    spare_x = max(0.0, (far - tiles.left_mm - (right - left)) / 2 - EDGE_MM)
    spare_y = max(0.0, (tiles.top_mm - low - (top - bottom)) / 2 - EDGE_MM)
    span = range(-SHIFTS, SHIFTS + 1)
    for i, j in sorted(
        ((i, j) for i in span for j in span), key=lambda at: at[0] ** 2 + at[1] ** 2
    ):
        yield replace(
            tiles,
            left_mm=tiles.left_mm + spare_x * i / SHIFTS,
            top_mm=tiles.top_mm + spare_y * j / SHIFTS,
            tiles=(),
        )


def _upright_bands(tiles: TileSet) -> list[tuple[float, float]]:
    steps = range(2, tiles.columns + 1)
    lefts = [tiles.box((column, 1))[0] for column in steps]
    return [(left, left + tiles.overlap_mm) for left in lefts]


def _level_bands(tiles: TileSet) -> list[tuple[float, float]]:
    tops = [tiles.box((1, row))[3] for row in range(2, tiles.rows + 1)]
    return [(top - tiles.overlap_mm, top) for top in tops]
