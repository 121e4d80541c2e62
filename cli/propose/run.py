"""From track and load to a wheel: every wheel that the shop could make, screened, rated, priced."""

from __future__ import annotations

import time
from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import replace
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.money.cost_estimate import anything_priced, estimate_parts
from platewheel.cli.propose.cheaper_steps import cheaper_steps
from platewheel.cli.propose.finalists import finalists
from platewheel.cli.propose.kinds import by_cost, other_kinds
from platewheel.cli.propose.own_wheel import own_wheel, with_own
from platewheel.cli.propose.played import proposed_job
from platewheel.cli.propose.rows import flare_rows, trade_rows
from platewheel.cli.propose.smallest_set import smallest_sets
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.cli.propose.why_none import held_back, too_weak, why_none
from platewheel.cli.schema.propose import ProposeReport, SieveRow
from platewheel.cli.words.proposal import same
from platewheel.cli.words.proposal_lessons import lessons
from platewheel.cli.work.beside import beside
from platewheel.cli.work.progress import Steps
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.rate_until_known import Found, find_wheels, prices
from platewheel.parts.propose.screening import Check
from platewheel.parts.propose.sifting import Sifted, sifted_at_last
from platewheel.parts.propose.strength_sizes import coarse_limits
from platewheel.parts.setting.setting import Setting

OTHER_PLAY = (
    "the job has no [axle], and with the usual play no wheel passes: these have another, as "
    "back_to_back_mm in [axle]; with that section the wheelset is made and checked too"
)
MOST_FIRSTS = 2  # wheels taken as the first: one of another kind may turn out cheaper
NONE_BUT_OWN = "the search found no wheel that passes; the wheel of the job file does"


def propose(job: Job, wanted: Wanted, step: Steps) -> ProposeReport:
    """Wheels that pass every check, cheapest first; or why none does. Deterministic."""
    started = time.perf_counter()
    step("screening")
    with beside(wanted.workers) as pool:
        own_job, asked = job, pool.submit(own_wheel, job, wanted.reserve, briefly=False)
        job, choices, checks, sift, notes = screened(job, wanted)
        if job is not own_job or not sift.wheels.count:
            asked = pool.submit(own_wheel, job, wanted.reserve, not sift.wheels.count)
        found = _analysed(job, sift, wanted, pool, step) if sift.wheels.count else None
        good, own = with_own((), asked.result(), wanted.proposals)
        base: dict[str, object] = {
            "job": job.head.name,
            "currency": job.costs.currency,
            "not_priced": not anything_priced(job),
            "choices": choices.wheels,
            "judged": sift.judged,
            "screened": sift.wheels.count,
            "analysed": found.analyses if found else 0,
            "mean_load_n": job.setting.static_wheel_load_n,
            "stopped": bool(found and found.stopped),
            "own": own,
            "proposals": [],
            "notes": notes,
            "trade": trade_rows(found) if found else [],
            "flare": [],
            "sieves": _sieve_rows(sift),
            "refused": [],
            "left_out": [],
        }

        def report(**more: object) -> ProposeReport:
            seconds = round(time.perf_counter() - started, 1)
            return ProposeReport.model_validate(base | {"seconds": seconds} | more)

        if found is None and not good:
            step("what would help")
            lines = why_none(job, choices, checks, _sieve_rows(sift))
            return report(refused=lines + smallest_sets(job, wanted, pool))
        if found and not found.strong and not good:
            step("what would help")
            lines = too_weak(job, found, wanted, held_back(job, sift, checks))
            return report(refused=lines + smallest_sets(job, wanted, pool))
        left_out = [NONE_BUT_OWN]
        if found and found.strong:
            step("plates and full analysis")
            rows, left_out = finalists(job, found, wanted.proposals, pool, wanted.reserve)
            good, own = with_own(rows, own, wanted.proposals)
        if not good:
            words = ["no finalist passes in full: raise --analyses"]
            return report(refused=words, left_out=left_out, own=own)
        step("one step away")
        mapped = partial(_mapped, pool)
        for _ in range(MOST_FIRSTS):
            first, too = cheaper_steps(job, choices, good[0], mapped, wanted.reserve)
            left_out = [*left_out, *(line for line in too if line not in left_out)]
            step("other kinds")
            good = [first, *(row for row in good[1:] if not same(row, first))]
            good = other_kinds(job, found, good, pool, wanted.reserve)
            if good[0].cost_per_wheel <= min(row.cost_per_wheel for row in good):
                break
            good = by_cost(good)
        first = good[0]
        ranked = [row.model_copy(update={"rank": k + 1}) for k, row in enumerate(good)]
        money = job.costs.currency if anything_priced(job) else "kg of steel"
        return report(
            own=own,
            proposals=[
                row.model_copy(update={"lessons": lessons(row, ranked, money)}) for row in ranked
            ],
            left_out=left_out,
            flare=flare_rows(proposed_job(job, first)),
        )


def screened(job: Job, wanted: Wanted) -> tuple[Job, Choices, tuple[Check, ...], Sifted, list[str]]:
    """The wheels that pass the closed forms. A job without [axle] keeps the usual play, as setting
    another in [axle] has the wheelset checked too: that is done, and told, where none passes."""
    choices, checks = job_choices(job, wanted), asked_checks(job)
    sift = sifted_at_last(job.setting, choices, checks)
    if job.has_axle or sift.wheels.count:
        return job, choices, checks, sift, []
    with_axle = replace(job, has_axle=True)
    other, more = job_choices(with_axle, wanted), asked_checks(with_axle)
    again = sifted_at_last(job.setting, other, more)
    if again.wheels.count:
        return with_axle, other, more, again, [OTHER_PLAY]
    return job, choices, checks, sift, []


def _analysed(job: Job, sift: Sifted, wanted: Wanted, pool: Executor, step: Steps) -> Found:
    step("stress analysis")
    return find_wheels(
        job.setting,
        sift,
        prices(sift.wheels, tuple(estimate_parts(job).values())),
        partial(_mapped, pool),
        wanted=wanted.proposals,
        most=wanted.analyses,
        reserve=wanted.reserve,
    )


def _sieve_rows(sift: Sifted) -> list[SieveRow]:
    return [
        SieveRow(check=s.check, came=s.came, passed=s.passed, warned=s.warned) for s in sift.sieves
    ]


def _mapped(pool: Executor, settings: Sequence[Setting]) -> list[dict[str, float]]:
    """Coarse limits of several wheels, on the workers."""
    return list(pool.map(coarse_limits, settings))
