"""The last plate pressed together: the same parts on ever less of its length."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from nesting.bound import widened_mm2
from nesting.fuller import Counts, Full, Task, lay, shapes_of
from nesting.layout import Placement, Sheet
from nesting.shape import poses_of
from parts.outline import bounds

FIRST_STEP = 0.04  # of the length, where nothing tells how short it may be
STEP, LEAST_STEP_MM = 0.01, 6.0  # of the length, tried first; and last
EASY = 8  # part of a full try, where no guess is made
GUESSES = (1.0, 1.05, 1.1)  # of the length that parts as close as on a full plate would take


def reach_mm(placements: Sequence[Placement]) -> float:
    """How far along the plate the parts go."""
    return max(bounds(p.outline)[2] for p in placements)


def length_by_area(task: Task, sheet: Sheet, placements: Sequence[Placement]) -> float:
    """A length of plate that the parts cannot do with less than; see `nesting.bound`."""
    parts = math.fsum(widened_mm2(p.blank, task.spacing_mm) for p in placements)
    less = 2 * task.margin_mm - task.spacing_mm
    return parts / (sheet.width_mm - less) + less


def squeezed(
    task: Task, sheet: Sheet, placements: Sequence[Placement], filled: float | None
) -> tuple[Placement, ...]:
    """The placements, or others of the same blanks that reach less far along the plate.

    `filled`: the share of a full plate's length that its parts need by area; None if unknown.
    """
    best = Full(tuple(placements), poses_of(shapes_of(task), placements))
    counts = Counter(p.blank.name for p in placements)
    by_area = length_by_area(task, sheet, placements)
    length = reach_mm(placements) + task.margin_mm
    left, parts = float(task.moves), len(placements)
    guesses = list(GUESSES if filled else ())
    per_try = task.per_try if filled else task.per_try // EASY  # the quick plan is close by itself
    step = max(LEAST_STEP_MM, (STEP if filled else FIRST_STEP) * length)
    while left > 0 and step >= LEAST_STEP_MM:
        aim = guesses.pop(0) * by_area / (filled or 1.0) if guesses else length - step
        if aim <= by_area or aim > length - LEAST_STEP_MM:
            step = step if guesses else step / 2
            continue
        task.report(f"{sheet.name}: last plate within {length:.0f} mm, trying {aim:.0f} mm")
        try:
            found = _within(task, sheet, counts, aim, best, left, per_try)
        except KeyboardInterrupt:
            task.report("stopped: the shortest found is kept")
            break
        if found is None:
            left -= task.per_try / 2  # two tries at once, at least as far as this
            step = step if guesses else step / 2
            continue
        guesses, best, left = [], found, left - found.moves / parts
        length = min(aim, reach_mm(best.placements) + task.margin_mm)
    return best.placements


def _within(
    task: Task,
    sheet: Sheet,
    counts: Counts,
    length_mm: float,
    start: Full,
    left: float,
    per_try: int,
) -> Full | None:
    """Two tries, from what is known and at random; both of full length."""
    from nesting.search import Try

    seed = task.seed + round(1000 * left)  # other numbers each time
    ways = [Try(seed, start.poses), Try(seed + 1, {})]
    return lay(task, sheet, counts, length_mm, ways, per_try * sum(counts.values()))


def without(placements: Sequence[Placement], surplus: Counter[str]) -> tuple[Placement, ...]:
    """The placements less the surplus, taken from the plate's far end; `surplus` counts down."""
    kept = []
    for placement in sorted(placements, key=lambda p: -bounds(p.outline)[2]):
        if surplus[placement.blank.name] > 0:
            surplus[placement.blank.name] -= 1
        else:
            kept.append(placement)
    return tuple(reversed(kept))
