"""The whole wheels that the steel to hand holds, and what the others lack."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import (
    Group,
    Plan,
    groups_of,
    lacking,
    short_words,
    tread_lengths,
    tread_stock,
    unplaced_words,
)
from platewheel.cli.work.not_finished import NotFinished
from platewheel.nesting.offcuts.remnant import remnants
from platewheel.nesting.quick.bound import plate_bounds
from platewheel.nesting.sawing.cut_lengths import Piece, cut_lengths
from platewheel.nesting.search.most_kits import Kits, most_kits, trimmed
from platewheel.nesting.search.nest import Effort, nest
from platewheel.nesting.stock.layout import Layout, Nest, Sheet, Wanted
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.wheel.kinds import kind_of


@dataclass(frozen=True)
class Settled:
    """A job as it can be cut: all its wheels, or those that the stock holds.

    `job` makes so many wheels as `plan` has; `told` says what was left out.
    """

    job: Job
    plan: Plan
    told: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Held:
    """One thickness of a steel: what one wheel takes of it, what is cut once, what it holds.

    `lost`: parts asked for once that find no room; `never`: blanks that no plate of it holds.
    """

    group: Group
    thickness_mm: float
    kit: tuple[Wanted, ...]
    once: tuple[Wanted, ...]
    kits: Kits
    lost: tuple[Wanted, ...] = ()
    never: tuple[Wanted, ...] = ()

    @property
    def sheets(self) -> list[Sheet]:
        return [s for s in self.group.sheets if s.thickness_mm == self.thickness_mm]


@dataclass(frozen=True)
class _Look:
    """The job, and how to look for room."""

    job: Job
    plan: Plan
    seed: int
    report: Callable[[str], None]
    effort: Effort

    @property
    def asked(self) -> int:
        return self.job.head.wheels

    def nest(
        self, wanted: Sequence[Wanted], sheets: Sequence[Sheet], effort: Effort = "quick"
    ) -> Nest:
        return nest(wanted, sheets, self.job.cutting, self.seed, self.report, effort)


def settled(
    job: Job,
    plan: Plan,
    seed: int,
    report: Callable[[str], None],
    effort: Effort,
    *,
    what_fits: bool,
) -> Settled:
    """The job and its plan where the stock holds all; else, if `what_fits`, with the most whole
    wheels that it holds. Parts and gauges that are asked for once are laid first.

    Raises: NotFinished telling how many wheels the stock holds, what is missing and what would
    hold it; also where not one wheel, or not all that is asked for once, finds room.
    """
    if not lacking(job, plan):
        return Settled(job, plan)
    look = _Look(job, plan, seed, report, effort)
    held = [
        _held(look, group, thickness)
        for group in groups_of(job, plan.parts)
        for thickness in sorted({w.blank.thickness_mm for w in group.wanted})
    ]
    short = sum(piece.count for piece in plan.short)
    wheels = min([look.asked - short, *(one.kits.count for one in held if one.kit)])
    told = f"the stock holds {wheels} of {so_many(look.asked, 'wheel')}"
    lines = [line for one in held for line in _missing(look, one)]
    lines += [_short(job, piece) for piece in plan.short]
    once = any(one.lost or (one.never and not one.kit) for one in held)
    if wheels and not once:
        if what_fits:
            return Settled(*_fewer(look, held, wheels), (told, *lines))
        lines.insert(0, f"{told}; --what-fits plans those")
    elif wheels:
        lines.insert(0, f"{told}, and not all that is asked for once")
    raise NotFinished(lines)


def _held(look: _Look, group: Group, thickness_mm: float) -> _Held:
    """How many wheels' blanks the plates of this thickness hold, the search and all."""
    wanted = [w for w in group.wanted if w.blank.thickness_mm == thickness_mm and w.count]
    wheel = {w.blank.name for w in group.wheel}
    kit = [replace(w, count=w.count // look.asked) for w in wanted if w.blank.name in wheel]
    once = [w for w in wanted if w.blank.name not in wheel]
    known = [
        lay
        for lay in look.plan.layouts
        if (lay.sheet.thickness_mm, lay.sheet.steel) == (thickness_mm, group.steel)
    ]
    names = {w.blank.name for w in wanted}
    left = {w.blank.name: w for w in look.plan.nest.unplaced if w.blank.name in names}
    one = _Held(group, thickness_mm, tuple(kit), tuple(once), Kits(look.asked, tuple(known)))
    if not left:
        return one
    alone = [replace(w, count=1) for w in wanted]
    endless = [replace(sheet, count=None) for sheet in one.sheets]
    nowhere = {w.blank.name for w in look.nest(alone, endless).unplaced}
    never = tuple(w for name, w in left.items() if name in nowhere)
    if never:
        return replace(one, kits=Kits(0, ()), never=never)
    lost: tuple[Wanted, ...] = ()
    if any(w.blank.name in left for w in once):
        lost = look.nest(once, one.sheets, look.effort).unplaced
    over = Counter({w.blank.name: w.count for w in lost})
    laid = [replace(w, count=w.count - over[w.blank.name]) for w in once]
    if not kit:
        return replace(one, lost=lost)
    kits = most_kits(
        kit,
        [w for w in laid if w.count],
        look.asked,
        known,
        one.sheets,
        look.job.cutting,
        look.seed,
        look.report,
        look.effort,
    )
    return replace(one, once=tuple(laid), kits=kits, lost=lost)


def _missing(look: _Look, one: _Held) -> Iterator[str]:
    """What the plates of one thickness lack, and how many more would hold it."""
    yield from (unplaced_words(look.job, w) for w in one.never)
    wheels = look.asked - one.kits.count
    missing = [replace(w, count=w.count * wheels) for w in one.kit if wheels]
    missing += one.lost
    if one.never or not missing:
        return
    bought = [replace(s, count=None) for s in one.sheets if not s.is_offcut]
    more = look.nest(missing, bought)
    if more.unplaced:  # only offcuts have room for it
        yield from (unplaced_words(look.job, w) for w in more.unplaced)
        return
    plates = Counter[str]()
    for layout in more.layouts:
        plates[layout.sheet.name] += layout.repeat
    whom = f" for {_counted(wheels, 'wheel')}" if wheels else ""
    yield (
        f"{one.thickness_mm:g} mm {one.group.steel}: "
        f"{_listed([_counted(w.count, w.blank.name) for w in missing])} missing{whom}; "
        f"{_more(plates, 'sheet')}; try: a larger count of that [[stock]]"
    )


def _short(job: Job, piece: Piece) -> str:
    """The same for lengths."""
    endless = [replace(length, count=None) for length in tread_stock(job)]
    more, left = cut_lengths([piece], endless, job.cutting.kerf_mm)
    if left:
        return short_words(job, piece)
    lengths = Counter[str]()
    for cut in more:
        lengths[f"{cut.stock.name} mm, {cut.stock.length_mm:g} long"] += cut.repeat
    return (
        f"{piece.name}: {_counted(piece.count, 'length')} of {piece.length_mm:.1f} mm missing for "
        f"{_counted(piece.count, 'wheel')}; {_more(lengths, '')}; "
        f"try: a larger count of that [[{job.wheel.tread_from}]]"
    )


def _more(stock: Counter[str], what: str) -> str:
    """`one more sheet 1250 x 2500 holds them`."""
    words = []
    for name, count in stock.items():
        kind = f"{noun(count, what)} " if what else ""
        words.append(f"{'one' if count == 1 else count} more {kind}{name}")
    return f"{_listed(words)} {noun(sum(stock.values()), 'holds', 'hold')} them"


def _counted(count: int, name: str) -> str:
    many = count > 1 and (kind_of(name) or name in ("wheel", "length"))
    return f"{count} {name}{'s' if many else ''}"


def _listed(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _fewer(look: _Look, held: Sequence[_Held], wheels: int) -> tuple[Job, Plan]:
    """The job of so many wheels, laid anew where it was to be of more."""
    job, plan = look.job, look.plan
    job = replace(job, head=unchecked(job.head, {"wheels": wheels}))
    layouts: list[Layout] = []
    for one in held:
        if not one.kit or one.kits.count == wheels:
            layouts += one.kits.layouts
            continue
        wanted = [*(replace(w, count=w.count * wheels) for w in one.kit), *one.once]
        found = look.nest(wanted, one.sheets, look.effort)
        counts = Counter({w.blank.name: w.count for w in wanted})
        layouts += trimmed(one.kits.layouts, counts) if found.unplaced else found.layouts
    lengths, _ = tread_lengths(job, plan.parts[0].blank)
    kept = tuple(piece for layout in layouts for piece in remnants(layout, job.cutting))
    bounds = [
        bound
        for group in groups_of(job, plan.parts)
        for bound in plate_bounds(
            [lay for lay in layouts if lay.sheet.steel == group.steel], group.sheets, job.cutting
        )
    ]
    return job, replace(
        plan,
        nest=Nest(tuple(layouts)),
        lengths=lengths,
        kept=kept,
        short=(),
        bounds=tuple(bounds),
    )
