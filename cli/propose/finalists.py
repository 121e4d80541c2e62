"""The last of the search: the best of each family rated in full and laid on the stock."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import replace

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import lacking, plan_job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.money.buying import buying_rows
from platewheel.cli.money.cost_estimate import anything_priced
from platewheel.cli.money.time_plan import time_plan
from platewheel.cli.money.wheel_cost import wheel_cost
from platewheel.cli.propose.played import found_job
from platewheel.cli.report.rows import nesting_row
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.base.interruptible import kept
from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.propose.rate_until_known import Found, families, needed_n
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.rating.rate import borne_n
from platewheel.parts.wheel.assembly import wheel_mass_kg

AT_ONCE = 2  # as there are workers: what is rated once Ctrl-C has come, a few seconds
MOST_ROUNDS = 3  # times as many finalists as proposals are rated in full at most


def finalists(
    job: Job, found: Found, count: int, pool: Executor, reserve: float = 0.0
) -> tuple[list[ProposalRow], list[str], bool]:
    """Up to `count` wheels, one a family, cheapest first; why others are left out; and whether
    Ctrl-C has ended it. Where one fails, the next of its family or the next family takes its
    place. Once Ctrl-C has come no more than AT_ONCE are rated, those most of all wanted."""
    told: dict[int, ProposalRow | str] = {}
    good: list[ProposalRow] = []
    stopped = found.stopped
    if stopped:
        count = min(count, AT_ONCE)
    while len(told) < MOST_ROUNDS * count:
        failed = [row for row, what in told.items() if isinstance(what, str)]
        rows = [row for row in families(found, count, failed) if row not in told]
        if not rows:
            break
        ones = [found_job(job, found, row) for row in rows]
        costs = [float(found.cost[row]) for row in rows]
        asked = [
            pool.submit(finalist, one, cost, reserve) for one, cost in zip(ones, costs, strict=True)
        ]
        try:
            told |= zip(rows, [one.result() for one in asked], strict=True)
        except KeyboardInterrupt:
            kept("the proposal of the best wheels found")
            stopped = True
            for one in asked[AT_ONCE:]:
                one.cancel()
            ended = [k for k, one in enumerate(asked) if k < AT_ONCE or one.done()]
            told |= {rows[k]: asked[k].result() for k in ended if not asked[k].cancelled()}
        good = [what for what in told.values() if not isinstance(what, str)]
        if stopped and good:
            break
    good.sort(key=lambda row: (row.cost_per_wheel, -row.rated_n))
    return good[:count], [what for what in told.values() if isinstance(what, str)], stopped


def finalist(one: Job, estimate: float, reserve: float = 0.0) -> ProposalRow | str:
    """The wheel of a job rated in full and laid on the stock; why not, where it fails a check, has
    less reserve than asked for or fits no stock."""
    wheel = one.wheel
    name = (
        f"{wheel.tread_diameter_mm:g} mm of {wheel.tread_from} {wheel.tread_width_mm:g} x "
        f"{wheel.tread_thickness_mm:g}, estimated at {estimate:.2f}, is left out:"
    )
    one = replace(one, gauges=GaugesSpec())  # what fits one wheel may not another
    found = assess(one.setting)
    if found is None:
        return f"{name} it cannot be rated"
    checks = job_checks(one, found)
    against = against_it(one, found, checks, reserve)
    if against:
        return f"{name} {'; '.join(against)}"
    row = laid(one, found, checks, estimate)
    return row if isinstance(row, ProposalRow) else f"{name} {'; '.join(row)}"


def against_it(
    one: Job, found: Assessment, checks: Sequence[CheckResult], reserve: float
) -> list[str]:
    """The checks that the job's wheel fails; where it fails none, the reserve that it lacks."""
    failed = [f"{check.title} ({check.says})" for check in checks if check.verdict == "fail"]
    bears = borne_n(one.setting, found.least.load_n)
    if failed or bears >= needed_n(one.setting, reserve):
        return failed
    has = at_most(100 * (bears / one.setting.static_wheel_load_n - 1))  # never as if enough
    return [f"it has {has} % of reserve, {100 * reserve:g} % are asked for"]


def laid(
    one: Job, found: Assessment, checks: Sequence[CheckResult], estimate: float
) -> ProposalRow | list[str]:
    """The job's wheel with its plates laid and its cost; what of it fits no stock."""
    plan = plan_job(one, 0, _quiet, "quick")
    short = lacking(one, plan)
    if short:
        return short
    nesting = nesting_row(one, plan)
    hours = time_plan(one, plan, nesting)
    cost = wheel_cost(one, buying_rows(one, plan, nesting), hours)
    tight = [c for c in checks if c.margin is not None and c.verdict == "pass" and c.margin > 1e-9]
    binding = min(tight, key=lambda check: check.margin or 0.0, default=None)
    priced = anything_priced(one)
    return ProposalRow(
        rank=0,
        wheel=one.wheel.model_dump(),
        play_mm=one.setting.play_mm,
        back_to_back_mm=one.setting.back_to_back_mm,
        set_back_to_back_mm=one.axle.back_to_back_mm,
        cost_per_wheel=cost.per_wheel if priced else estimate,
        cost_estimate=float(estimate),
        cost_lacks=cost.not_priced if priced else [],
        mass_kg=wheel_mass_kg(one.wheel),
        hours_per_wheel=hours.hours_per_wheel,
        rated_n=found.least.load_n,
        load_n=wheel_load_n(one.setting),
        governs=_governs(found),
        payload_kg_per_wagon=found.payload_kg,
        sheets_used=nesting.sheets_used,
        binds=f"{binding.title}: {binding.says}" if binding else "none",
        binds_margin=(binding.margin or 0.0) if binding else 0.0,
        warnings=[f"{c.title}: {c.says}" for c in checks if c.verdict == "warn"],
        changes=[],
    )


def _quiet(line: str) -> None:
    """Finalists are laid side by side: their counts would mix."""


def _governs(found: Assessment) -> str:
    return f"{found.least.governs.name}, {found.least.governs.where}"
