"""The command that judges: checks and load rating, and what a build would lack."""

from __future__ import annotations

from typing import Annotated

import typer

from platewheel.cli.terminal.exits import CHECK_FAILED, exit_codes, tell_warnings
from platewheel.cli.terminal.options import All, JobFile, Json, Sources


def check(
    job_file: JobFile,
    quick: Annotated[
        bool, typer.Option(help="Closed forms only, without the stress analysis: a screening.")
    ] = False,
    every: All = False,
    sources: Sources = False,
    as_json: Json = False,
) -> None:
    """Run the checks and the load rating; exit 1 where a check fails."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.job.questions import questions
    from platewheel.cli.job.stock_to_hand import without_stock
    from platewheel.cli.job.wheelset import checks_with_advice, job_wheelset
    from platewheel.cli.report.judged_rows import check_rows, rating_row
    from platewheel.cli.terminal.checks import show_checks
    from platewheel.cli.terminal.show import show_json, show_rating, steps

    with exit_codes():
        job = read_job(job_file)
        found = None
        if not quick:
            from platewheel.parts.rating.assess import assess

            with steps() as step:
                step("stress analysis")
                found = assess(job.setting)
                step("checks, and what would raise a rating that fails")
                results = check_rows(checks_with_advice(job, found))
        else:
            results = check_rows(checks_with_advice(job, None))
        lacks = [
            *questions(job),
            *job_wheelset(job).why_not,
            *without_stock(job),
            *map(str, job.gauge_faults),
        ]
        tell_warnings(lacks)
        if as_json:
            rating = rating_row(found, job.setting) if found else None
            show_json(
                {
                    "rating": rating.model_dump() if rating else None,
                    "checks": [row.model_dump() for row in results],
                }
            )
        else:
            show_rating(found)
            show_checks(results, every, sources)
    if any(row.verdict == "fail" for row in results):
        raise typer.Exit(CHECK_FAILED)
