"""Which pages a blank needs at full size: tiles that overlap, laid over its bounds. mm.

Geometry only. A tile is the rectangle of blank coordinates that one page shows.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from platewheel.nesting.templates.paper import ORIENTATIONS, Box, Page, Paper
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Line, Point, contains, segments, turned

EDGE_MM = 2.0  # white round the bounds, so that no cut line is halved by the edge of a tile
CROSS_ARM_MM = 4.0  # registration cross; less where the overlap is narrow
TEXT_WIDTH = 0.8  # mean width of a letter by its height, near enough to find the pages of a text

Cell = tuple[int, int]  # column from 1, left to right; row from 1, top to bottom


@dataclass(frozen=True)
class Tile:
    """What one page shows. `has_lines` is False on a page that only holds others in place."""

    cell: Cell
    box: Box
    has_lines: bool = True


@dataclass(frozen=True)
class TileSet:
    """Pages of one blank in reading order, on a grid over its bounds; all tiles of one size."""

    columns: int
    rows: int
    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float
    overlap_mm: float
    tiles: tuple[Tile, ...] = ()

    @cached_property
    def numbers(self) -> dict[Cell, int]:
        """Page number from 1 of each cell that is printed."""
        return {tile.cell: number for number, tile in enumerate(self.tiles, start=1)}

    @property
    def cells(self) -> Iterator[Cell]:
        """Every cell of the grid, printed or not, in reading order."""
        return ((c, r) for r in range(1, self.rows + 1) for c in range(1, self.columns + 1))

    def box(self, cell: Cell) -> Box:
        """What the page of a cell shows, or would show."""
        left = self.left_mm + (cell[0] - 1) * (self.width_mm - self.overlap_mm)
        top = self.top_mm - (cell[1] - 1) * (self.height_mm - self.overlap_mm)
        return left, top - self.height_mm, left + self.width_mm, top

    def core(self, cell: Cell) -> Box:
        """The tile less half of each overlap: the cores lie side by side and fill the grid."""
        column, row = cell
        return (
            self._seam_x(column - 1),
            self._seam_y(row),
            self._seam_x(column),
            self._seam_y(row - 1),
        )

    def _seam_x(self, column: int) -> float:
        """Where the cores of a column and the next meet; the grid's own edges at its ends."""
        left, _, right, _ = self.box((max(column, 1), 1))
        if column == 0:
            return left
        return right - (self.overlap_mm / 2 if column < self.columns else 0.0)

    def _seam_y(self, row: int) -> float:
        _, bottom, _, top = self.box((1, max(row, 1)))
        if row == 0:
            return top
        return bottom + (self.overlap_mm / 2 if row < self.rows else 0.0)


def blank_on_paper(blank: Blank, paper: Paper, print_scale: float = 1.0) -> tuple[Page, TileSet]:
    """The way to lay the pages that takes fewer of them, and its tiles; a tie: upright."""
    choices = []
    for orientation in ORIENTATIONS:
        page = paper.page(orientation, print_scale)
        choices.append((page, tile_blank(blank, *page.window_size_mm, paper.overlap_mm)))
    return min(choices, key=lambda choice: len(choice[1].tiles))  # the first of equals


def tile_blank(blank: Blank, width_mm: float, height_mm: float, overlap_mm: float) -> TileSet:
    """Tiles of one size over the outline's bounds, the blank in the middle of them.

    A page is printed if a line, a hole or a mark lies in its core: what lies in the rest of its
    tile is shown whole by the neighbours. Pages that would stand alone are linked to the others
    by pages without lines. Marks off the plate (the apex of a cone) take no page.
    """
    left, bottom, right, top = blank.bounds
    columns = _count(right - left, width_mm, overlap_mm)
    rows = _count(top - bottom, height_mm, overlap_mm)
    grid = TileSet(
        columns,
        rows,
        (left + right) / 2 - _reach(columns, width_mm, overlap_mm) / 2,
        (bottom + top) / 2 + _reach(rows, height_mm, overlap_mm) / 2,
        width_mm,
        height_mm,
        overlap_mm,
    )
    return with_pages(blank, grid)


def with_pages(blank: Blank, grid: TileSet) -> TileSet:
    """The grid with the pages that the blank needs of it, wherever it lies over the blank."""
    drawn = {cell for cell in grid.cells if shows(blank, grid.core(cell))}
    printed = _linked(drawn)
    tiles = (Tile(cell, grid.box(cell), cell in drawn) for cell in grid.cells if cell in printed)
    return replace(grid, tiles=tuple(tiles))


def _count(extent: float, tile: float, overlap: float) -> int:
    return max(1, math.ceil((extent + 2 * EDGE_MM - overlap) / (tile - overlap) - 1e-9))


def _reach(count: int, tile: float, overlap: float) -> float:
    return count * (tile - overlap) + overlap


def shows(blank: Blank, box: Box) -> bool:
    """Whether any line of outline or holes, or any mark on the plate, meets the box.

    The box's edges are part of it.
    """
    loops = (blank.outline, *blank.holes)
    if any(_meets(segment, box) for loop in loops for segment in segments(loop)):
        return True
    left, bottom, right, top = blank.bounds
    box = max(box[0], left), max(box[1], bottom), min(box[2], right), min(box[3], top)
    if box[0] > box[2] or box[1] > box[3]:
        return False
    return any(_mark_meets(mark, blank, box) for mark in blank.marks)


