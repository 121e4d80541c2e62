"""The search itself: wheels that pass the closed forms, and those of them that are strong.

Where those that no check warns of are all too weak, the warning that opens most is let in, and
told: a builder would look at it and build.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.money.cost_estimate import estimate_parts
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.cli.propose.why_none import titles_of
from platewheel.cli.work.progress import Steps
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.let_in import coarser, opened, warning_checks
from platewheel.parts.propose.rate_until_known import Found, find_wheels, needed_n, prices
from platewheel.parts.propose.screening import Check
from platewheel.parts.propose.sifting import Sifted, sifted, sifted_at_last
from platewheel.parts.propose.strength_sizes import COARSE_ENOUGH, coarse_limits
from platewheel.parts.setting.setting import Setting

OTHER_PLAY = (
    "the job has no [axle], and with the usual play no wheel passes: these have another, as "
    "back_to_back_mm in [axle]; with that section the wheelset is made and checked too"
)
MOST_OPENED = 4  # checks whose wheels are analysed, of those that open any


@dataclass(frozen=True)
class Searched:
    """What was asked and found of a job; `found` is None where no wheel passes the closed forms.
    `job` has [axle] where another play than the usual one had to be tried."""

    job: Job
    choices: Choices
    checks: tuple[Check, ...]
    sift: Sifted
    found: Found | None = None
    notes: tuple[str, ...] = ()


def screened(job: Job, wanted: Wanted) -> Searched:
    """The wheels that pass the closed forms. A job without [axle] keeps the usual play, as setting
    another in [axle] has the wheelset checked too: that is done, and told, where none passes."""
    choices, checks = job_choices(job, wanted), asked_checks(job)
    sift = sifted_at_last(job.setting, choices, checks)
    if job.has_axle or sift.wheels.count:
        return Searched(job, choices, checks, sift)
    with_axle = replace(job, has_axle=True)
    other, more = job_choices(with_axle, wanted), asked_checks(with_axle)
    again = sifted_at_last(job.setting, other, more)
    if again.wheels.count:
        return Searched(with_axle, other, more, again, notes=(OTHER_PLAY,))
    return Searched(job, choices, checks, sift)


def analysed(searched: Searched, wanted: Wanted, pool: Executor, step: Steps) -> Searched:
    """With the strong ones of its wheels found."""
    if not searched.sift.wheels.count:
        return searched
    step("stress analysis")
    job, sift = searched.job, searched.sift
    found = find_wheels(
        job.setting,
        sift,
        prices(sift.wheels, tuple(estimate_parts(job).values())),
        partial(mapped, pool),
        wanted=wanted.proposals,
        most=wanted.analyses,
        reserve=wanted.reserve,
    )
    return replace(searched, found=found)


def let_in(searched: Searched, wanted: Wanted, pool: Executor, step: Steps) -> Searched | None:
    """The search again with the warning let in that gives the strongest wheels, or two of them
    together; None where those analysed are too weak still."""
    weak = searched.found
    if weak is None:
        return None
    step("wheels that a check warns of")
    setting, checks = searched.job.setting, searched.checks
    need = needed_n(setting, wanted.reserve)
    ask = partial(_opened, searched.job, wanted)
    names = warning_checks(searched.sift.sieves)
    count, *others = pool.map(ask, [(), *((name,) for name in names)])
    wide = [(one, *more) for one, more in zip(names, others, strict=True) if more[0] > count[0]]
    wide = sorted(wide, key=lambda row: -row[1])[:MOST_OPENED]
    ranked = _ranked(pool, [((name,), strong) for name, _, strong in wide])
    if len(ranked) > 1 and ranked[0][0] < COARSE_ENOUGH * need:
        both = (*ranked[0][1], *ranked[1][1])
        ranked = _ranked(pool, [(both, pool.submit(ask, both).result()[1])])
    if not ranked or ranked[0][0] < COARSE_ENOUGH * need:
        return None
    allowed = ranked[0][1]
    sift = sifted(setting, searched.choices, checks, allowed=allowed)
    again = analysed(replace(searched, sift=sift), wanted, pool, step)
    if again.found is None or not again.found.strong:
        return None
    share = 100 * max(weak.loads_n, default=0.0) / need
    named = " and ".join(titles_of(searched.job, allowed, checks))
    note = (
        f"no wheel that is free of warnings bears the load: the strongest analysed bears "
        f"{share:.0f} % of it with the reserve; these may be warned of by: {named}"
    )
    found = replace(again.found, analyses=again.found.analyses + weak.analyses)
    return replace(again, found=found, notes=(*searched.notes, note))


def _opened(job: Job, wanted: Wanted, allowed: Collection[str]) -> tuple[int, list[Setting]]:
    """See `opened`: a worker has no checks but its own."""
    return opened(job.setting, coarser(job_choices(job, wanted)), asked_checks(job), allowed)


Ranked = list[tuple[float, tuple[str, ...]]]  # mean load that the strongest bears, N; what may warn


def _ranked(pool: Executor, wide: Sequence[tuple[tuple[str, ...], Sequence[Setting]]]) -> Ranked:
    """Sets of checks by the strongest wheel that each lets in, by coarse analyses."""
    each = [(names, setting) for names, strong in wide for setting in strong]
    limits = mapped(pool, [setting for _, setting in each])
    bears: dict[tuple[str, ...], float] = {}
    for (names, _), found in zip(each, limits, strict=True):
        bears[names] = max(bears.get(names, 0.0), min(found.values(), default=0.0))
    return sorted(((load, names) for names, load in bears.items()), reverse=True)


def mapped(pool: Executor, settings: Sequence[Setting]) -> list[dict[str, float]]:
    """Coarse limits of several wheels, on the workers."""
    return list(pool.map(coarse_limits, settings))
