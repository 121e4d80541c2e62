"""A quick plan for one thickness: offcuts first, then the cheapest sheets, filled from the left.

Whole kits are packed on each stock size, the best pattern is repeated, the rest goes on the size
that takes it cheapest; a second plan without kits is made too, and the cheaper of the two is
kept. Where setting up a plate has a price, offcuts that do not earn theirs are left out. Work is
counted in orders tried, never in seconds.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.quick.fill import Plate
from platewheel.nesting.quick.no_fit import NoFit, variants
from platewheel.nesting.quick.pattern import fill_kits, fill_most, top_up
from platewheel.nesting.quick.plainer import MANY_KINDS
from platewheel.nesting.stock.layout import Layout, Sheet, Wanted, all_priced
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank

FINE_STEP_MM, COARSE_STEP_MM = 1.0, 2.0
FINE_AREA_MM2 = 4.6e6  # up to a 1500 x 3000 sheet
MOST_CELLS = 250e6  # of the maps of a plate, one for each blank and turn: of more the step is wider
MOST_LAID = 150e3  # parts laid in the orders of one fill, each taken out of each map
MOST_LEFT_OUT = 8  # offcuts tried to do without: work that is bounded


@dataclass
class _Plan:
    """Growing plan for one thickness."""

    left: dict[str, int]
    layouts: list[Layout]
    used: dict[int, int]  # plates taken, by the sheet's id: two entries may look alike


def greedy_plan(
    group: Sequence[Wanted],
    plates: Sequence[Sheet],
    cutting: Cutting,
    seed: int,
    tries: tuple[int, int],
) -> tuple[list[Layout], list[Wanted]]:
    """Layouts, and what fits no plate to hand; `tries`: orders for each kit count, for the rest."""
    if not plates or not group:
        return [], list(group)
    few = len(group) > MANY_KINDS
    step = step_mm(group, plates, few=few)
    fits = NoFit(cutting.part_spacing_mm, step, {w.blank.name: w.turns for w in group}, few)
    if few:
        tries = (orders_of(group, plates, tries[0]), orders_of(group, plates, tries[1]))
    group = sorted(group, key=lambda w: (-_size(w), w.blank.name))
    bought = [p for p in plates if not p.is_offcut]
    priced = all_priced(plates)
    whole_first = (True, False) if len(bought) > 1 else (True,)
    hows = [_How(kits, whole, priced, *tries) for kits in (True, False) for whole in whole_first]

    def cheapest(of: Sequence[Sheet]) -> _Plan:
        plans = [
            _plan(group, of, cutting.sheet_margin_mm, fits, random.Random(seed), how)
            for how in hows
        ]
        return min(plans, key=cost)

    def cost(plan: _Plan) -> tuple[float, ...]:
        paid = math.fsum(lay.sheet.counts_for(priced) * lay.repeat for lay in plan.layouts)
        return sum(plan.left.values()), round(paid, 6), len(plan.layouts)

    best = cheapest(plates)
    for offcut in _dear_offcuts(best) if priced else ():
        others = [sheet for sheet in plates if sheet is not offcut]
        less = cheapest(others)
        if cost(less) < cost(best):
            best, plates = less, others
    left = [replace(w, count=best.left[w.blank.name]) for w in group if best.left[w.blank.name]]
    return best.layouts, left


def step_mm(group: Sequence[Wanted], plates: Sequence[Sheet], *, few: bool) -> float:
    """Between places that are tried: whole mm, wider on large plates and for very many blanks."""
    largest = max(p.length_mm * p.width_mm for p in plates)
    maps = sum(len(variants(w.blank, w.turns, few=few)) for w in group)
    least = FINE_STEP_MM if largest <= FINE_AREA_MM2 else COARSE_STEP_MM
    return max(least, float(math.ceil(math.sqrt(maps * largest / MOST_CELLS))))


def orders_of(group: Sequence[Wanted], plates: Sequence[Sheet], most: int) -> int:
    """Orders of a fill that are tried of very many kinds: as lay no more than MOST_LAID."""
    maps = sum(len(variants(w.blank, w.turns, few=True)) for w in group)
    parts = sum(w.count for w in group)
    each = math.fsum(w.blank.area_mm2 * w.count for w in group) / parts
    held = min(parts, max(p.area_mm2 for p in plates) / each)
    return max(1, min(most, int(MOST_LAID / (held * maps))))


def _dear_offcuts(plan: _Plan) -> list[Sheet]:
    """Offcuts that cost setting up, those with least on them first: a plate that is cut anyway may
    take their parts for less."""
    there = [lay for lay in plan.layouts if lay.sheet.is_offcut and lay.sheet.setup_price > 0]
    there.sort(key=lambda lay: (lay.parts_area_mm2, lay.sheet.name))
    return [lay.sheet for lay in there[:MOST_LEFT_OUT]]


@dataclass(frozen=True)
class _How:
    """One way to plan: in whole kits or not; a plate that takes all the rest at once or always
    the cheapest by part area; by price, or by plate area where a price is missing."""

    kits: bool
    whole_first: bool
    priced: bool
    kit_tries: int
    rest_tries: int


def _size(item: Wanted) -> float:
    x0, y0, x1, y1 = item.blank.bounds
    return max(x1 - x0, y1 - y0)


def _plan(
    group: Sequence[Wanted],
    plates: Sequence[Sheet],
    margin_mm: float,
    fits: NoFit,
    rng: random.Random,
    how: _How,
) -> _Plan:
    plan = _Plan({w.blank.name: w.count for w in group}, [], {})
    offcuts = sorted((p for p in plates if p.is_offcut), key=lambda p: (p.area_mm2, p.name))
    for offcut in offcuts:
        _take(plan, fill_most(offcut, _left(plan, group), margin_mm, fits, how.rest_tries, rng), 1)
    sheets = [p for p in plates if not p.is_offcut]
    while any(plan.left.values()):
        choices = [s for s in sheets if s.count is None or plan.used.get(id(s), 0) < s.count]
        plate = _next_plate(plan, group, choices, margin_mm, fits, rng, how)
        if plate is None:
            break
        _take(plan, plate, _repeats(plan, plate))
    return plan


def _left(plan: _Plan, group: Sequence[Wanted]) -> list[tuple[Blank, int]]:
    return [(w.blank, plan.left[w.blank.name]) for w in group if plan.left[w.blank.name]]


def _repeats(plan: _Plan, plate: Plate) -> int:
    """How often the plate can be cut before more of any blank is made than wanted."""
    counts = Layout(plate.sheet, tuple(plate.placements)).counts
    times = min(plan.left[name] // count for name, count in counts.items())
    if plate.sheet.count is not None:
        times = min(times, plate.sheet.count - plan.used.get(id(plate.sheet), 0))
    return times


def _take(plan: _Plan, plate: Plate, times: int) -> None:
    if not plate.placements:
        return
    layout = Layout(plate.sheet, tuple(plate.placements), times)
    for name, count in layout.counts.items():
        plan.left[name] -= count * times
    plan.used[id(plate.sheet)] = plan.used.get(id(plate.sheet), 0) + times
    plan.layouts.append(layout)


def _next_plate(
    plan: _Plan,
    group: Sequence[Wanted],
    choices: Sequence[Sheet],
    margin_mm: float,
    fits: NoFit,
    rng: random.Random,
    how: _How,
) -> Plate | None:
    """The plate that takes most for its price; the cheapest one where all the rest fits."""
    left = _left(plan, group)
    whole: list[tuple[float, str, Plate]] = []
    part: list[tuple[float, str, Plate]] = []
    for sheet in choices:
        plate = fill_most(sheet, left, margin_mm, fits, how.rest_tries, rng)
        price = sheet.counts_for(how.priced)
        all_laid = len(plate.placements) == sum(count for _, count in left)
        if all_laid and how.whole_first:
            whole.append((price, sheet.name, plate))
            continue
        if how.kits and not all_laid:
            plate = _kit_plate(sheet, plan, group, margin_mm, fits, rng, how.kit_tries) or plate
        area = math.fsum(p.blank.area_mm2 for p in plate.placements)
        if area:
            part.append((price / area, sheet.name, plate))
    best = min(whole or part, key=lambda choice: choice[:2], default=None)
    return best[2] if best else None


def _kit_plate(
    sheet: Sheet,
    plan: _Plan,
    group: Sequence[Wanted],
    margin_mm: float,
    fits: NoFit,
    rng: random.Random,
    tries: int,
) -> Plate | None:
    """The plate with most whole kits, filled up with single blanks that are wanted anyway."""
    whole = math.gcd(*(w.count for w in group))
    kit = tuple((w.blank, w.count // whole) for w in group)
    count = min(plan.left[blank.name] // n for blank, n in kit)
    if not count:
        return None
    held, plate = fill_kits(sheet, kit, count, margin_mm, fits, tries, rng)
    if not held:
        return None
    times = count // held
    top_up(plate, [(blank, plan.left[blank.name] // times - held * n) for blank, n in kit])
    return plate.done()
