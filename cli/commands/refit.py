"""The commands that fit the job to rings as rolled: the list to fill in, and the refit."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, tell, tell_file, write_new
from platewheel.cli.terminal.options import Effort, JobFile, Json, Out, Seed, Work, file_named


def rings(
    job_file: JobFile,
    out: Annotated[
        Path, typer.Option(help="Where to write the list of rings.", parser=file_named)
    ] = Path("rings.csv"),
    overwrite: Annotated[bool, typer.Option(help="Write over a file that is there.")] = False,
    semicolons: Annotated[
        bool,
        typer.Option(
            "--semicolons", help="Between values, for a spreadsheet that writes decimal commas."
        ),
    ] = False,
) -> None:
    """Write an empty list of rings (CSV) to fill in with what was rolled, for refit."""
    from platewheel.cli.job.inputs import read_for
    from platewheel.cli.job.job import read_job
    from platewheel.cli.refit.rings_file import rings_template

    with exit_codes():
        job = read_job(job_file)
        between = ";" if semicolons else ","
        text = rings_template(job.wheel, job.head.name, job.head.wheels, between)
        write_new(out, text, overwrite, reads=read_for(job, job_file))
    tell_file(out)


def refit(
    job_file: JobFile,
    rings: Annotated[Path, typer.Option(help="Rings as measured; `platewheel rings` writes one.")],
    out: Out = Path("out"),
    seed: Seed = 0,
    effort: Work = Effort.normal,
    correct_flanges: Annotated[
        bool,
        typer.Option(
            "--correct-flanges",
            help="Cut new flanges longer or shorter by what those tried on were out in the mean.",
        ),
    ] = False,
    already_cut: Annotated[
        bool,
        typer.Option(
            "--already-cut",
            help="The job's drawn discs and flanges are cut: find the fewest new ones, and which "
            "rings to true for them.",
        ),
    ] = False,
    nest: Annotated[bool, typer.Option(help="Lay the blanks on the stock too.")] = True,
    as_json: Json = False,
) -> None:
    """Fit blanks to rings as rolled, pair them on axles, write cutting files and the record."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.refit import refit_rings
    from platewheel.cli.refit.rings_file import read_rings
    from platewheel.cli.terminal.refit import show_refit
    from platewheel.cli.terminal.show import show_json, steps

    with exit_codes():
        job = read_job(job_file)
        measured = read_rings(rings, job.wheel)
        with steps() as step:
            report = refit_rings(
                job,
                measured,
                out,
                step,
                seed=seed,
                effort=effort.value,
                nested=nest,
                correct_flanges=correct_flanges,
                already_cut=already_cut,
            )
        tell(report.warnings)
        if as_json:
            show_json(report.model_dump())
        else:
            show_refit(report)
            tell_file(out / f"{job.head.name}-refit" / "refit-sheet.html")
