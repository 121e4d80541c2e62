"""Where the torch runs to part the pieces that are kept from plate and grid.

It runs round each piece, half a kerf off it, wherever there is steel: not along the plate's own
edge, and but once between two pieces that lie a kerf apart. Every part lies two kerfs and a web
away, so the cuts run from edge to edge of the plate and need no kerf of a part.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from platewheel.nesting.offcuts.in_steel import HAIR_MM, in_steel
from platewheel.nesting.offcuts.remnant import Remnant, slug_hole
from platewheel.nesting.offcuts.taken import rings_of
from platewheel.nesting.stock.layout import Layout, NestingError
from platewheel.parts.geometry.outline import Point

MITRE = 2.0  # corners of the run stay square; those sharper than 60 degrees are cut off
LEAST_HALF_MM = 1e-3  # where the kerf is told as nothing: tells steel from the plate's edge
SHORTEST_MM = 0.1  # that an edge runs before its first corner
TOUCH_MM = 0.01  # a piece loses no more than that by its own cuts
SLIVER_MM = 1.5  # beside a slanted edge: a piece is told in whole mm inside it


@dataclass(frozen=True)
class Parting:
    """One run of the torch with the scrap on its left: `middle` of the kerf, and the `edge` of
    the piece that it cuts, corner by corner. A closed run does not repeat its first corner."""

    middle: tuple[Point, ...]
    edge: tuple[Point, ...]
    closed: bool
    piece: Remnant


def partings(layout: Layout, kept: Sequence[Remnant], kerf_mm: float) -> tuple[Parting, ...]:
    """Runs that part the pieces kept of a layout, in their order, holes of a piece first.

    An open run begins at the plate's edge or in a run before it. A piece in the hole of a part
    needs none: it falls out with the slug. Inward corners of a piece stay as round as the kerf.
    Raises: NestingError where a piece would not come free.
    """
    half = max(kerf_mm / 2, LEAST_HALF_MM)
    mine = [piece for piece in kept if piece.layout == layout and slug_hole(piece) is None]
    free = _plate(layout)
    runs: list[Parting] = []
    for piece in mine:
        own = list(_round(piece, free, half))
        runs += own
        free = free.difference(kerfs(own, 3 * LEAST_HALF_MM))  # later runs begin in its middle
    for piece in mine:
        _require_free(piece, runs, half + 2 * LEAST_HALF_MM)
    return tuple(runs)


def kerfs(runs: Sequence[Parting], half_mm: float) -> Any:
    """What the torch burns away on the runs."""
    import shapely

    lines = [_line(run.middle, closed=run.closed) for run in runs]
    return shapely.union_all([line.buffer(half_mm) for line in lines])


def _plate(layout: Layout) -> Any:
    import shapely

    return shapely.Polygon(layout.sheet.corners, layout.sheet.holes)


def _line(points: Sequence[Point], *, closed: bool) -> Any:
    import shapely

    return shapely.LineString([*points, points[0]] if closed else points)


def _round(piece: Remnant, free: Any, half: float) -> Iterator[Parting]:
    """Runs round one piece in the steel that is free to be cut."""
    import shapely

    shape = shapely.Polygon(piece.corners, piece.holes)
    wide = shape.buffer(half, join_style="mitre", mitre_limit=MITRE)
    for ring in reversed(rings_of(wide)):  # holes before the edge
        corners: list[Point] = [(float(x), float(y)) for x, y in ring[::-1]]
        if free.contains(shapely.LineString(corners)):
            middle = tuple(corners[:-1])
            yield Parting(middle, _edge(piece, middle, half, closed=True), True, piece)
            continue
        for run in in_steel(corners, free, _plate(piece.layout), 2 * half):
            yield _open(piece, run, half)


def _open(piece: Remnant, run: tuple[Point, ...], half: float) -> Parting:
    """An open run. One that begins or ends hardly before a corner does so as far before it as the
    corner of the piece lies: its edge would run back to that, along a run that is cut already."""
    if len(run) > 2:
        edge = _beside(piece, run, half, closed=False)
        first = _past(edge[0], edge[1], run[0], run[1])
        last = _past(edge[-1], edge[-2], run[-1], run[-2])
        run = (_back(run[0], run[1], first), *run[1:-1], _back(run[-1], run[-2], last))
    return Parting(run, _edge(piece, run, half, closed=False), False, piece)


def _past(end: Point, corner: Point, run_end: Point, run_corner: Point) -> float:
    """How far the end of an edge lies past the corner next to it, the way that its run goes."""
    share = 1 / math.dist(run_end, run_corner)
    ahead = (share * (run_corner[0] - run_end[0]), share * (run_corner[1] - run_end[1]))
    past = (end[0] - corner[0]) * ahead[0] + (end[1] - corner[1]) * ahead[1]
    return past + SHORTEST_MM if past > HAIR_MM else 0.0


def _back(end: Point, corner: Point, by_mm: float) -> Point:
    """An end moved so much further away from the corner next to it."""
    share = by_mm / math.dist(end, corner) if by_mm else 0.0
    return end[0] + share * (end[0] - corner[0]), end[1] + share * (end[1] - corner[1])


def _edge(piece: Remnant, run: Sequence[Point], half: float, *, closed: bool) -> tuple[Point, ...]:
    """The piece's edge beside a run: its own corners, and ends that may reach past them."""
    found: list[Point] = []
    for at in _beside(piece, run, half, closed=closed):
        if not found or math.dist(found[-1], at) > HAIR_MM:  # a corner cut off is told once
            found.append(at)
    if closed and math.dist(found[-1], found[0]) <= HAIR_MM:
        found.pop()
    return tuple(found)


