"""From the cheapest finalist on: steps that are cheaper still, while a full rating confirms them.

The search analyses coarsely, which rates a little low, so a cheaper wheel one step away may carry
the load after all.
"""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.propose.changes import Changes
from platewheel.cli.propose.finalists import finalist
from platewheel.cli.propose.own_wheel import titles
from platewheel.cli.propose.played import beside, proposed_job
from platewheel.cli.schema.propose import ChangeRow, ProposalRow
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.rate_until_known import Analyse

MOST_STEPS = 6  # tried in full
IN_FULL = "a check in full, see what is left out"


def cheaper_steps(
    job: Job, choices: Choices, first: ProposalRow, analyse: Analyse, reserve: float = 0.0
) -> tuple[ProposalRow, list[str]]:
    """The proposal, or what cheaper steps without anything against them lead to, with its own rows
    of changes; and why steps tried in full are left out. No more than MOST_STEPS are tried."""
    told: dict[str, ProposalRow | str] = {}
    while True:
        now = proposed_job(job, first)
        borne = first.rated_n / first.load_n * job.setting.static_wheel_load_n
        steps = Changes(job, choices, now, borne, analyse, reserve).rows()
        changes = [row for row, _ in steps]
        better = None
        for k in sorted(range(len(changes)), key=lambda k: changes[k].cost):
            row, other = steps[k]
            name = other.model_dump_json()
            if name not in told and _cheaper(row) and len(told) < MOST_STEPS:
                told[name] = finalist(beside(now, other), first.cost_estimate + row.cost, reserve)
            found = told.get(name)
            if isinstance(found, str) and not row.fails:
                changes[k] = row.model_copy(update={"fails": [IN_FULL]})
            elif isinstance(found, ProposalRow) and _better(found, first):
                better = found
                break
        if better is None:
            first = first.model_copy(update={"changes": changes})
            return first, [what for what in told.values() if isinstance(what, str)]
        first = better


def _cheaper(row: ChangeRow) -> bool:
    """With nothing against it."""
    return row.cost < 0 and row.rating_percent is not None and not row.fails and not row.warns


def _better(row: ProposalRow, first: ProposalRow) -> bool:
    """Cheaper with its plates laid, and warned of nothing new."""
    return row.cost_per_wheel < first.cost_per_wheel and titles(row) <= titles(first)
