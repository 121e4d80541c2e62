"""The command `templates`: full-size paper templates of blanks and plywood gauges."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, tell_warnings
from platewheel.cli.terminal.options import JobFile, Json, Out


def templates(
    job_file: JobFile,
    out: Out = Path("out"),
    print_scale: Annotated[
        float,
        typer.Option(
            metavar="FACTOR",
            help="Measured bar / true bar of a page printed at 1, from 0.9 to 1.1: 0.98 for a bar "
            "of 100 mm that measures 98 mm. The pages are drawn larger, or smaller, by as much.",
        ),
    ] = 1.0,
    as_json: Json = False,
) -> None:
    """Write the full-size paper templates: a PDF for each blank and plywood gauge, small ones
    together on one."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.folder import write_part
    from platewheel.cli.output.made_of import OF_THE_WHEEL, made_of
    from platewheel.cli.output.write import write_templates
    from platewheel.cli.terminal.show import show_json, show_table, steps
    from platewheel.cli.words.files import templates_table
    from platewheel.parts.wheel.assembly import wheel_parts

    with exit_codes():
        job = read_job(job_file, gauges_cut=True)
        parts = wheel_parts(job.wheel, disc=job.own_disc)
        with steps() as step:
            step("templates")
            made, stale = write_part(
                out,
                job.head.name,
                lambda folder: write_templates(job, parts, folder, print_scale),
                OF_THE_WHEEL,
                made_of(job),
                same=True,  # at another scale of print too
            )
        tell_warnings(stale)
        table = templates_table(made)
        if as_json:
            show_json({"templates": table.as_json()})
        else:
            show_table("Templates", table)
