"""A job's blanks and lengths laid on its stock: which part comes from what."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from platewheel.cli.job.blanks import other_blanks
from platewheel.cli.job.job import Job
from platewheel.cli.work.not_finished import NotFinished
from platewheel.nesting.offcuts.remnant import Remnant, remnants
from platewheel.nesting.quick.bound import Bound, plate_bounds
from platewheel.nesting.sawing.cut_lengths import CutPlan, Length, Piece, cut_lengths
from platewheel.nesting.search.nest import Effort, nest
from platewheel.nesting.stock.layout import Layout, Nest, Sheet, Wanted, sheets_of
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheel.tread_ring import TREAD


@dataclass(frozen=True)
class Plan:
    """Everything laid: plates, lengths, what stays, and what found no stock."""

    parts: tuple[Part, ...]
    nest: Nest
    lengths: tuple[CutPlan, ...]
    kept: tuple[Remnant, ...]
    short: tuple[Piece, ...]
    tread_length_mm: float
    bounds: tuple[Bound, ...]

    @property
    def layouts(self) -> tuple[Layout, ...]:
        return self.nest.layouts


def plan_job(job: Job, seed: int, report: Callable[[str], None], effort: Effort = "normal") -> Plan:
    """Lay the job's blanks and lengths; nothing is dropped, `lacking` tells what is left over."""
    wheel = job.wheel
    parts = wheel_parts(wheel, disc=job.own_disc)
    found, bounds = _plates(job, parts, seed, report, effort)
    lengths, short = tread_lengths(job, parts[0].blank)
    kept = tuple(p for layout in found.layouts for p in remnants(layout, job.cutting))
    blank = parts[0].blank
    length = blank.sizes["length_mm"] if blank else wheel.tread_width_mm
    return Plan(parts, found, lengths, kept, short, length, bounds)


def plan_parts(
    job: Job, parts: tuple[Part, ...], seed: int, report: Callable[[str], None], effort: Effort
) -> Plan:
    """Lay the sheet blanks of these parts alone; no bar, no pipe."""
    found, bounds = _plates(job, parts, seed, report, effort)
    kept = tuple(p for layout in found.layouts for p in remnants(layout, job.cutting))
    return Plan(parts, found, (), kept, (), 0.0, bounds)


def _plates(
    job: Job, parts: tuple[Part, ...], seed: int, report: Callable[[str], None], effort: Effort
) -> tuple[Nest, tuple[Bound, ...]]:
    """The nest of each steel in turn, the wheel's first, put together."""
    layouts: list[Layout] = []
    unplaced: list[Wanted] = []
    bounds: list[Bound] = []
    for group in groups_of(job, parts):
        found = nest(group.wanted, group.sheets, job.cutting, seed, report, effort)
        layouts += found.layouts
        unplaced += found.unplaced
        bounds += plate_bounds(found.layouts, group.sheets, job.cutting)
    return Nest(tuple(layouts), tuple(unplaced)), tuple(bounds)


@dataclass(frozen=True)
class Group:
    """What is cut from plates of one steel: blanks of the wheels, blanks asked for once."""

    steel: str
    wheel: tuple[Wanted, ...]
    once: tuple[Wanted, ...]
    sheets: tuple[Sheet, ...]

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        return (*self.wheel, *self.once)


def groups_of(job: Job, parts: tuple[Part, ...]) -> list[Group]:
    """A group for each steel, the wheel's first; holes too small to cut are left out."""
    others = other_blanks(job)
    groups = []
    for steel in dict.fromkeys([job.wheel.steel, *(one.steel for one in others)]):
        once = [Wanted(one.blank, one.count, one.turns) for one in others if one.steel == steel]
        wheel = _wheel_blanks(job, parts) if steel == job.wheel.steel else []
        sheets = sheets_of(
            [row for row in job.stock if row.steel == steel],
            [row for row in job.offcuts if row.steel == steel],
        )
        if setup := setup_price(job):
            per_kg = job.costs.steel_price_per_kg or 0.0
            sheets = tuple(replace(s, setup_price=setup, kg_price=per_kg) for s in sheets)
        groups.append(Group(steel, _as_cut(wheel, job), _as_cut(once, job), sheets))
    return groups


