"""The command for the build record on paper: a line a wheel, to be written on in the shop."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, require_new, tell_file
from platewheel.cli.terminal.options import JobFile, file_named


def record(
    job_file: JobFile,
    rings: Annotated[
        Path | None, typer.Option(help="Rings as measured: fills the record with them.")
    ] = None,
    out: Annotated[Path, typer.Option(help="Where to write it.", parser=file_named)] = Path(
        "record.pdf"
    ),
    overwrite: Annotated[bool, typer.Option(help="Write over a file that is there.")] = False,
) -> None:
    """Write the build record as a PDF: a line a wheel, to be filled in by hand."""
    from platewheel.cli.job.inputs import read_for
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.record import write_record_pdf
    from platewheel.cli.refit.rings_file import read_rings

    with exit_codes():
        job = read_job(job_file)
        measured = read_rings(rings, job.wheel) if rings else []
        require_new(out, overwrite, "record.pdf", reads=read_for(job, job_file, rings))
        write_record_pdf(job, measured, out, over=overwrite)
    tell_file(out)