def _beside(piece: Remnant, run: Sequence[Point], half: float, *, closed: bool) -> list[Point]:
    """Of each point of a run its own of the edge."""
    corners = [corner for ring in (piece.corners, *piece.holes) for corner in ring]
    moved = _moved_back(run, half, closed=closed)
    inner = range(len(run)) if closed else range(1, len(run) - 1)
    return [_nearest(corners, at) if i in inner else at for i, at in enumerate(moved)]


def _nearest(corners: Sequence[Point], point: Point) -> Point:
    return min(corners, key=lambda corner: math.dist(corner, point))


def _moved_back(run: Sequence[Point], half: float, *, closed: bool) -> tuple[Point, ...]:
    """The run moved to its right by half a kerf, its corners where the moved sides meet."""
    count = len(run)
    sides = list(pairwise([*run, run[0]] if closed else run))
    lefts = [_left(a, b) for a, b in sides]
    moved = []
    for i, (x, y) in enumerate(run):
        into = lefts[i - 1] if closed or i > 0 else lefts[0]
        off = lefts[i] if closed or i < count - 1 else lefts[-1]
        scale = half / (1 + into[0] * off[0] + into[1] * off[1])
        moved.append((x - scale * (into[0] + off[0]), y - scale * (into[1] + off[1])))
    return tuple(moved)


def _left(a: Point, b: Point) -> Point:
    length = math.dist(a, b)
    return -(b[1] - a[1]) / length, (b[0] - a[0]) / length


def _require_free(piece: Remnant, runs: Sequence[Parting], half: float) -> None:
    """The proof: plate less kerfs has the piece as one that hangs on nothing."""
    import shapely

    shape = shapely.Polygon(piece.corners, piece.holes)
    left = _plate(piece.layout).difference(kerfs(runs, half))
    within = shape.buffer(2 * half + SLIVER_MM, join_style="mitre")
    core = shape.buffer(-TOUCH_MM)
    if not any(part.covers(core) and within.covers(part) for part in shapely.get_parts(left)):
        x0, y0, x1, y1 = piece.bounds
        raise NestingError(
            f"the offcut to keep from ({x0:g}, {y0:g}) to ({x1:g}, {y1:g}) of "
            f"{piece.layout.sheet.name} would not come free by its cuts; try: "
            'offcut_outline = "rectangle", or a larger least_offcut_mm'
        )
