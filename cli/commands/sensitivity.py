"""The sensitivity command: which dimension of the job's wheel matters for which check."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes
from platewheel.cli.terminal.options import JobFile, Json

if TYPE_CHECKING:
    from platewheel.parts.propose.sensitivity import Assess


def sensitivity(
    job_file: JobFile,
    rating: Annotated[
        bool,
        typer.Option(
            "--rating",
            help="Rate the steps of plates, beads and the line too: some 25 stress analyses, a few "
            "minutes.",
        ),
    ] = False,
    as_json: Json = False,
) -> None:
    """Change each dimension of the wheel, and what can be changed of its line, a little: which
    checks it helps, and for what mass."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.job.wheelset import checks_of
    from platewheel.cli.propose.plain_disc import require_plain_disc
    from platewheel.cli.terminal.sensitivity import sensitivity_table, show_sensitivity
    from platewheel.cli.terminal.show import show_json, steps
    from platewheel.parts.propose.sensitivity import sensitivity as step_all

    with exit_codes():
        job = read_job(job_file)
        require_plain_disc(job, "sensitivity")
        with steps() as step:
            found = step_all(
                job.setting,
                _analysis() if rating else None,
                checks=checks_of(job),
                report=step,
            )
        if as_json:
            show_json(sensitivity_table(found))
        else:
            show_sensitivity(found)


def _analysis() -> Assess:
    from platewheel.parts.rating.assess import assess

    return assess
