"""From track and load to a wheel: every wheel that the shop could make, screened, rated, priced."""

from __future__ import annotations

from concurrent.futures import Executor
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.money.cost_estimate import anything_priced
from platewheel.cli.propose.cheaper_steps import cheaper_steps
from platewheel.cli.propose.finalists import finalists
from platewheel.cli.propose.kinds import by_cost, other_kinds
from platewheel.cli.propose.own_wheel import own_wheel, with_own
from platewheel.cli.propose.plain_disc import require_plain_disc
from platewheel.cli.propose.played import proposed_job
from platewheel.cli.propose.rows import flare_rows, trade_rows
from platewheel.cli.propose.search import Searched, analysed, let_in, mapped, screened
from platewheel.cli.propose.smallest_set import smallest_sets
from platewheel.cli.propose.wanted import Wanted
from platewheel.cli.propose.why_none import held_back, too_weak, why_none
from platewheel.cli.schema.propose import ProposalRow, ProposeReport, SieveRow
from platewheel.cli.words.proposal import same
from platewheel.cli.words.proposal_lessons import lessons
from platewheel.cli.work.beside import beside
from platewheel.cli.work.progress import Steps
from platewheel.parts.base.interruptible import kept
from platewheel.parts.base.so_many import so_many
from platewheel.parts.propose.sifting import Sifted

MOST_FIRSTS = 2  # wheels taken as the first: one of another kind may turn out cheaper
NONE_BUT_OWN = "the search found no wheel that passes; the wheel of the job file does"


def propose(job: Job, wanted: Wanted, step: Steps) -> ProposeReport:
    """Wheels that pass every check, cheapest first; or why none does. Deterministic. Raises:
    SpecError for a job with a disc of its own."""
    require_plain_disc(job, "propose")
    with beside(wanted.workers) as pool:
        asked = pool.submit(own_wheel, job, wanted.reserve, briefly=False)
        step("screening")
        search = screened(job, wanted)
        if search.job is not job or not search.sift.wheels.count:
            none = not search.sift.wheels.count
            asked = pool.submit(own_wheel, search.job, wanted.reserve, none)
        search = analysed(search, wanted, pool, step)
        good, own = with_own((), asked.result(), wanted.proposals)
        if not good and not (search.found and search.found.strong):
            search = let_in(search, wanted, pool, step) or search
        job, choices, sift, found = search.job, search.choices, search.sift, search.found
        stopped = bool(found and found.stopped)
        base: dict[str, object] = {
            "job": job.head.name,
            "currency": job.costs.currency,
            "not_priced": not anything_priced(job),
            "choices": choices.wheels,
            "judged": sift.judged,
            "screened": sift.wheels.count,
            "analysed": found.analyses if found else 0,
            "mean_load_n": job.setting.static_wheel_load_n,
            "stopped": stopped,
            "own": own,
            "proposals": [],
            "notes": list(search.notes),
            "trade": trade_rows(found) if found else [],
            "flare": [],
            "sieves": _sieve_rows(sift),
            "refused": [],
            "left_out": [],
        }

        def report(**more: object) -> ProposeReport:
            return ProposeReport.model_validate(base | more)

        if found is None and not good:
            step("what would help")
            lines = why_none(job, choices, search.checks, _sieve_rows(sift))
            return report(refused=lines + smallest_sets(job, wanted, pool))
        if found and not found.strong and not good:
            step("what would help")
            lines = too_weak(job, found, wanted, held_back(job, sift, search.checks))
            return report(refused=lines + smallest_sets(job, wanted, pool))
        left_out = [NONE_BUT_OWN]
        if found and found.strong:
            step("plates and full analysis")
            rows, left_out, stopped = finalists(job, found, wanted.proposals, pool, wanted.reserve)
            good, own = with_own(rows, own, wanted.proposals)
        if not good:
            words = ["no finalist passes in full: raise --analyses"]
            return report(refused=words, left_out=left_out, own=own, stopped=stopped)
        if not stopped:
            good, left_out, stopped = _looked_beside(search, good, left_out, wanted, pool, step)
        if stopped:  # not looked for: the first is named alone
            good = other_kinds(job, None, by_cost(good), pool, wanted.reserve)
        first = good[0]
        ranked = [row.model_copy(update={"rank": k + 1}) for k, row in enumerate(good)]
        money = job.costs.currency if anything_priced(job) else "kg of steel"
        return report(
            own=own,
            stopped=stopped,
            proposals=[
                row.model_copy(update={"lessons": lessons(row, ranked, money)}) for row in ranked
            ],
            left_out=left_out,
            flare=flare_rows(proposed_job(job, first)),
        )


def _looked_beside(
    search: Searched,
    good: list[ProposalRow],
    left_out: list[str],
    wanted: Wanted,
    pool: Executor,
    step: Steps,
) -> tuple[list[ProposalRow], list[str], bool]:
    """The proposals with what is cheaper one step away, and what is of other kinds; what else is
    left out; whether Ctrl-C has ended it, with what was known by then."""
    limits = partial(mapped, pool)
    try:
        for _ in range(MOST_FIRSTS):
            step("one step away")
            first, too = cheaper_steps(search.job, search.choices, good[0], limits, wanted.reserve)
            left_out = [*left_out, *(line for line in too if line not in left_out)]
            step("other kinds")
            good = [first, *(row for row in good[1:] if not same(row, first))]
            good = other_kinds(search.job, search.found, good, pool, wanted.reserve)
            if good[0].cost_per_wheel <= min(row.cost_per_wheel for row in good):
                break
            good = by_cost(good)
    except KeyboardInterrupt:
        kept(f"the proposal of {so_many(len(good), 'wheel')} found")
        return good, left_out, True
    return good, left_out, False


def _sieve_rows(sift: Sifted) -> list[SieveRow]:
    return [SieveRow.of(sieve) for sieve in sift.sieves]
