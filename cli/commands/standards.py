"""The command for the sheet of track and wheel standards."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, require_new, tell_file
from platewheel.cli.terminal.options import JobFile, Json, file_named


def standards(
    job_file: JobFile,
    out: Annotated[Path, typer.Option(help="Where to write it.", parser=file_named)] = Path(
        "standards.pdf"
    ),
    overwrite: Annotated[bool, typer.Option(help="Write over a file that is there.")] = False,
    as_json: Json = False,
) -> None:
    """Write the sheet of track and wheel standards as a PDF: sizes that go together."""
    from platewheel.cli.job.inputs import read_for
    from platewheel.cli.job.job import read_job
    from platewheel.cli.terminal.show import show_json

    with exit_codes():
        job = read_job(job_file)
        if as_json:
            from platewheel.cli.words.standards import setting_out_words, standards_table
            from platewheel.parts.standards.published import beside
            from platewheel.parts.standards.rows import standards as rows
            from platewheel.parts.standards.turnout import setting_out

            found = standards_table(rows(job.setting), beside(job.track.gauge_mm))
            turnout = setting_out_words(setting_out(job.setting))
            show_json({"standards": found.as_json(), "setting_out": turnout.as_json()})
            return
        from platewheel.cli.papers.standards_pdf import standards_pdf
        from platewheel.cli.work.whole_file import write_whole

        require_new(out, overwrite, "standards.pdf", reads=read_for(job, job_file))
        write_whole(out, standards_pdf(job), over=overwrite)
    tell_file(out)
