"""The small job planned for the shop: nest, buying list, time plan, cost, steps."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.job.plan import Plan, plan_job
from platewheel.cli.money.buying import buying_rows
from platewheel.cli.money.time_plan import time_plan
from platewheel.cli.money.wheel_cost import wheel_cost
from platewheel.cli.report.judged_rows import check_rows
from platewheel.cli.report.rows import nesting_row
from platewheel.cli.report.steps import step_rows
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.schema.shop import BuyRow, CostRow, StepRow, TimePlanRow
from platewheel.parts.checks.run import run_checks
from tests.cli.jobs import ROWS, job_text


@dataclass(frozen=True)
class Shop:
    """All of one job."""

    job: Job
    plan: Plan
    nesting: NestingRow
    buying: list[BuyRow]
    time: TimePlanRow
    cost: CostRow

    def bought(self, kind: str) -> list[BuyRow]:
        return [row for row in self.buying if row.kind == kind]


def shop(changes: Mapping[str, str] | None = None, rows: str = ROWS) -> Shop:
    """The small job with these changes, laid quickly; prices change no layout here."""
    wanted = changes or {}
    job = job_of(tomllib.loads(job_text(wanted, rows=rows)))
    shape = tuple((key, value) for key, value in wanted.items() if key.startswith("wheel."))
    plan = _plan(shape, rows)
    nesting = nesting_row(job, plan)
    buying = buying_rows(job, plan, nesting)
    time = time_plan(job, plan, nesting)
    return Shop(job, plan, nesting, buying, time, wheel_cost(job, buying, time))


@cache
def _plan(shape: tuple[tuple[str, str], ...], rows: str) -> Plan:
    job = job_of(tomllib.loads(job_text(dict(shape), rows=rows)))
    return plan_job(job, 0, lambda _: None, "quick")


@dataclass(frozen=True)
class Steps:
    """The steps of one wheel."""

    job: Job
    steps: list[StepRow]

    def step(self, name: str) -> StepRow:
        return next(step for step in self.steps if step.id == name)


def steps(changes: Mapping[str, str] | None = None) -> Steps:
    """Steps of the small job with these changes; the length of cuts is the unchanged wheel's."""
    return _steps(tuple((changes or {}).items()))


@cache
def _steps(changes: tuple[tuple[str, str], ...]) -> Steps:
    job = job_of(tomllib.loads(job_text(dict(changes))))
    checks = check_rows(run_checks(job.setting))
    return Steps(job, step_rows(job, shop().nesting, checks, None))
