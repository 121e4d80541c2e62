"""The command for the calculation: every check with its formulas, for the engineer who signs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, require_new, tell_file
from platewheel.cli.terminal.options import JobFile, file_named


def calculation(
    job_file: JobFile,
    out: Annotated[Path, typer.Option(help="Where to write it.", parser=file_named)] = Path(
        "calculation.pdf"
    ),
    overwrite: Annotated[bool, typer.Option(help="Write over a file that is there.")] = False,
    quick: Annotated[
        bool, typer.Option("--quick", help="Leave out the stress analysis and the load rating.")
    ] = False,
) -> None:
    """Write the calculation as a PDF: each check with formula, numbers, limit and source."""
    from platewheel.cli.job.inputs import read_for
    from platewheel.cli.job.job import read_job

    with exit_codes():
        job = read_job(job_file)
        require_new(out, overwrite, "calculation.pdf", reads=read_for(job, job_file))
        from platewheel.cli.output.calculation import write_calculation

        write_calculation(job, out, rated=not quick, over=overwrite)
    tell_file(out)
