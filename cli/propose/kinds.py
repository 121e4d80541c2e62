"""Beside the cheapest wheel: two that differ in kind from it, of those that were analysed.

A kind is what a builder may want more than a low price. Each that the analysed wheels offer is
looked for in turn; the first two whose wheel passes a full rating are told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.propose.finalists import finalist
from platewheel.cli.propose.played import found_job
from platewheel.cli.schema.propose import ProposalRow, WheelKind
from platewheel.cli.words.proposal import same
from platewheel.parts.propose.rate_until_known import Found
from platewheel.parts.wheel.assembly import weld_mass_kg, wheel_mass_kg
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheel.spec import WheelSpec

OTHERS = 2  # kinds told beside the cheapest
LESS = 0.9  # of mass or weld metal of the cheapest: a difference that is felt; judgement
MORE = 1.15  # times its load, likewise
ALIKE = 0.02  # of what makes the kind: a proposal so near to the best of it is named


@dataclass(frozen=True)
class Analysed:
    """A wheel that passes and carries the load; `bears` is the mean load, N."""

    row: int
    wheel: WheelSpec
    cost: float
    bears: float


def other_kinds(
    job: Job,
    found: Found | None,
    good: Sequence[ProposalRow],
    pool: Executor,
    reserve: float,
) -> list[ProposalRow]:
    """The proposals `good`, the first named the cheapest, and up to OTHERS of other kinds: marked
    where they are among `good`, else added behind them, rated in full as they are."""
    first = good[0].model_copy(update={"kind": "cheapest"})
    rows, told = [first, *good[1:]], 0
    if found is None:
        return rows
    mean_n = job.setting.static_wheel_load_n
    for kind, one in wanted_kinds(found, first, mean_n):
        if told == OTHERS:
            break
        whole = found_job(job, found, one.row)
        judged: ProposalRow | str | None = _as_good(kind, one, rows, mean_n)
        if judged is None:
            judged = pool.submit(finalist, whole, one.cost, reserve).result()
        if isinstance(judged, str) or judged.kind or kind in {row.kind for row in rows}:
            continue
        named = judged.model_copy(update={"kind": kind})
        there = [k for k, row in enumerate(rows) if same(row, judged)]
        if there:
            rows[there[0]] = named
        else:
            rows.append(named)
        told += 1
    return rows


def by_cost(rows: Sequence[ProposalRow]) -> list[ProposalRow]:
    """Cheapest first, their kinds to be named anew: one of another kind may have turned out cheaper
    with its plates laid than the first."""
    ordered = sorted(rows, key=lambda row: (row.cost_per_wheel, -row.rated_n))
    return [row.model_copy(update={"kind": "", "changes": []}) for row in ordered]


def _as_good(
    kind: WheelKind, one: Analysed, rows: Sequence[ProposalRow], mean_n: float
) -> ProposalRow | None:
    """A proposal that is of this kind already, and hardly worse in it."""
    (differs, rank), now = KINDS[kind], _told(rows[0], mean_n)
    least = rank(one, now)
    for row in rows[1:]:
        there = _told(row, mean_n)
        if not row.kind and differs(there, now) and rank(there, now) <= least + ALIKE * abs(least):
            return row
    return None


def _told(row: ProposalRow, mean_n: float) -> Analysed:
    """A proposal as if it had been analysed: it bears so many times the mean load."""
    bears = row.rated_n / row.load_n * mean_n
    return Analysed(-1, WheelSpec(**row.wheel), row.cost_estimate, bears)


def wanted_kinds(
    found: Found, first: ProposalRow, mean_n: float
) -> Iterator[tuple[WheelKind, Analysed]]:
    """Each kind with the wheels that may be its own, the best of it first; no more than two of a
    kind."""
    rated = dict(zip(found.rows, found.loads_n, strict=True))
    strong = [
        Analysed(row, WheelSpec(**found.wheels.values(row)), float(found.cost[row]), rated[row])
        for row in found.strong
    ]
    now = _told(first, mean_n)
    for kind, (differs, rank) in KINDS.items():
        fit = sorted((one for one in strong if differs(one, now)), key=partial(_key, rank, now))
        for one in fit[:2]:
            yield kind, one


Rank = Callable[[Analysed, Analysed], float]


def _key(rank: Rank, now: Analysed, one: Analysed) -> tuple[float, float, int]:
    return rank(one, now), one.cost, one.row


def plates(wheel: WheelSpec) -> set[float]:
    """Thicknesses of sheet that have to be bought."""
    of_sheet = [kind for kind in kinds_of(wheel) if kind.cut_from(wheel) == "sheet"]
    return {kind.thickness_mm(wheel) for kind in of_sheet}


def _per_money(one: Analysed, now: Analysed) -> float:
    """Less is better: money for a newton more."""
    return (one.cost - now.cost) / (one.bears - now.bears)


# kind -> whether a wheel is of it beside the first, and what of it is least in the best
KINDS: dict[WheelKind, tuple[Callable[[Analysed, Analysed], bool], Rank]] = {
    "other stock": (
        lambda one, now: one.wheel.tread_from != now.wheel.tread_from,
        lambda one, now: one.cost,
    ),
    "most reserve for its money": (
        lambda one, now: one.bears >= MORE * now.bears,
        _per_money,
    ),
    "lightest": (
        lambda one, now: wheel_mass_kg(one.wheel) <= LESS * wheel_mass_kg(now.wheel),
        lambda one, now: wheel_mass_kg(one.wheel),
    ),
    "least welding": (
        lambda one, now: weld_mass_kg(one.wheel) <= LESS * weld_mass_kg(now.wheel),
        lambda one, now: weld_mass_kg(one.wheel),
    ),
    "fewest plates": (
        lambda one, now: len(plates(one.wheel)) < len(plates(now.wheel)),
        lambda one, now: len(plates(one.wheel)),
    ),
}