def _mark_meets(mark: Mark, blank: Blank, box: Box) -> bool:
    if isinstance(mark, MarkPoint):
        return _inside(mark.at, box) and contains(blank.outline, mark.at)
    if isinstance(mark, MarkText):
        half = len(mark.text) * mark.height_mm * TEXT_WIDTH / 2
        dx, dy = turned((half, 0.0), mark.turn_deg)
        (x, y) = mark.at
        return _meets(Line((x - dx, y - dy), (x + dx, y + dy)), box)
    return _meets(mark, box)


def _inside(point: Point, box: Box) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _meets(segment: Line | Arc, box: Box) -> bool:
    """Whether a true line or arc meets the box: it ends in it or crosses one of its edges."""
    if _inside(segment.start, box) or _inside(segment.end, box):
        return True
    if isinstance(segment, Line):
        return _line_crosses(segment, box)
    return any(_inside(point, box) for point in _on_edges(segment, box))


def _line_crosses(line: Line, box: Box) -> bool:
    """Clip the line to the two bands of the box. Source: Liang and Barsky, 1984."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        start, run = line.start[axis], line.end[axis] - line.start[axis]
        low, high = box[axis], box[axis + 2]
        if run == 0:
            if not low <= start <= high:
                return False
            continue
        one, other = (low - start) / run, (high - start) / run
        first, last = max(first, min(one, other)), min(last, max(one, other))
    return first <= last


def _on_edges(arc: Arc, box: Box) -> Iterator[Point]:
    """Points of the arc on the four lines that bound the box, laid exactly on them."""
    (cx, cy), radius = arc.centre, arc.radius_mm
    for axis, at in ((0, box[0]), (1, box[1]), (0, box[2]), (1, box[3])):
        off = at - arc.centre[axis]
        if abs(off) > radius:
            continue
        half = math.sqrt(radius**2 - off**2)
        for across in (-half, half):
            dx, dy = (off, across) if axis == 0 else (across, off)
            if arc.covers(math.degrees(math.atan2(dy, dx))):
                yield (at, cy + dy) if axis == 0 else (cx + dx, at)


def _linked(cells: set[Cell]) -> set[Cell]:
    """The cells, and the fewest straight steps of others that join them edge to edge.

    Without them the page of a hub hole, far inside a large disc, would have no place.
    """
    cells = set(cells)
    while len(groups := _groups(cells)) > 1:
        rest = set.union(*groups[1:])
        _, (column, row), (to_column, to_row) = min(
            (abs(a[0] - b[0]) + abs(a[1] - b[1]), a, b) for a in groups[0] for b in rest
        )
        cells |= {(c, row) for c in range(*sorted((column, to_column)))}
        cells |= {(to_column, r) for r in range(*sorted((row, to_row)))}
        cells |= {(to_column, row)}
    return cells


def _groups(cells: set[Cell]) -> list[set[Cell]]:
    """Cells that hang together edge to edge, the group of the least cell first."""
    left, groups = set(cells), []
    while left:
        group, edge = set(), {min(left)}
        while edge:
            group |= edge
            steps = {(c + i, r + j) for c, r in edge for i, j in ((1, 0), (-1, 0), (0, 1), (0, -1))}
            edge = (steps & left) - group
        left -= group
        groups.append(group)
    return groups


def registration_points(blank: Blank, tiles: TileSet, cell: Cell) -> tuple[Point, ...]:
    """Centres of the registration crosses of a page: two in each overlap with a printed page.

    Both pages of an overlap get the same points. They keep clear of the drawing where they can.
    """
    column, row = cell
    points: list[Point] = []
    for c in (column - 1, column):
        if {(c, row), (c + 1, row)} <= tiles.numbers.keys():
            x, (_, bottom, _, top) = tiles._seam_x(c), tiles.box((c, row))
            span = _clear_of_corners(bottom, top, tiles)
            points += [_clear(blank, tiles, [(x, y) for y in half]) for half in span]
    for r in (row - 1, row):
        if {(column, r), (column, r + 1)} <= tiles.numbers.keys():
            y, (left, _, right, _) = tiles._seam_y(r), tiles.box((column, r))
            span = _clear_of_corners(left, right, tiles)
            points += [_clear(blank, tiles, [(x, y) for x in half]) for half in span]
    return tuple(points)


def cross_arm_mm(tiles: TileSet) -> float:
    """Arm of a registration cross: stays 1 mm inside the overlap."""
    return min(CROSS_ARM_MM, tiles.overlap_mm / 2 - 1)


def _clear_of_corners(low: float, high: float, tiles: TileSet) -> tuple[list[float], list[float]]:
    """Places to try in either half of an overlap, out of the corners that four pages share."""
    low, high = low + tiles.overlap_mm, high - tiles.overlap_mm
    near = [low + (high - low) * i / 40 for i in sorted(range(2, 18), key=lambda i: abs(i - 8))]
    return near, [low + high - place for place in near]


def _clear(blank: Blank, tiles: TileSet, places: list[Point]) -> Point:
    """The first place whose cross would touch no line of the blank, else the first."""
    arm = cross_arm_mm(tiles) + 1.5
    for x, y in places:
        if not shows(blank, (x - arm, y - arm, x + arm, y + arm)):
            return x, y
    return places[0]
