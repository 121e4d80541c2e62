"""The sensitivity command: which dimension of the job's wheel matters for which check."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.exits import exit_codes
from cli.options import JobFile, Json

if TYPE_CHECKING:
    from parts.sensitivity import Assess


def sensitivity(
    job_file: JobFile,
    rating: Annotated[
        bool,
        typer.Option(
            "--rating",
            help="Rate the steps of plates and beads too: ten stress analyses, a minute or so.",
        ),
    ] = False,
    as_json: Json = False,
) -> None:
    """Change each dimension of the wheel a little: which checks it helps, and for what mass."""
    from cli.job import read_job
    from cli.job_wheelset import checks_of
    from cli.sensitivity_show import sensitivity_table, show_sensitivity
    from cli.show import show_json, steps
    from parts.sensitivity import sensitivity as step_all

    with exit_codes():
        job = read_job(job_file)
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
    from parts.rating.assess import assess

    return assess
