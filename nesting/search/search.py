"""Laying a given set of parts on one plate: many tries, the first in the list that ends wins.

Two run at once where there are two cores; which ends first does not matter, so any number of
cores gives the same layout. Work is counted in moves of parts, never in seconds.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np

from platewheel.nesting.search.samples import PACES_MM
from platewheel.nesting.search.shape import Shape, placements_of
from platewheel.nesting.search.world import world_of
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.nesting.verify.verify import faults
from platewheel.parts.base.interruptible import side_by_side

PATIENCE = 250  # sweeps without less overlap before parts are swapped
WIDE, NEAR = 12, 24  # places tried all over the plate, and near where a part lies
SWEEPS = 4  # between looks at whether to stop


@dataclass(frozen=True)
class Room:
    """The plate, of which `length_mm` may be used, and the gaps to keep."""

    sheet: Sheet
    spacing_mm: float
    margin_mm: float
    length_mm: float


@dataclass(frozen=True)
class Laid:
    """Shapes, the kind of each part, and its pose (x, y, turn); `placements` on the plate."""

    shapes: tuple[Shape, ...]
    kinds: tuple[int, ...]
    pose: Any
    placements: tuple[Placement, ...]
    moves: int = 0  # spent by the tries up to the one that ended


@dataclass(frozen=True)
class Try:
    """A way to begin: poses by kind, as many as there are; other parts start at random."""

    seed: int
    known: dict[int, list[Any]]
    checkered: bool = False


def separate(
    shapes: Sequence[Shape],
    counts: Sequence[int],
    room: Room,
    tries: Iterable[Try],
    moves: int,
) -> Laid | None:
    """Lay counts[k] parts of shapes[k]; None where no try ends within `moves` moves of a part.

    Two tries run side by side, and the one that needs fewer moves wins, the first of both if they
    need the same; then the next two. A layout is proved on its true arcs before it is returned.
    """
    kinds = tuple(k for k, count in enumerate(counts) for _ in range(count))
    gaps = room.spacing_mm, room.margin_mm, room.length_mm
    worlds = [world_of(shapes, room.sheet, *gaps, pace) for pace in PACES_MM]
    if not kinds or not _all_fit(worlds[0], shapes, counts):
        return None
    listed = list(tries)
    for first in range(0, len(listed), 2):
        bar = Bar(moves)
        running = [
            partial(_attempt, shapes, kinds, room, worlds, one, bar)
            for one in listed[first : first + 2]
        ]
        try:
            laid = side_by_side(running, min(2, os.cpu_count() or 1))
            ended = [found for found in laid if found is not None]
        except BaseException:
            bar.moves = -1  # they end soon; nobody waits for them
            raise
        if ended:
            best = min(ended, key=lambda found: found.moves)
            return replace(best, moves=best.moves + first // 2 * moves)
    return None


@dataclass
class Bar:
    """Moves after which a try may stop: the other has ended with fewer."""

    moves: int


def _attempt(
    shapes: Sequence[Shape],
    kinds: tuple[int, ...],
    room: Room,
    worlds: Sequence[Any],
    one: Try,
    bar: Bar,
) -> Laid | None:
    from platewheel.nesting.search.move import State, draw
    from platewheel.nesting.search.separate import all_into_room, scatter, sweeps

    count = len(kinds)
    state = State(
        np.array(kinds),
        np.zeros((count, 3)),
        np.zeros((count, 4)),
        np.ones((count, count)),
        np.zeros((count, 3)),
        np.zeros((count, 3)),
        np.array([1e300, 1e300, 0.0, 0.0, 0.0]),
        np.array([0x9E3779B97F4A7C15 ^ (one.seed * 0x2545F491 + 1)], dtype=np.uint64),
    )
    for _ in range(16):
        draw(state.random)
    scatter(worlds[0], state)
    _begin(state, kinds, one, worlds[0])
    all_into_room(worlds[0], state)
    state.best[:] = state.pose
    finer = iter(worlds)
    world = next(finer)
    while state.tally[4] <= bar.moves:
        if sweeps(world, state, SWEEPS, PATIENCE, WIDE, NEAR):
            placed = placements_of(shapes, kinds, state.pose)
            layout = Layout(room.sheet, placed)
            if any(faults(layout, room.spacing_mm, room.margin_mm)):
                world = next(finer, None)
                if world is None:
                    return None
                continue
            spent = int(state.tally[4])
            bar.moves = min(bar.moves, spent)
            return Laid(tuple(shapes), kinds, state.pose.copy(), placed, spent)
    return None


def _begin(state: Any, kinds: tuple[int, ...], one: Try, world: Any) -> None:
    """Poses known from before, or a grid on which unlike parts alternate."""
    if one.checkered:
        _checker(state, kinds, one.seed, world)
        return
    taken: Counter[int] = Counter()
    for i, kind in enumerate(kinds):
        known = one.known.get(kind, [])
        if taken[kind] < len(known):
            state.pose[i] = known[taken[kind]]
            taken[kind] += 1


def _checker(state: Any, kinds: tuple[int, ...], seed: int, world: Any) -> None:
    """Centres on the grid nearest to square, the commonest kinds by turns."""
    x0, y0, x1, y1 = world.room
    count = len(kinds)
    grids = [
        (abs((x1 - x0) / columns - (y1 - y0) / rows), columns * rows, rows, columns)
        for rows in range(1, count + 1)
        for columns in [-(-count // rows)]
    ]
    _, _, rows, columns = min(grids)
    cells = [(i, j) for i in range(columns) for j in range(rows)]
    cells.sort(key=lambda cell: ((cell[0] + cell[1] + seed) % 2, cell))
    for part, (i, j) in zip(range(count), cells, strict=False):
        s = state.shape[part]
        turn = state.pose[part, 2]
        cos, sin = np.cos(turn), np.sin(turn)
        mx, my, reach = world.round[s]
        span_x, span_y = x1 - x0 - 2 * reach, y1 - y0 - 2 * reach
        cx = x0 + reach + span_x * (i / (columns - 1) if columns > 1 else 0.5)
        cy = y0 + reach + span_y * (j / (rows - 1) if rows > 1 else 0.5)
        state.pose[part, 0] = cx - cos * mx + sin * my
        state.pose[part, 1] = cy - sin * mx - cos * my


def _all_fit(world: Any, shapes: Sequence[Shape], counts: Sequence[int]) -> bool:
    """Whether each shape alone goes into the room at some turn."""
    from platewheel.nesting.search.distance import extent

    x0, y0, x1, y1 = world.room
    for k, count in enumerate(counts):
        if not count:
            continue
        turns = world.turns[k, : world.turn_count[k]]
        if world.turn_count[k] == 0:
            turns = np.radians(np.arange(0, 360, 3.0))
        boxes = [extent(world, k, float(np.cos(t)), float(np.sin(t))) for t in turns]
        if not any(b[2] - b[0] <= x1 - x0 + 1e-9 and b[3] - b[1] <= y1 - y0 + 1e-9 for b in boxes):
            return False
    return True
