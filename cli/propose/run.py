"""From track and load to a wheel: every wheel that the shop could make, screened, rated, priced."""

from __future__ import annotations

import time
from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.money.cost_estimate import anything_priced, estimate_parts
from platewheel.cli.propose.cheaper_steps import cheaper_steps
from platewheel.cli.propose.finalists import finalists
from platewheel.cli.propose.own_wheel import own_wheel, with_own
from platewheel.cli.propose.rows import flare_rows, trade_rows
from platewheel.cli.propose.what_helps import lighter_payload, smallest_changes
from platewheel.cli.schema.propose import ProposeReport, SieveRow
from platewheel.cli.work.beside import beside
from platewheel.cli.work.progress import Steps
from platewheel.parts.checks.axle_screening import CHECKS as AXLE_CHECKS
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.propose.choices import Choices, shop_choices
from platewheel.parts.propose.rate_until_known import Found, find_wheels, needed_n, prices
from platewheel.parts.propose.screening import Check
from platewheel.parts.propose.sifting import Sifted, sifted_at_last
from platewheel.parts.propose.strength_sizes import coarse_limits
from platewheel.parts.propose.track_advice import never_passed, running_choices, track_advice
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

MOST_TITLES = 3  # of checks told
NONE_BUT_OWN = "the search found no wheel that passes; the wheel of the job file does"


@dataclass(frozen=True)
class Wanted:
    """How far and how hard is searched; counted work, never seconds."""

    least_diameter_mm: float
    most_diameter_mm: float
    step_mm: float = 20.0
    proposals: int = 4
    analyses: int = 72
    workers: int = 2
    reserve: float = 0.1  # of the rating over the load, for what drawings do not know


def job_choices(job: Job, wanted: Wanted) -> Choices:
    """What the job's stock and shop offer."""
    steel = job.wheel.steel
    rows = [(row.thickness_mm, row.steel) for row in job.stock]
    rows += [(row.thickness_mm, row.steel) for row in job.offcuts]
    return shop_choices(
        job.wheel,
        sheets_mm=tuple(sorted({mm for mm, grade in rows if grade == steel})),
        bars_mm=tuple((bar.width_mm, bar.thickness_mm) for bar in job.bars),
        pipes_mm=tuple((pipe.outside_mm, pipe.wall_mm) for pipe in job.pipes),
        roll_most_mm=job.shop.roll_most_thickness_mm,
        least_diameter_mm=wanted.least_diameter_mm,
        most_diameter_mm=wanted.most_diameter_mm,
        step_mm=wanted.step_mm,
    )


def propose(job: Job, wanted: Wanted, step: Steps) -> ProposeReport:
    """Wheels that pass every check, cheapest first; or why none does. Deterministic."""
    started = time.perf_counter()
    choices, checks = job_choices(job, wanted), asked_checks(job)
    step("screening")
    sift = sifted_at_last(job.setting, choices, checks)
    with beside(wanted.workers) as pool:
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
            return report(refused=why_none(job, choices, checks, _sieve_rows(sift)))
        if found and not found.strong and not good:
            return report(refused=too_weak(job, found, wanted, _held_back(job, sift, checks)))
        left_out = [NONE_BUT_OWN]
        if found and found.strong:
            step("plates and full analysis")
            rows, left_out = finalists(job, found, wanted.proposals, pool, wanted.reserve)
            good, own = with_own(rows, own, wanted.proposals)
        if not good:
            words = ["no finalist passes in full: raise --analyses"]
            return report(refused=words, left_out=left_out, own=own)
        step("one step away")
        first, too = cheaper_steps(job, choices, good[0], partial(_mapped, pool), wanted.reserve)
        good = [first, *(row for row in good[1:] if row.wheel != first.wheel)]
        return report(
            own=own,
            proposals=[row.model_copy(update={"rank": k + 1}) for k, row in enumerate(good)],
            left_out=left_out + too,
            flare=flare_rows(job.setting, WheelSpec(**first.wheel)),
        )


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


def asked_checks(job: Job) -> tuple[Check, ...]:
    """Every check of the wheel, and of the wheelset where the job has one."""
    return (*CHECKS, *AXLE_CHECKS) if job.has_axle else CHECKS


