"""Blanks of a job onto its plates, at least cost: the one entry of the search.

Each thickness is planned by itself: a quick plan first, then, by `effort`, fuller plates, an
integer programme over all patterns found, and the last plate pressed together so that the
largest rectangle stays. By hand blanks lie in rows and columns instead. Every layout is verified on
its true arcs before it is returned.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from platewheel.nesting.by_hand.plan import rows_plan
from platewheel.nesting.quick.part_in_part import guests_of, with_guests
from platewheel.nesting.search.best_plan import Search, best_plan
from platewheel.nesting.search.blocks import Laid, laid_in_blocks
from platewheel.nesting.search.fuller import Press
from platewheel.nesting.stock.layout import Nest, NestingError, Report, Sheet, Wanted
from platewheel.nesting.stock.pierce_clear import laid_for_leads, spacing_words
from platewheel.nesting.stock.stock import Cutting
from platewheel.nesting.verify.verify import verify

Effort = Literal["quick", "normal", "thorough"]
EFFORTS: dict[Effort, Search] = {
    "quick": Search(orders=(12, 6), moves=0, per_try=0, press=Press(0, 0, 1.0)),
    "normal": Search(orders=(12, 6), moves=2000, per_try=500, press=Press(4000, 50, 0.002)),
    "thorough": Search(
        orders=(100, 30), moves=64000, per_try=8000, press=Press(40000, 100, 0.0005)
    ),
}


def nest(
    wanted: Sequence[Wanted],
    stock: Sequence[Sheet],
    cutting: Cutting,
    seed: int = 0,
    report: Report = lambda text: None,
    effort: Effort = "normal",
) -> Nest:
    """Lay all blanks; what fits no plate to hand is returned as unplaced, never dropped.

    Ctrl-C in a command ends the search of a thickness that has a plan already, and keeps the best
    found (`parts/base/interruptible.py`).
    Raises: NestingError where two blanks share a name, or where a finished layout fails its
    verification (a fault of ours).
    """
    names = [item.blank.name for item in wanted]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise NestingError(f"blanks are told apart by name: {', '.join(twice)} comes twice")
    layouts = []
    unplaced = []
    for thickness in sorted({item.blank.thickness_mm for item in wanted}):
        group = [w for w in wanted if w.blank.thickness_mm == thickness and w.count]
        plates = [sheet for sheet in stock if sheet.thickness_mm == thickness]
        report(f"nesting {thickness:g} mm")
        for line in spacing_words(cutting, thickness, [w.blank.name for w in group]):
            report(line)
        apart = laid_for_leads(cutting, thickness)
        task = _Task(plates, apart, seed, report, effort)
        if cutting.process == "hand":
            done, left = rows_plan(group, plates, apart)
        elif cutting.common_lines:
            done, left = laid_in_blocks(task.laid, group, plates, apart)
        else:
            done, left = task.laid(group)
        layouts += done
        unplaced += _together(left)
    for layout in layouts:
        apart = laid_for_leads(cutting, layout.sheet.thickness_mm)
        verify(layout, apart.part_spacing_mm, apart.sheet_margin_mm, kerf_mm=cutting.kerf_mm)
    if cutting.process == "hand":  # strips lie a kerf apart, their line is a straight cut
        layouts = [replace(layout, shared=()) for layout in layouts]
    return Nest(tuple(layouts), tuple(unplaced))


@dataclass(frozen=True)
class _Task:
    """The plates of one thickness, and how blanks are laid on them."""

    plates: Sequence[Sheet]
    cutting: Cutting
    seed: int
    report: Report
    effort: Effort

    def laid(self, group: Sequence[Wanted], whole: bool = True) -> Laid:
        """Layouts, and what fits no plate; not `whole`: by the quick plan alone."""
        search = EFFORTS[self.effort if whole else "quick"]
        open_air, guests = guests_of(group, self.cutting.part_spacing_mm)
        done, left = best_plan(open_air, self.plates, self.cutting, self.seed, search, self.report)
        done, missing = with_guests(done, guests)
        return done, [*left, *missing]


def _together(left: Sequence[Wanted]) -> list[Wanted]:
    """Each blank once."""
    counts = Counter[str]()
    for item in left:
        counts[item.blank.name] += item.count
    firsts = {item.blank.name: item for item in reversed(left)}
    return [replace(firsts[name], count=count) for name, count in counts.items()]
