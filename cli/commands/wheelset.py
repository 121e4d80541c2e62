"""The command for two wheels on their axle: sizes, fits, checks, and the assembly as STEP."""

from __future__ import annotations

from pathlib import Path

import typer

from platewheel.cli.terminal.exits import CHECK_FAILED, exit_codes, tell, tell_file
from platewheel.cli.terminal.options import All, JobFile, Json, Out, Sources


def wheelset(
    job_file: JobFile,
    out: Out = Path("out"),
    every: All = False,
    sources: Sources = False,
    as_json: Json = False,
) -> None:
    """Two wheels on their axle, bearings and fits: checks, and the assembly as STEP."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.folder import WHEELSET_OURS, write_folder
    from platewheel.cli.output.solids import step_header
    from platewheel.cli.report.judged_rows import check_rows
    from platewheel.cli.report.wheelset_rows import WheelsetReport, missing_words, wheelset_row
    from platewheel.cli.terminal.checks import show_checks
    from platewheel.cli.terminal.show import show_json, show_table, steps
    from platewheel.cli.words.wheelset import fits_table, sawn_table, sizes_table
    from platewheel.parts.checks.advice import with_cures
    from platewheel.parts.checks.run_wheelset import run_wheelset_checks
    from platewheel.parts.wheelset.assembly import wheelset as made_of
    from platewheel.parts.wheelset.solid import write_wheelset_step

    with exit_codes():
        job = read_job(job_file)
        made = made_of(job.setting)
        results = run_wheelset_checks(job.setting, made)
        checks = check_rows(with_cures(results, job.setting, made))
        row = wheelset_row(job, made)
        report = WheelsetReport(**row.model_dump(), job=job.head.name, checks=checks)

        def write(folder: Path) -> None:
            write_wheelset_step(job.setting, folder / "wheelset.step", step_header(job))
            text = report.model_dump_json(indent=2)
            (folder / "report.json").write_text(text + "\n", encoding="utf-8")

        with steps() as step:
            step("solids")
            write_folder(out, f"{job.head.name}-wheelset", write, WHEELSET_OURS)
        tell(missing_words(report))
        if as_json:
            show_json(report.model_dump())
        else:
            show_table("Wheelset", sizes_table(report))
            show_table("Fits", fits_table(report))
            if report.cuts:
                show_table("Axles to saw", sawn_table(report))
            tell_file(out / f"{job.head.name}-wheelset" / "wheelset.step")
            show_checks(checks, every, sources)
    if any(row.verdict == "fail" for row in checks):
        raise typer.Exit(CHECK_FAILED)
