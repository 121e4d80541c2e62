"""The command that turns the tool round: from track and load to the wheels that pass."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import (
    CHECK_FAILED,
    exit_codes,
    require_new,
    tell,
    tell_file,
    write_new,
)
from platewheel.cli.terminal.options import JobFile, Json, Out, file_named


def propose(
    job_file: JobFile,
    out: Out = Path("out"),
    least_diameter: Annotated[
        float | None,
        typer.Option(metavar="MM", help="Smallest tread; 0.7 of the job's unless given."),
    ] = None,
    most_diameter: Annotated[
        float | None,
        typer.Option(metavar="MM", help="Largest tread; 1.3 of the job's unless given."),
    ] = None,
    step: Annotated[
        float, typer.Option(metavar="MM", min=1, max=200, help="Between diameters tried.")
    ] = 20.0,
    proposals: Annotated[int, typer.Option(min=1, max=12, help="Wheels to propose.")] = 4,
    analyses: Annotated[int, typer.Option(min=12, max=1000, help="Most stress analyses.")] = 72,
    reserve: Annotated[
        float,
        typer.Option(
            metavar="PERCENT",
            min=0,
            max=200,
            help="Rating over the load that a proposal has at least: plates below their size, "
            "poor beads, a heavier load.",
        ),
    ] = 10.0,
    write: Annotated[
        Path | None,
        typer.Option(help="Write the job file of the chosen wheel here.", parser=file_named),
    ] = None,
    choose: Annotated[int, typer.Option(min=1, help="Which proposal --write takes.")] = 1,
    overwrite: Annotated[bool, typer.Option(help="Write over a file that is there.")] = False,
    as_json: Json = False,
) -> None:
    """Find the cheapest wheels that pass every check on this track; exit 1 where none does."""
    from platewheel.cli.job.inputs import read_for
    from platewheel.cli.job.job import read_job
    from platewheel.cli.job.written_wheel import with_wheel
    from platewheel.cli.output.folder import PROPOSAL_OURS, require_ours
    from platewheel.cli.output.proposal import write_proposal
    from platewheel.cli.propose.plain_disc import require_plain_disc
    from platewheel.cli.propose.run import propose as find
    from platewheel.cli.propose.wanted import Wanted
    from platewheel.cli.terminal.propose import show_proposals
    from platewheel.cli.terminal.show import show_json, steps

    with exit_codes():
        job = read_job(job_file)
        require_plain_disc(job, "propose")
        size = job.wheel.tread_diameter_mm
        wanted = Wanted(
            least_diameter_mm=least_diameter or round(0.7 * size),
            most_diameter_mm=most_diameter or round(1.3 * size),
            step_mm=step,
            proposals=proposals,
            analyses=analyses,
            reserve=reserve / 100,
        )
        _sound(wanted.least_diameter_mm, wanted.most_diameter_mm, choose, proposals)
        require_ours(out, f"{job.head.name}-proposal", PROPOSAL_OURS)
        if write:
            others = read_for(job, job_file)[1:]  # the job file itself may take the wheel
            require_new(write, overwrite, reads=others)
            text = job_file.read_text(encoding="utf-8-sig")
            axle = job.setting.back_to_back_mm if job.has_axle else None
            with_wheel(text, job.wheel.model_dump(), axle)  # can be followed
        started = time.perf_counter()
        with steps() as told:
            report = find(job, wanted, told)
        file = write_proposal(job, report, out)
        tell([*report.refused, *report.left_out])
        if as_json:
            show_json(report.model_dump())
        else:
            show_proposals(report, time.perf_counter() - started)
            tell_file(file)
        if write and report.proposals:
            if choose > len(report.proposals):
                tell([f"--choose: found {choose}; allowed: 1 to {len(report.proposals)}"])
                raise typer.Exit(2)
            row = report.proposals[choose - 1]
            write_new(write, with_wheel(text, row.wheel, row.set_back_to_back_mm), overwrite)
            tell_file(write, aside=as_json)
    if not report.proposals:
        raise typer.Exit(CHECK_FAILED)


def _sound(least_mm: float, most_mm: float, choose: int, proposals: int) -> None:
    from platewheel.cli.propose.kinds import OTHERS

    faults = []
    if not 60 <= least_mm <= most_mm <= 2000:
        faults.append(
            f"--least-diameter, --most-diameter: found {least_mm:g}, {most_mm:g}; allowed: from "
            "60 to 2000 mm, the least first; try: --least-diameter 200 --most-diameter 400"
        )
    if choose > proposals + OTHERS:
        faults.append(
            f"--choose: found {choose}; allowed: up to --proposals and {OTHERS} of other kinds, "
            f"{proposals + OTHERS}"
        )
    if faults:
        tell(faults)
        raise typer.Exit(2)
