"""White places on a template's pages for tables and notes. mm, in the blank's coordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from platewheel.nesting.templates.paper import Box
from platewheel.nesting.templates.tiles import TEXT_WIDTH, Cell, TileSet, registration_points
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Line, Point, arc_pieces, segments, turned

STEP_MM = 6.0  # from one place that is tried to the next
CLEAR_MM = 4.0  # white round a note
SPOT_MM = 6.0  # half of what a cross takes
FACET_DEG = 1.0  # a chord is off its arc of 4 m by 0.15 mm, little beside the white


@dataclass(frozen=True)
class Place:
    """A white box of a page, and whether it is to be read from the right, a quarter turned."""

    cell: Cell
    box: Box
    turned: bool


def free_places(
    blank: Blank, tiles: TileSet, sizes_mm: Sequence[tuple[float, float]]
) -> list[Place | None]:
    """A place for each box of this width and height, in order; None where no page has room.

    Clear of lines, marks, crosses, each other, and of every overlap, where paper is glued.
    """
    import shapely

    ink = _ink(blank)
    areas = []
    for tile in tiles.tiles:
        crosses = [_around(at) for at in registration_points(blank, tiles, tile.cell)]
        solid = shapely.GeometryCollection([*ink, *(shapely.box(*one) for one in crosses)])
        shapely.prepare(solid)
        areas.append((tile.cell, _own(tiles, tile.cell), solid))

    def places(width: float, height: float, turned: bool) -> Iterator[Place]:
        for cell, area, solid in areas:
            for box in clear_boxes(area, width, height, taken, solid):
                yield Place(cell, box, turned)

    taken: list[Box] = []
    found: list[Place | None] = []
    for width, height in sizes_mm:
        place = next(chain(places(width, height, False), places(height, width, True)), None)
        found.append(place)
        if place:
            taken.append(place.box)
    return found


def clear_boxes(
    area: Box, width: float, height: float, taken: Sequence[Box], ink: Any = None
) -> Iterator[Box]:
    """Places for a box in an area, clear of other boxes and of a prepared shape of ink; from
    the top down, left to right."""
    import numpy as np
    import shapely

    left, bottom, right, top = area
    xs = np.arange(left, right - width + 1e-9, STEP_MM)
    ys = np.arange(top - height, bottom - 1e-9, -STEP_MM)
    y, x = (one.ravel() for one in np.meshgrid(ys, xs, indexing="ij"))
    low_x, low_y, high_x, high_y = (
        x - CLEAR_MM,
        y - CLEAR_MM,
        x + width + CLEAR_MM,
        y + height + CLEAR_MM,
    )
    clear = np.ones(len(x), dtype=bool)
    for one in taken:
        clear &= (low_x >= one[2]) | (high_x <= one[0]) | (low_y >= one[3]) | (high_y <= one[1])
    if ink is not None and clear.any():
        wide = shapely.box(low_x[clear], low_y[clear], high_x[clear], high_y[clear])
        clear[clear] = ~shapely.intersects(ink, wide)
    for i in np.flatnonzero(clear):
        yield float(x[i]), float(y[i]), float(x[i]) + width, float(y[i]) + height


def _ink(blank: Blank) -> list[Any]:
    """All lines and marks of a blank as shapes: arcs as chords, words and spots as areas."""
    import shapely

    shapes: list[Any] = []
    lines = [s for loop in (blank.outline, *blank.holes) for s in segments(loop)]
    lines += [mark for mark in blank.marks if isinstance(mark, Line | Arc)]
    shapes += [shapely.LineString(_points(line)) for line in lines]
    for mark in blank.marks:
        if isinstance(mark, MarkPoint):
            shapes.append(shapely.box(*_around(mark.at)))
        elif isinstance(mark, MarkText):
            half = len(mark.text) * mark.height_mm * TEXT_WIDTH / 2
            (x, y), (dx, dy) = mark.at, turned((half, 0.0), mark.turn_deg)
            words = shapely.LineString([(x - dx, y - dy), (x + dx, y + dy)])
            shapes.append(words.buffer(0.7 * mark.height_mm))
    return shapes


def _points(segment: Line | Arc) -> list[Point]:
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    pieces = arc_pieces(segment, FACET_DEG)
    return [segment.start, *(piece.end for piece in pieces)]


def _own(tiles: TileSet, cell: Cell) -> Box:
    """The tile less its whole overlaps with pages that are printed, and a rim."""
    (column, row), there = cell, tiles.numbers
    left, bottom, right, top = tiles.box(cell)
    lap = tiles.overlap_mm
    return (
        left + 2 + (lap if (column - 1, row) in there else 0),
        bottom + 2 + (lap if (column, row + 1) in there else 0),
        right - 2 - (lap if (column + 1, row) in there or (column + 1, row - 1) in there else 0),
        top - 2 - (lap if (column, row - 1) in there else 0),
    )


def _around(at: Point) -> Box:
    return at[0] - SPOT_MM, at[1] - SPOT_MM, at[0] + SPOT_MM, at[1] + SPOT_MM
