"""The command line: reads the job file, calls `parts` and `nesting`, writes the job folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from platewheel.cli.commands.calculation import calculation
from platewheel.cli.commands.check import check
from platewheel.cli.commands.compare import compare
from platewheel.cli.commands.deck import deck
from platewheel.cli.commands.entry import main
from platewheel.cli.commands.new import new_job
from platewheel.cli.commands.propose import propose
from platewheel.cli.commands.record import record
from platewheel.cli.commands.refit import refit, rings
from platewheel.cli.commands.schema import schema
from platewheel.cli.commands.sensitivity import sensitivity
from platewheel.cli.commands.solids import solids
from platewheel.cli.commands.standards import standards
from platewheel.cli.commands.stock import stock
from platewheel.cli.commands.templates import templates
from platewheel.cli.commands.wheelset import wheelset
from platewheel.cli.terminal.exits import (
    CHECK_FAILED,
    exit_codes,
    show_tracebacks,
    tell_file,
    tell_warnings,
)
from platewheel.cli.terminal.options import (
    All,
    Effort,
    JobFile,
    Json,
    Out,
    Seed,
    Segments,
    Sources,
    WhatFits,
    Work,
)
from platewheel.parts.base.so_many import so_many

if TYPE_CHECKING:
    from platewheel.parts.refit.measured_ring import MeasuredRing

__all__ = ["app", "main"]

app = typer.Typer(
    help="Fabricated wagon wheels for light field railways: from one job file to solids, blanks, "
    "nested cutting files, paper templates, checks and a job sheet.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
)


def _tell(asked: bool) -> None:
    """The version of platewheel, on a line that a script can split."""
    if asked:
        from importlib.metadata import version

        typer.echo(f"platewheel {version('platewheel')}")
        raise typer.Exit


@app.callback()
def options(
    debug: Annotated[
        bool,
        typer.Option("--debug", help="Show the traceback of a fault of platewheel itself."),
    ] = False,
    version: Annotated[
        bool,
        typer.Option("--version", help="Tell the version and end.", callback=_tell, is_eager=True),
    ] = False,
) -> None:
    """What goes before the command."""
    show_tracebacks(debug)


app.command("new")(new_job)


@app.command()
def build(
    job_file: JobFile,
    out: Out = Path("out"),
    seed: Seed = 0,
    effort: Work = Effort.normal,
    rings: Annotated[
        Path | None, typer.Option(help="Rings as measured: fills the record on the job sheet.")
    ] = None,
    what_fits: WhatFits = False,
    every: All = False,
    sources: Sources = False,
    as_json: Json = False,
) -> None:
    """Do everything: solids, blanks, cutting files, templates, checks, report, job sheet."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.refit.rings_file import read_rings

    with exit_codes():
        job = read_job(job_file, gauges_cut=True)
        measured = read_rings(rings, job.wheel) if rings else []
        _build(job, out, seed, effort, as_json, measured, what_fits, every, sources)


@app.command()
def demo(
    out: Out = Path("out"),
    seed: Seed = 0,
    effort: Work = Effort.quick,
    every: All = False,
    sources: Sources = False,
    as_json: Json = False,
) -> None:
    """Build the bundled example, a salt-marsh oyster tramway of 457 mm gauge."""
    from importlib.resources import as_file, files

    from platewheel.cli.job.job import read_job

    with exit_codes(), as_file(files("platewheel.cli.job") / "demo.toml") as path:
        job = read_job(path, gauges_cut=True)
        _build(job, out, seed, effort, as_json, every=every, sources=sources)


def _build(
    job: object,
    out: Path,
    seed: int,
    effort: Effort,
    as_json: bool,
    rings: Sequence[MeasuredRing] = (),
    what_fits: bool = False,
    every: bool = False,
    sources: bool = False,
) -> None:
    from platewheel.cli.job.job import Job
    from platewheel.cli.output.build import build_job
    from platewheel.cli.terminal.checks import show_checks
    from platewheel.cli.terminal.show import show_json, show_sheets, steps

    assert isinstance(job, Job)
    with steps() as step:
        report = build_job(job, out, seed, step, effort.value, rings, what_fits=what_fits)
    tell_warnings(report.warnings)
    if as_json:
        show_json(report.model_dump())
    else:
        show_sheets(report.sheets, report.nesting, report.cutting_lists)
        typer.echo(
            f"{so_many(report.job.wheels, 'wheel')} of {report.wheel.mass_kg:.2f} kg: written to"
        )
        tell_file(out / job.head.name / "job-sheet.html")
        if report.cost.not_priced:
            typer.echo(f"not priced: {', '.join(report.cost.not_priced)}; see the buying list")
        show_checks(report.checks, every, sources)
    if any(row.verdict == "fail" for row in report.checks):
        raise typer.Exit(CHECK_FAILED)


app.command()(check)


app.command()(solids)


@app.command()
def nest(
    job_file: JobFile,
    out: Out = Path("out"),
    seed: Seed = 0,
    effort: Work = Effort.normal,
    segments: Annotated[
        Segments, typer.Option(help="all: compare 1 to 4 flange segments; writes nothing.")
    ] = Segments.job,
    what_fits: WhatFits = False,
    as_json: Json = False,
) -> None:
    """Lay the blanks on the stock; write one cutting file for each distinct layout."""
    from platewheel.cli.commands.nest import compare_segments, nest_job
    from platewheel.cli.job.job import read_job

    if what_fits and segments is Segments.all:
        raise typer.BadParameter("--what-fits plans one job; --segments all compares four")
    with exit_codes():
        job = read_job(job_file, gauges_cut=True)
        if segments is Segments.all:
            compare_segments(job, seed, effort.value, as_json)
            warnings: list[str] = []
        else:
            warnings = nest_job(job, out, seed, effort.value, as_json, what_fits)
    tell_warnings(warnings)


app.command()(templates)
app.command()(propose)
app.command()(wheelset)
app.command()(sensitivity)
app.command()(compare)
app.command()(rings)
app.command()(refit)
app.command()(record)
app.command()(standards)
app.command()(calculation)
app.command()(deck)
app.command()(schema)
app.add_typer(stock, name="stock")
