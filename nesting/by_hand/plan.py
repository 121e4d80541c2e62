"""Blanks of one thickness onto plates in rows and columns, plate by plate."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from platewheel.nesting.by_hand.cell import cells_of
from platewheel.nesting.by_hand.fill import fill
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement, Sheet, Wanted, all_priced
from platewheel.parts.geometry.outline import bounds


def rows_plan(
    group: Sequence[Wanted], plates: Sequence[Sheet], cutting: Cutting
) -> tuple[list[Layout], list[Wanted]]:
    """Layouts, and what fits no plate to hand. Offcuts are used up first; then always the plate
    that takes most for its price, or the cheapest that takes all the rest."""
    spacing, margin = cutting.part_spacing_mm, cutting.sheet_margin_mm
    cells = [cell for item in group for cell in cells_of(item, spacing, cutting.kerf_mm)]
    left = Counter({item.blank.name: item.count for item in group})
    used = Counter[int]()
    layouts: list[Layout] = []

    def best_of(sheet: Sheet) -> Layout | None:
        ways = [
            fill(sheet, cells, left, spacing, margin, columns=columns) for columns in (True, False)
        ]
        return max(filter(None, ways), key=_worth, default=None)

    def take(layout: Layout) -> None:
        sheet, counts = layout.sheet, layout.counts
        times = min(left[name] // count for name, count in counts.items())
        if sheet.count is not None:
            times = min(times, sheet.count - used[id(sheet)])
        for name, count in counts.items():
            left[name] -= times * count
        used[id(sheet)] += times
        layouts.append(replace(layout, repeat=times))

    offcuts = sorted((p for p in plates if p.is_offcut), key=lambda p: (p.area_mm2, p.name))
    for offcut in offcuts:
        found = best_of(offcut)
        if found:
            take(found)
    sheets = [p for p in plates if not p.is_offcut]
    while any(left.values()):
        there = [s for s in sheets if s.count is None or used[id(s)] < s.count]
        next_one = _next([lay for lay in map(best_of, there) if lay], left, all_priced(plates))
        if next_one is None:
            break
        take(next_one)
    unplaced = [replace(w, count=left[w.blank.name]) for w in group if left[w.blank.name]]
    return layouts, unplaced


def _worth(layout: Layout) -> tuple[float, float, float]:
    """Area laid; then the rest in one piece; then the fewest cuts across the long way."""
    reach = [max(bounds) for bounds in zip(*(_far(p) for p in layout.placements), strict=True)]
    free = max(
        (layout.sheet.length_mm - reach[0]) * layout.sheet.width_mm,
        (layout.sheet.width_mm - reach[1]) * layout.sheet.length_mm,
    )
    return (round(layout.parts_area_mm2, 3), free, -reach[0])


def _far(placement: Placement) -> tuple[float, float]:
    _, _, right, top = bounds(placement.outline)
    return right, top


def _next(found: Sequence[Layout], left: Counter[str], priced: bool) -> Layout | None:
    """The cheapest that takes all the rest, else the one with most area for its price."""
    rest = sum(left.values())
    whole = [lay for lay in found if len(lay.placements) == rest]
    if whole:
        return min(whole, key=lambda lay: (lay.sheet.counts_for(priced), lay.sheet.name))

    def dear(lay: Layout) -> tuple[float, str]:
        area = math.fsum(p.blank.area_mm2 for p in lay.placements)
        return lay.sheet.counts_for(priced) / area, lay.sheet.name

    return min(found, key=dear, default=None)
