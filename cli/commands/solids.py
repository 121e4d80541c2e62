"""The solids command: STEP, glTF and models to print, and a table of all that is in them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, tell_warnings
from platewheel.cli.terminal.options import JobFile, Json, Out

if TYPE_CHECKING:
    from platewheel.cli.output.solids import PrintFormat


def solids(
    job_file: JobFile,
    out: Out = Path("out"),
    stl: Annotated[
        float | None,
        typer.Option(
            min=1,
            max=100,
            metavar="SCALE",
            help="also STL to print a model of 1:SCALE (8: an eighth), a closed body a file",
        ),
    ] = None,
    threemf: Annotated[
        float | None,
        typer.Option(
            "--3mf",
            min=1,
            max=100,
            metavar="SCALE",
            help="the same models of 1:SCALE as 3MF, which tells its unit, the millimetre",
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """Write the solids: STEP of each part, of the wheel and the wheelset, and the wheel as glTF."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.folder import write_part
    from platewheel.cli.output.made_of import OF_THE_WHEEL, made_of
    from platewheel.cli.output.solids import write_solids
    from platewheel.cli.report.rows import part_rows
    from platewheel.cli.terminal.show import show_json, show_table, steps
    from platewheel.cli.words.files import solids_table
    from platewheel.parts.wheel.assembly import wheel_parts

    with exit_codes():
        job = read_job(job_file)
        parts = wheel_parts(job.wheel, disc=job.own_disc)
        asked: dict[PrintFormat, float | None] = {"stl": stl, "3mf": threemf}
        prints = {form: scale for form, scale in asked.items() if scale is not None}
        with steps() as step:
            step("solids")
            written, stale = write_part(
                out,
                job.head.name,
                lambda folder: write_solids(job, parts, folder, prints),
                OF_THE_WHEEL,
                made_of(job),
            )
        tell_warnings(stale)
        if as_json:
            rows = part_rows(parts)
            show_json(
                {
                    "parts": [row.model_dump() for row in rows],
                    "solids": [row.model_dump() for row in written],
                }
            )
        else:
            show_table("Solids", solids_table(written))