def setup_price(job: Job) -> float:
    """Of setting up one plate: by the hour of cutting, or of labour where that has no price."""
    per_h = job.cutting.price_per_h or job.costs.labour_price_per_h or 0.0
    return job.cutting.setup_minutes / 60 * per_h


def _as_cut(wanted: list[Wanted], job: Job) -> tuple[Wanted, ...]:
    return tuple(replace(w, blank=without_small_holes(w.blank, job.cutting)) for w in wanted)


def _wheel_blanks(job: Job, parts: tuple[Part, ...]) -> list[Wanted]:
    """The wheel's blanks that come from sheet; tread strips along it where the job asks that."""
    along = job.cutting.strips_along_sheet
    return [
        Wanted(
            part.blank,
            part.count_per_wheel * job.head.wheels,
            "half" if along and kind_of(part.name) is TREAD else "any",
        )
        for part in parts
        if part.blank and part.cut_from == "sheet"
    ]


def tread_lengths(job: Job, blank: Blank | None) -> tuple[tuple[CutPlan, ...], tuple[Piece, ...]]:
    """How the treads are sawn, and what finds no bar or pipe; nothing where they are of sheet."""
    wheel = job.wheel
    if wheel.tread_from == "sheet":
        return (), ()
    length = blank.sizes["length_mm"] if blank else wheel.tread_width_mm
    piece = Piece(TREAD.name, length, job.head.wheels)
    return cut_lengths([piece], tread_stock(job), job.cutting.kerf_mm)


def tread_stock(job: Job) -> list[Length]:
    """Bars or pipes to hand of the section that the tread is made of."""
    wheel = job.wheel
    if wheel.tread_from == "bar":
        return [
            Length(f"bar {b.width_mm:g} x {b.thickness_mm:g}", b.length_mm, b.count, b.price)
            for b in job.bars
            if (b.width_mm, b.thickness_mm) == (wheel.tread_width_mm, wheel.tread_thickness_mm)
        ]
    return [
        Length(f"pipe {p.outside_mm:g} x {p.wall_mm:g}", p.length_mm, p.count, p.price)
        for p in job.pipes
        if (p.outside_mm, p.wall_mm) == (wheel.tread_diameter_mm, wheel.tread_thickness_mm)
    ]


def lacking(job: Job, plan: Plan) -> list[str]:
    """A line for each blank or length that fits no stock to hand, with what to try."""
    lines = [unplaced_words(job, item) for item in plan.nest.unplaced]
    return [*lines, *(short_words(job, piece) for piece in plan.short)]


def unplaced_words(job: Job, item: Wanted) -> str:
    """That so many of a blank fit no plate to hand."""
    steels = {one.blank.name: one.steel for one in other_blanks(job)}
    sizes = ", ".join(
        f"{s.width_mm:g} x {s.length_mm:g} x {s.thickness_mm:g} {s.steel}" for s in job.stock
    )
    x0, y0, x1, y1 = item.blank.bounds
    return (
        f"{item.blank.name}: {item.count} fit no stock: {item.blank.thickness_mm:g} mm "
        f"{steels.get(item.blank.name, job.wheel.steel)}, {x1 - x0:.1f} x {y1 - y0:.1f} mm; "
        f"stock: {sizes or 'none'}; "
        "try: a [[stock]] of that thickness and steel, a larger sheet or a larger count"
    )


def short_words(job: Job, piece: Piece) -> str:
    """That so many lengths fit no bar or pipe to hand."""
    wheel = job.wheel
    kind = wheel.tread_from
    first = wheel.tread_width_mm if kind == "bar" else wheel.tread_diameter_mm
    here = [row.length_mm for row in (job.bars if kind == "bar" else job.pipes)]
    lengths = ", ".join(f"{length:g}" for length in here) or "none"
    return (
        f"{piece.name}: {so_many(piece.count, 'length')} of {piece.length_mm:.1f} mm "
        f"{noun(piece.count, 'fits', 'fit')} no [[{kind}]] of "
        f"{first:g} x {wheel.tread_thickness_mm:g} mm to hand; lengths of any section: "
        f"{lengths}; try: add one of that section, long enough, or a larger count"
    )


def require_stock(job: Job, plan: Plan) -> None:
    """Raises: NotFinished naming each blank that fits no stock."""
    lines = lacking(job, plan)
    if lines:
        raise NotFinished(lines)
