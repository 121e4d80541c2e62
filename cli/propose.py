"""From track and load to a wheel: every wheel that the shop could make, screened, rated, priced."""

from __future__ import annotations

import time
from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial

from cli.beside import beside
from cli.buying import buying_rows
from cli.cost_estimate import anything_priced, estimate_parts
from cli.job import Job
from cli.plan import lacking, plan_job
from cli.propose_model import ProposalRow, ProposeReport, SieveRow
from cli.propose_rows import change_rows, flare_rows, trade_rows
from cli.report import nesting_row
from cli.show import Steps
from cli.time_plan import time_plan
from cli.wheel_cost import wheel_cost
from parts.checks.all import run_checks
from parts.checks.setting import Setting
from parts.choices import Choices, shop_choices
from parts.proposing import Found, families, find_wheels, prices
from parts.rating.assess import Assessment, assess
from parts.screening import Check
from parts.sifting import sifted
from parts.strength_sizes import coarse_limits
from parts.track_advice import never_passed, running_choices, track_advice
from parts.wheel import wheel_mass_kg
from parts.wheel_spec import WheelSpec


@dataclass(frozen=True)
class Wanted:
    """How far and how hard is searched; counted work, never seconds."""

    least_diameter_mm: float
    most_diameter_mm: float
    step_mm: float = 20.0
    proposals: int = 4
    analyses: int = 32
    workers: int = 2


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
    choices = job_choices(job, wanted)
    step("screening")
    sift = sifted(job.setting, choices)
    sieves = [SieveRow(check=s.check, came=s.came, passed=s.passed) for s in sift.sieves]

    def report(**found: object) -> ProposeReport:
        base = {
            "job": job.head.name,
            "currency": job.costs.currency,
            "not_priced": not anything_priced(job),
            "choices": choices.wheels,
            "judged": sift.judged,
            "screened": sift.wheels.count,
            "analysed": 0,
            "proposals": [],
            "trade": [],
            "flare": [],
            "sieves": sieves,
            "refused": [],
            "left_out": [],
        }
        seconds = round(time.perf_counter() - started, 1)
        return ProposeReport.model_validate(base | {"seconds": seconds} | found)

    if not sift.wheels.count:
        step("what would help")
        return report(refused=why_none(job, choices, sieves))
    cost = prices(sift.wheels, tuple(estimate_parts(job).values()))
    with beside(wanted.workers) as pool:
        step("stress analysis")
        found = find_wheels(
            job.setting,
            sift,
            cost,
            partial(_mapped, pool),
            wanted=wanted.proposals,
            most=wanted.analyses,
        )
        trade = trade_rows(found)
        best = families(found, wanted.proposals)
        if not best:
            return report(analysed=found.analyses, trade=trade, refused=too_weak(job, found))
        step("plates and full analysis")
        wheels = [WheelSpec(**found.wheels.values(row)) for row in best]
        rows = list(pool.map(partial(_finalist, job), wheels, [found.cost[r] for r in best]))
        left_out = [row for row in rows if isinstance(row, str)]
        good = [row for row in rows if not isinstance(row, str)]
        good.sort(key=lambda row: (row.cost_per_wheel, -row.rated_n))
        ranked = [row.model_copy(update={"rank": k + 1}) for k, row in enumerate(good)]
        if not ranked:
            words = ["no finalist passes in full: raise --analyses"]
            return report(analysed=found.analyses, trade=trade, refused=words, left_out=left_out)
        step("one step away")
        first = WheelSpec(**ranked[0].wheel)
        changes = change_rows(job, choices, first, partial(_mapped, pool))
        ranked[0] = ranked[0].model_copy(update={"changes": changes})
    return report(
        analysed=found.analyses,
        proposals=ranked,
        left_out=left_out,
        trade=trade,
        flare=flare_rows(job.setting, first),
    )


def _mapped(
    pool: Executor, setting: Setting, late: tuple[Check, ...], wheels: Sequence[WheelSpec]
) -> list[dict[str, float]]:
    """Coarse limits of several wheels, on the workers."""
    settings = [replace(setting, wheel=wheel) for wheel in wheels]
    return list(pool.map(partial(_limits, late), settings))


