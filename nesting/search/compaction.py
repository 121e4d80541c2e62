"""Compaction of the last plate: the same parts on ever less of its length."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from platewheel.nesting.quick.bound import widened_mm2
from platewheel.nesting.search.fuller import Counts, Full, Task, lay, shapes_of
from platewheel.nesting.search.shape import poses_of
from platewheel.nesting.stock.layout import Placement, Sheet
from platewheel.parts.base.interruptible import kept, kept_already
from platewheel.parts.geometry.outline import bounds

MOST_STEP = 0.01  # of the length; the next is longer where one went well
LONGER, SHORTER = 1.2, 0.6
GUESSES = (1.0, 1.05, 1.1)  # of the length that parts as close as on a full plate would take


def reach_mm(placements: Sequence[Placement]) -> float:
    """How far along the plate the parts go."""
    return max(bounds(p.outline)[2] for p in placements)


def length_by_area(task: Task, sheet: Sheet, placements: Sequence[Placement]) -> float:
    """A length of plate that the parts cannot do with less than; see `nesting.quick.bound`."""
    parts = math.fsum(widened_mm2(p.blank, task.spacing_mm) for p in placements)
    less = 2 * task.margin_mm - task.spacing_mm
    return parts / (sheet.width_mm - less) + less


def compacted(
    task: Task, sheet: Sheet, placements: Sequence[Placement], filled: float | None
) -> tuple[Placement, ...]:
    """The placements, or others of the same blanks that reach less far along the plate.

    `filled`: the share of a full plate's length that its parts need by area; None if unknown.
    """
    best = Full(tuple(placements), poses_of(shapes_of(task), placements))
    counts = Counter(p.blank.name for p in placements)
    by_area = length_by_area(task, sheet, placements)
    length = reach_mm(placements) + task.margin_mm
    left, parts = float(task.press.moves), len(placements)
    guesses = [guess * by_area / filled for guess in GUESSES] if filled else []
    least, step = task.press.least_step * length, MOST_STEP * length
    while left > 0 and not kept_already():
        guessed = bool(guesses)
        aim = guesses.pop(0) if guessed else length - step
        if guessed and not by_area < aim <= length - step:
            continue
        task.report(f"{sheet.name}: last plate within {length:.0f} mm, trying {aim:.0f} mm")
        most = task.per_try if guessed else task.press.step_moves
        try:
            found = _within(task, sheet, counts, aim, best, left, most, guessed)
        except KeyboardInterrupt:
            kept("the plan with the shortest last plate found")
            task.report("stopped: the shortest found is kept")
            break
        if found is not None:
            guesses, best, left = [], found, left - found.moves / parts
            length = min(aim, reach_mm(best.placements) + task.margin_mm)
            step = min(LONGER * step, MOST_STEP * length)
            continue
        left -= most
        if not guessed and step <= least:
            break
        step = step if guessed else max(SHORTER * step, least)
    return best.placements


def _within(
    task: Task,
    sheet: Sheet,
    counts: Counts,
    length_mm: float,
    start: Full,
    left: float,
    most: int,
    guessed: bool,
) -> Full | None:
    """Two tries from what is known; at a guess one of them at random."""
    from platewheel.nesting.search.search import Try

    seed = task.seed + round(1000 * left)  # other numbers each time
    ways = [Try(seed, start.poses), Try(seed + 1, {} if guessed else start.poses)]
    return lay(task, sheet, counts, length_mm, ways, most * sum(counts.values()))


def without(placements: Sequence[Placement], surplus: Counter[str]) -> tuple[Placement, ...]:
    """The placements less the surplus, taken from the plate's far end; `surplus` counts down."""
    kept = []
    for placement in sorted(placements, key=lambda p: -bounds(p.outline)[2]):
        if surplus[placement.blank.name] > 0:
            surplus[placement.blank.name] -= 1
        else:
            kept.append(placement)
    return tuple(reversed(kept))
