"""From a job's track and load to the wheels that pass, asked by a script."""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.one_at_a_time import one_at_a_time

if TYPE_CHECKING:
    from platewheel.cli.script.job_file import JobFile
    from platewheel.cli.script.results import Proposed


@one_at_a_time
def propose(
    given: JobFile,
    *,
    least_diameter_mm: float | None = None,
    most_diameter_mm: float | None = None,
    step_mm: float = 20.0,
    proposals: int = 4,
    analyses: int = 72,
    reserve: float = 0.1,
) -> Proposed:
    """Wheels that pass every check on the job's track, cheapest first; half a minute or more.

    Treads between the two diameters (0.7 and 1.3 of the job's unless given), `reserve` of the
    rating over the load; lengths mm. The same job gives the same wheels. Raises: SpecError for a
    number out of its range, what is no JobFile, or a job with discs of one's own.

    >>> propose(job, step_mm=0.0)
    Traceback (most recent call last):
    platewheel.parts.base.faults.SpecError: step_mm: found 0.0; allowed: a number from 1 up to ...
    """
    from platewheel.cli.propose.plain_disc import require_plain_disc
    from platewheel.cli.propose.run import propose as find
    from platewheel.cli.propose.wanted import Wanted
    from platewheel.cli.script.asked import ProposeAsked
    from platewheel.cli.script.job_file import JobFile
    from platewheel.cli.script.results import Proposed

    advice = 'load it first: propose(load("my-wheels.toml"))'
    require_kind("given", given, JobFile, "a job, as load() and demo() give it", advice)
    require_plain_disc(given.job, "propose")
    size = given.job.wheel.tread_diameter_mm
    asked = ProposeAsked(
        least_diameter_mm=_or_share(least_diameter_mm, 0.7 * size),
        most_diameter_mm=_or_share(most_diameter_mm, 1.3 * size),
        step_mm=step_mm,
        proposals=proposals,
        analyses=analyses,
        reserve=reserve,
    )
    wanted = Wanted(**asked.model_dump())
    return Proposed(find(given.job, wanted, lambda text: None))


def _or_share(given: float | None, usual: float) -> float:
    return float(round(min(max(usual, 60.0), 2000.0))) if given is None else given
