"""The wheel that the job file has: what a proposal has to beat, and one itself where it passes."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.money.cost_estimate import estimate_parts
from platewheel.cli.propose.finalists import against_it, laid
from platewheel.cli.schema.propose import OwnRow, ProposalRow
from platewheel.cli.words.proposal import same
from platewheel.parts.rating.assess import assess


def own_wheel(job: Job, reserve: float, briefly: bool = False) -> OwnRow:
    """The job's wheel rated in full and laid on the stock, and why it is no proposal; `briefly`
    leaves both out where a check that needs no rating fails."""
    failed = [check for check in job_checks(job) if check.verdict == "fail"] if briefly else []
    if failed:
        return OwnRow(row=None, against=[f"{check.title} ({check.says})" for check in failed])
    found = assess(job.setting)
    if found is None:
        return OwnRow(row=None, against=["it cannot be rated"])
    checks = job_checks(job, found)
    against = against_it(job, found, checks, reserve)
    estimate = sum(question(job.wheel) for question in estimate_parts(job).values())
    row = laid(job, found, checks, estimate)
    if isinstance(row, ProposalRow):
        return OwnRow(row=row, against=against)
    return OwnRow(row=None, against=against + row)


def with_own(
    good: Sequence[ProposalRow], own: OwnRow, count: int
) -> tuple[list[ProposalRow], OwnRow]:
    """Up to `count` proposals, the job's wheel among them where nothing is against it and no check
    warns of it that does not warn of the first; cheapest first. Where such a check alone keeps it
    out, its row says so."""
    if own.row is None or own.against or any(same(row, own.row) for row in good):
        return list(good), own
    new = titles(own.row) - titles(good[0]) if good else set()
    if new and own.row.cost_per_wheel >= good[0].cost_per_wheel:
        return list(good), own
    if new:
        warned = f"checks warn of it that do not of the first proposal: {', '.join(sorted(new))}"
        return list(good), own.model_copy(update={"against": [warned]})
    rows = sorted([*good, own.row], key=lambda row: (row.cost_per_wheel, -row.rated_n))
    return rows[:count], own


def titles(row: ProposalRow) -> set[str]:
    """Titles of the checks that warn of a proposal."""
    return {warning.split(":", 1)[0] for warning in row.warnings}