def _mapped(
    pool: Executor, setting: Setting, wheels: Sequence[WheelSpec]
) -> list[dict[str, float]]:
    """Coarse limits of several wheels, on the workers."""
    settings = [replace(setting, wheel=wheel) for wheel in wheels]
    return list(pool.map(coarse_limits, settings))


def _held_back(job: Job, sift: Sifted, checks: Sequence[Check]) -> list[str]:
    """The checks that held most wheels back for a warning alone."""
    warned = sorted((s for s in sift.sieves if s.warned), key=lambda s: -s.warned)
    return _titles(job, [sieve.check for sieve in warned[:MOST_TITLES]], checks)


def _titles(job: Job, names: Sequence[str], checks: Sequence[Check]) -> list[str]:
    """Titles of checks by their names, as the wheel of the job file has them."""
    results = {check.__name__: check(job.setting) for check in checks if check.__name__ in names}
    return [found.title if (found := results.get(name)) else name for name in names]


def why_none(
    job: Job, choices: Choices, checks: Sequence[Check], sieves: Sequence[SieveRow]
) -> list[str]:
    """Why no wheel passes, and the least change of track, wagon or use that helps."""
    never = never_passed(job.setting, choices)
    lines = [f"no wheel passes {check.title}: {check.says}" for check in never]
    runs = running_choices(job.setting, choices)
    if not lines and runs:
        last = sieves[-1].check if sieves else "the stock to hand"
        own = [check(job.setting) for check in checks if check.__name__ == last]
        title = _titles(job, [last], checks)[0]
        lines.append(
            f"no wheel that the stock and the shop allow passes {title}; see the sieve: "
            "other [[stock]], [[bar]] or [shop] values may, or less load"
        )
        failed = [result.says for result in own if result and result.verdict == "fail"]
        lines += [f"the wheel of the job file: {says}" for says in failed]
        lines += lighter_payload(job, choices, checks)
        if sum(sieve.warned > 0 for sieve in sieves) > 1:
            lines.append("wheels with warnings of more than one check were left out")
    if not lines:
        lines.append("each check of running passes for some wheel, but for none together")
    if not runs:
        advice = track_advice(job.setting, choices)
        lines += [f"this would let a wheel run: {line}" for line in advice]
        if not advice:
            lines.append("no single change of track or wagon that was tried lets a wheel run")
    return lines


def _strongest(found: Found) -> WheelSpec:
    """Of those analysed that pass their checks, or else of all."""
    rows = list(zip(found.rows, found.loads_n, found.passes, strict=True))
    good = [one for one in rows if one[2]] or rows
    row = max(good, key=lambda one: one[1])[0]
    return WheelSpec(**found.wheels.values(row))


def too_weak(job: Job, found: Found, wanted: Wanted, held_back: Sequence[str] = ()) -> list[str]:
    """No wheel carries the load and passes: the strongest analysed, and what it could carry."""
    ended = found.analyses >= wanted.analyses
    more = [f"or raise --analyses: the search ended at {found.analyses}"] if ended else []
    if held_back:
        more.append(
            "wheels that a check warns of were left out where others had no warning, most by: "
            f"{', '.join(held_back)}"
        )
    both = zip(found.rows, found.loads_n, strict=True)
    strong = [row for row, load in both if load >= found.needed_n]
    if strong:
        row = min(strong, key=lambda one: found.cost[one])
        one = replace(job, wheel=WheelSpec(**found.wheels.values(row)))
        failed = [f"{c.title}: {c.says}" for c in job_checks(one) if c.verdict == "fail"]
        return [
            f"of {found.analyses} wheels analysed, those that carry the load fail another check; "
            f"the cheapest, of {one.wheel.tread_diameter_mm:g} mm:",
            *failed,
            *more,
        ]
    strongest = max(found.loads_n, default=0.0)
    need = needed_n(job.setting, wanted.reserve)
    share = 100 * strongest / need
    asked = f", {100 * wanted.reserve:g} % of reserve in it" if wanted.reserve else ""
    return [
        f"no wheel bears a mean load of {need:.0f} N with what twist, joints and curves make of it"
        f"{asked}; the strongest analysed bears {strongest:.0f} N, {share:.0f} % of it",
        *smallest_changes(job, _strongest(found), wanted.reserve),
        *more,
    ]
