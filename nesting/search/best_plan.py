"""The plan for one thickness: quick, then fuller plates, the cheapest mix, the last compacted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.quick.greedy import greedy_plan
from platewheel.nesting.search.compaction import compacted, length_by_area, reach_mm, without
from platewheel.nesting.search.fuller import Full, Press, Task, fuller
from platewheel.nesting.search.stock_plan import Pattern, stock_plan
from platewheel.nesting.stock.layout import Layout, Report, Sheet, Wanted, all_priced
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.base.interruptible import kept, kept_already

SMALL_JOB = 16  # parts on a single plate: not worth the time to make the search ready

ALONE = (2, 1)  # orders tried of a plate that the quick plan leaves out
MOST_KINDS = 13  # of plates of one thickness: the work is bounded however many offcuts there are


@dataclass(frozen=True)
class Search:
    """Effort in counted work: orders of a quick plan, then moves of each part for each kind of
    plate, in one try, and for the last plate."""

    orders: tuple[int, int]
    moves: int
    per_try: int
    press: Press


def best_plan(
    group: Sequence[Wanted],
    plates: Sequence[Sheet],
    cutting: Cutting,
    seed: int,
    effort: Search,
    report: Report,
) -> tuple[list[Layout], list[Wanted]]:
    """Layouts, and what fits no plate to hand."""
    base, left = greedy_plan(group, plates, cutting, seed, effort.orders)
    if not effort.moves or not base or kept_already():
        return base, left
    parts = sum(len(lay.placements) * lay.repeat for lay in base)
    if not left and len(base) == 1 and base[0].repeat == 1 and parts < SMALL_JOB:
        return base, left
    task = Task(
        tuple(group),
        cutting.part_spacing_mm,
        cutting.sheet_margin_mm,
        seed,
        effort.moves,
        effort.per_try,
        effort.press,
        report,
    )
    return _improved(task, base, left, plates, cutting)


def _improved(
    task: Task,
    base: Sequence[Layout],
    left: Sequence[Wanted],
    plates: Sequence[Sheet],
    cutting: Cutting,
) -> tuple[list[Layout], list[Wanted]]:
    priced = all_priced(plates)

    def pattern(sheet: Sheet, full: Full) -> Pattern:
        return Pattern(sheet, full.placements, sheet.counts_for(priced))

    pool = [pattern(lay.sheet, Full(lay.placements, {})) for lay in base]
    demand = {w.blank.name: w.count for w in task.group}
    try:
        for sheet in looked_at(plates):
            mine = [p for p in pool if p.sheet is sheet]
            if not mine:  # begin where a quick plan of this plate alone ends, not at nothing
                alone, _ = greedy_plan(task.group, [sheet], cutting, task.seed, ALONE)
                mine = [pattern(sheet, Full(lay.placements, {})) for lay in alone[:1]]
                pool += mine
            level = max((task.level_of(p.counts) for p in mine), default=0)
            for _, full in fuller(task, sheet, level, task.levels, None):
                pool.append(pattern(sheet, full))
    except KeyboardInterrupt:
        kept("the best plan found")
        task.report("stopped: the best found is kept")
        return _assembled(replace(task, moves=0), pool, demand) or (list(base), list(left))
    try:
        return _assembled(task, pool, demand) or (list(base), list(left))
    except KeyboardInterrupt:
        kept("the quick plan")
        task.report("stopped: the quick plan is kept")
        return list(base), list(left)


def looked_at(plates: Sequence[Sheet]) -> list[Sheet]:
    """Kinds of plate that are searched longer: all, or of very many the largest, those bought in
    any number before offcuts; the others keep what the quick plan lays on them."""
    kinds = sorted(plates, key=lambda sheet: (sheet.is_offcut, -sheet.area_mm2))
    chosen = {id(sheet) for sheet in kinds[:MOST_KINDS]}
    return [sheet for sheet in plates if id(sheet) in chosen]


def _assembled(
    task: Task, pool: Sequence[Pattern], demand: dict[str, int]
) -> tuple[list[Layout], list[Wanted]] | None:
    """The cheapest mix of patterns, surplus left off the last plate; None where none makes all."""
    times = stock_plan(pool, demand)
    if times is None:
        return None
    chosen = [k for k, n in enumerate(times) if n]
    chosen.sort(key=lambda k: (pool[k].sheet.is_offcut, -pool[k].price, len(pool[k].placements)))
    surplus = Counter[str]()
    for k in chosen:
        for name, made in pool[k].counts.items():
            surplus[name] += made * times[k]
    surplus.subtract(demand)
    whole, last = Counter(dict(enumerate(times))), []
    for k in (one for one in chosen for _ in range(times[one])):
        if any(surplus[name] > 0 for name in pool[k].counts):
            whole[k] -= 1
            last.append((k, without(pool[k].placements, surplus)))
    if not last and whole[chosen[0]] == 1 and not pool[chosen[0]].sheet.is_offcut:
        whole[chosen[0]] = 0
        last.append((chosen[0], pool[chosen[0]].placements))
    if last and task.moves and last[0][1]:
        k, kept = last[0]
        last[0] = (k, compacted(task, pool[k].sheet, kept, _filled(task, pool, k, len(kept))))
    layouts = [Layout(pool[k].sheet, pool[k].placements, whole[k]) for k in chosen if whole[k]]
    return [*layouts, *(Layout(pool[k].sheet, kept) for k, kept in last if kept)], []


def _filled(task: Task, pool: Sequence[Pattern], k: int, parts: int) -> float | None:
    """Share of its plate that the fullest pattern needs by area; None where none has more."""
    sheet = pool[k].sheet
    full = [p.placements for p in pool if p.sheet is sheet and len(p.placements) > parts]
    shares = [length_by_area(task, sheet, p) / (reach_mm(p) + task.margin_mm) for p in full]
    return max(shares, default=None)
