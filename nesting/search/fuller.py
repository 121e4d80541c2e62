"""More on one plate than a quick plan lays: kits added one by one while the search finds room."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.quick.bound import widened_mm2
from platewheel.nesting.search.shape import Shape, goes_inside, shape_of
from platewheel.nesting.stock.layout import Placement, Report, Sheet, Wanted

Counts = Mapping[str, int]


@dataclass(frozen=True)
class Press:
    """How hard the last plate is pressed: moves of each part in all and for one step (a guess gets
    a full try), and the step, as a share of the length, at which a failure ends it."""

    moves: int
    step_moves: int
    least_step: float


MOST_STEPS = 24  # shares more than the quick plan lays on a plate
MANY_PARTS = 110  # on a plate: of more each is moved less often, so that the work is bounded


@dataclass(frozen=True)
class Task:
    """Blanks of one thickness, the gaps to keep, and how hard to look.

    `moves` of each part for each kind of plate, `per_try` of them at most in one try, and
    `press` for the last plate.
    """

    group: tuple[Wanted, ...]
    spacing_mm: float
    margin_mm: float
    seed: int
    moves: int
    per_try: int
    press: Press
    report: Report

    @property
    def levels(self) -> int:
        """Into how many like shares the job is divided: its kits, or its commonest blank."""
        whole = math.gcd(*(w.count for w in self.group))
        return whole if whole > 3 else max(w.count for w in self.group)

    def share(self, level: int) -> Counter[str]:
        """Blanks of so many shares, rounded up."""
        return Counter(
            {w.blank.name: -(-w.count * level // self.levels) for w in self.group if level}
        )

    def level_of(self, counts: Counts) -> int:
        """Whole shares in a set of blanks."""
        return min(counts.get(w.blank.name, 0) * self.levels // w.count for w in self.group)

    def fits_by_area(self, counts: Counts, sheet: Sheet) -> bool:
        """False where the widened parts are more than the plate; see `nesting.quick.bound`."""
        parts = math.fsum(
            widened_mm2(w.blank, self.spacing_mm) * counts.get(w.blank.name, 0) for w in self.group
        )
        if sheet.is_offcut or self.margin_mm < self.spacing_mm / 2:
            return parts <= sheet.area_mm2 or self.margin_mm < self.spacing_mm / 2
        less = 2 * self.margin_mm - self.spacing_mm
        return parts <= (sheet.length_mm - less) * (sheet.width_mm - less)


@dataclass(frozen=True)
class Full:
    """A filled plate, and where the search's shapes lie on it, by kind: a start for the next."""

    placements: tuple[Placement, ...]
    poses: dict[int, list[Any]]
    moves: int = 0  # spent on it


def shapes_of(task: Task) -> tuple[Shape, ...]:
    """One shape for each blank, then cone blanks with the largest disc that lies in their mouth."""
    plain = [shape_of(w.blank, w.turns) for w in task.group]
    nested = [
        shape_of(w.blank, w.turns, inner)
        for w in task.group
        if (inner := _inner(task, w)) is not None
    ]
    return (*plain, *nested)


def _inner(task: Task, holder: Wanted) -> Any:
    inside = [w.blank for w in task.group if goes_inside(holder.blank, w.blank, task.spacing_mm)]
    return max(inside, key=lambda blank: blank.area_mm2, default=None)


def numbers_of(shapes: Sequence[Shape], counts: Counts) -> list[int]:
    """How many of each shape: as many nested pairs as there are of both."""
    left = Counter(dict(counts))
    numbers = [0] * len(shapes)
    for k, shape in enumerate(shapes):
        if shape.inner is not None:
            numbers[k] = min(left[shape.blank.name], left[shape.inner.name])
            left[shape.blank.name] -= numbers[k]
            left[shape.inner.name] -= numbers[k]
    for k, shape in enumerate(shapes):
        if shape.inner is None:
            numbers[k] = left[shape.blank.name]
    return numbers


def lay(
    task: Task, sheet: Sheet, counts: Counts, length_mm: float, tries: Sequence[Any], most: int
) -> Full | None:
    """Those blanks on the first part of a plate; None where the tries find no room."""
    from platewheel.nesting.search.search import Room, separate

    shapes = shapes_of(task)
    room = Room(sheet, task.spacing_mm, task.margin_mm, length_mm)
    found = separate(shapes, numbers_of(shapes, counts), room, tries, most)
    if found is None:
        return None
    poses: dict[int, list[Any]] = {}
    for kind, pose in zip(found.kinds, found.pose, strict=True):
        poses.setdefault(kind, []).append(pose)
    return Full(found.placements, poses, found.moves)


def fuller(
    task: Task, sheet: Sheet, level: int, most: int, start: Full | None
) -> Iterator[tuple[int, Full]]:
    """Plates with more and more shares on them, from `level` on, as the search finds them."""
    many = sum(task.share(level + 1).values())
    left = task.moves * min(1.0, MANY_PARTS / max(many, 1))  # of each part
    last = min(most, level + MOST_STEPS)
    while level < last and left >= task.per_try:
        counts = task.share(level + 1)
        if not task.fits_by_area(counts, sheet):
            return
        task.report(f"{sheet.name}: {level} of {task.levels} shares on a plate, trying one more")
        nested, parts = _nested(task, counts), sum(counts.values())
        tries = 2 * max(1, round(left / task.per_try / 2))  # two run at once
        ways = _ways(task, start, tries, checkered=nested)
        most_moves = (
            task.per_try * parts // (2 if nested else 1)
        )  # a pair's move takes twice as long
        found = lay(task, sheet, counts, sheet.length_mm, ways, most_moves)
        if found is None:
            return
        level, start, left = level + 1, found, left - found.moves / parts
        yield level, found


def _nested(task: Task, counts: Counts) -> bool:
    """Whether discs are laid in mouths."""
    shapes = shapes_of(task)
    return any(n and s.inner for n, s in zip(numbers_of(shapes, counts), shapes, strict=True))


def _ways(task: Task, start: Full | None, tries: int, *, checkered: bool) -> list[Any]:
    """Ways to begin: on a grid where discs lie in mouths, at random, from the plate before."""
    from platewheel.nesting.search.search import Try

    return [
        Try(
            task.seed + 31 * k,
            start.poses if start and k % 4 == 3 else {},
            checkered and k % 2 == 0,
        )
        for k in range(tries)
    ]