def _limits(late: tuple[Check, ...], setting: Setting) -> dict[str, float]:
    return coarse_limits(setting, late)


def _finalist(job: Job, wheel: WheelSpec, estimate: float) -> ProposalRow | str:
    """A wheel rated in full and laid on the stock; why not, where it fails a check or fits none."""
    name = (
        f"{wheel.tread_diameter_mm:g} mm of {wheel.tread_from} {wheel.tread_width_mm:g} x "
        f"{wheel.tread_thickness_mm:g}, estimated at {estimate:.2f}, is left out:"
    )
    one = replace(job, wheel=wheel)
    found = assess(one.setting)
    if found is None:
        return f"{name} it cannot be rated"
    checks = run_checks(one.setting, found)
    failed = [f"{check.title} ({check.says})" for check in checks if check.verdict == "fail"]
    if failed:
        return f"{name} {'; '.join(failed)}"
    plan = plan_job(one, 0, _quiet, "quick")
    short = lacking(one, plan)
    if short:
        return f"{name} {'; '.join(short)}"
    nesting = nesting_row(one, plan, 0.0)
    cost = wheel_cost(one, buying_rows(one, plan, nesting), time_plan(one, plan, nesting))
    tight = [c for c in checks if c.margin is not None and c.verdict == "pass" and c.margin > 1e-9]
    binding = min(tight, key=lambda check: check.margin or 0.0)
    each = cost.per_wheel if anything_priced(job) else estimate
    return ProposalRow(
        rank=0,
        wheel=wheel.model_dump(),
        cost_per_wheel=each,
        cost_estimate=float(estimate),
        mass_kg=wheel_mass_kg(wheel),
        rated_n=found.least.load_n,
        load_n=one.setting.wheel_load_n,
        governs=_governs(found),
        payload_kg_per_wagon=found.payload_kg,
        sheets_used=nesting.sheets_used,
        binds=f"{binding.title}: {binding.says}",
        binds_margin=binding.margin or 0.0,
        warnings=[f"{c.title}: {c.says}" for c in checks if c.verdict == "warn"],
        changes=[],
    )


def _quiet(line: str) -> None:
    """Finalists are laid side by side: their counts would mix."""


def _governs(found: Assessment) -> str:
    return f"{found.least.governs.name}, {found.least.governs.where}"


def why_none(job: Job, choices: Choices, sieves: Sequence[SieveRow]) -> list[str]:
    """Why no wheel passes, and the least change of track, wagon or use that helps."""
    never = never_passed(job.setting, choices)
    lines = [f"no wheel passes {check.title}: {check.says}" for check in never]
    runs = running_choices(job.setting, choices)
    if not lines and runs:
        last = sieves[-1].check if sieves else "the stock to hand"
        lines.append(
            f"no wheel that the stock and the shop allow passes {last}; see the sieve: "
            "other [[stock]], [[bar]] or [shop] values may"
        )
    if not lines:
        lines.append("each check of running passes for some wheel, but for none together")
    if not runs:
        advice = track_advice(job.setting, choices)
        lines += [f"this would let a wheel run: {line}" for line in advice]
        if not advice:
            lines.append("no single change of track or wagon that was tried lets a wheel run")
    return lines


def too_weak(job: Job, found: Found) -> list[str]:
    """No wheel carries the load: the strongest that was analysed, and what it could carry."""
    strongest = max(found.loads_n, default=0.0)
    need = job.setting.wheel_load_n
    share = 100 * strongest / need
    return [
        f"no wheel carries {need:.0f} N (load x unevenness x shock); the strongest analysed is "
        f"rated {strongest:.0f} N, {share:.0f} % of it",
        "try: thicker [[stock]] and [[bar]], a larger shop.roll_most_thickness_mm, a higher steel "
        "grade, more axles, a smaller payload, or fewer km in use.km_per_year x use.years",
    ]
