"""The most whole kits that the plates of one thickness hold, where they do not hold all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.search.compaction import without
from platewheel.nesting.search.nest import Effort, nest
from platewheel.nesting.stock.layout import Layout, Report, Sheet, Wanted
from platewheel.nesting.stock.shared_lines import still_shared
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.base.so_many import so_many


@dataclass(frozen=True)
class Kits:
    """So many kits, and the layouts that hold them with all that is cut once; `nests` tried."""

    count: int
    layouts: tuple[Layout, ...]
    nests: int = 0


def most_kits(
    kit: Sequence[Wanted],
    once: Sequence[Wanted],
    below: int,
    known: Sequence[Layout],
    stock: Sequence[Sheet],
    cutting: Cutting,
    seed: int,
    report: Report,
    effort: Effort,
) -> Kits:
    """The most kits, fewer than `below`, that the nester lays beside all of `once`.

    `kit` counts the blanks of one kit. From the whole kits among the `known` layouts on, the number
    is raised by steps that double, then halved down to it: quickly first, then by `effort` from
    what that found. So at most four nests for each doubling of the kits. A number that the nester
    misses ends the search there: more kits might go by hand. Raises: NestingError as `nest`.
    """
    laid = laid_of(known)
    best = Kits(0, ())
    if all(laid[w.blank.name] >= w.count for w in once):
        count = min([below - 1, *(laid[w.blank.name] // w.count for w in kit)])
        best = Kits(count, trimmed(known, _counts(kit, once, count)))
    else:
        done = nest(once, stock, cutting, seed, report, effort)
        if done.unplaced:
            return best
        best = Kits(0, done.layouts, 1)
    top = min(below, _by_area(kit, once, stock) + 1)
    efforts: tuple[Effort, ...] = ("quick", effort)
    for how in dict.fromkeys(efforts):
        high, step, grows = top, 1, True
        while best.count + 1 < high:
            count = min(best.count + step, high - 1)
            report(f"{so_many(count, 'whole kit')} tried")
            wanted = [*(replace(w, count=w.count * count) for w in kit), *once]
            done = nest(wanted, stock, cutting, seed, report, how)
            if done.unplaced:
                high, grows = count, False
                best = replace(best, nests=best.nests + 1)
            else:
                best = Kits(count, done.layouts, best.nests + 1)
            step = 2 * step if grows else max(1, (high - best.count) // 2)
    return best


def _counts(kit: Sequence[Wanted], once: Sequence[Wanted], kits: int) -> Counter[str]:
    counts = Counter({w.blank.name: w.count * kits for w in kit})
    counts.update({w.blank.name: w.count for w in once})
    return counts


def _by_area(kit: Sequence[Wanted], once: Sequence[Wanted], stock: Sequence[Sheet]) -> int:
    """Kits that no nest has more of: the plates' steel over the parts' own, holes taken off."""
    if any(sheet.count is None for sheet in stock):
        return max(10**6, 1)
    steel = sum(sheet.area_mm2 * (sheet.count or 0) for sheet in stock)
    steel -= sum(w.blank.area_mm2 * w.count for w in once)
    return max(0, int(steel / sum(w.blank.area_mm2 * w.count for w in kit)))


def laid_of(layouts: Sequence[Layout]) -> Counter[str]:
    """Blanks on all plates, by name."""
    laid = Counter[str]()
    for layout in layouts:
        for name, count in layout.counts.items():
            laid[name] += count * layout.repeat
    return laid


def trimmed(layouts: Sequence[Layout], counts: Mapping[str, int]) -> tuple[Layout, ...]:
    """The layouts less all that is more than `counts`, taken from the last plates first."""
    surplus = laid_of(layouts)
    surplus.subtract(counts)
    done: list[Layout] = []
    for layout in reversed(layouts):
        whole = layout.repeat
        while whole and any(surplus[name] > 0 for name in layout.counts):
            whole -= 1
            kept = without(layout.placements, surplus)
            if kept:
                done.append(Layout(layout.sheet, kept, shared=still_shared(layout, kept)))
        if whole:
            done.append(replace(layout, repeat=whole))
    return tuple(reversed(done))
