"""The small job planned for the shop: nest, buying list, time plan, cost, steps."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from cli.buying import buying_rows
from cli.job import Job, job_of
from cli.plan import Plan, plan_job
from cli.report import check_rows, nesting_row
from cli.report_model import NestingRow
from cli.report_shop import BuyRow, CostRow, StepRow, TimePlanRow
from cli.steps import build_steps
from cli.time_plan import time_plan
from cli.wheel_cost import wheel_cost
from parts.checks.all import run_checks

from .jobs import ROWS, job_text


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
    nesting = nesting_row(job, plan, 0.0)
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
    return Steps(job, build_steps(job, shop().nesting, checks, None))
