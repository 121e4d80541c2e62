"""The command that writes a first job file: few keys, every key, or as questions are answered."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from platewheel.cli.terminal.exits import (
    CHECK_FAILED,
    NOT_FINISHED,
    REFUSED,
    exit_codes,
    require_new,
    tell,
    tell_file,
    write_new,
)
from platewheel.cli.terminal.options import file_named

if TYPE_CHECKING:
    from platewheel.cli.schema.propose import ProposalRow
    from platewheel.cli.terminal.talk import TerminalTalk

OUT = Path("out")


def new_job(
    file: Annotated[Path, typer.Argument(help="Where to write the job file.", parser=file_named)],
    ask: Annotated[
        bool, typer.Option("--ask", help="Ask, in mm or inches, and write what was answered.")
    ] = False,
    every: Annotated[
        bool, typer.Option("--all", help="Every key, with its range and its reason.")
    ] = False,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", "--force", help="Write over a file that is there.")
    ] = False,
) -> None:
    """Write a job file to start from: what only you know of track, wagon, steel and tools."""
    from platewheel.cli.start.every_key import every_key_text
    from platewheel.cli.start.first_job import table_of
    from platewheel.cli.start.short_file import short_job_text

    if ask and every:
        raise typer.BadParameter("--ask writes the keys that it asks for; --all writes every key")
    with exit_codes():
        if ask:
            _asked(file, overwrite)
            return
        write_new(file, every_key_text() if every else short_job_text(table_of({})), overwrite)
    tell_file(file)


def _asked(file: Path, overwrite: bool) -> None:
    from platewheel.cli.start.first_job import TREAD, table_of
    from platewheel.cli.start.interview import interview
    from platewheel.cli.start.short_file import short_job_text
    from platewheel.cli.terminal.talk import TerminalTalk
    from platewheel.cli.work.stopping import ToldToStop, stopped

    require_new(file, overwrite)
    talk = TerminalTalk()
    try:
        answered, search = interview(talk)
    except (typer.Abort, KeyboardInterrupt, ToldToStop):
        typer.echo()
        told = stopped()
        if not (talk.answers or talk.watched or told):
            tell(["--ask: no terminal, and no answers piped in, one a line; try it without --ask"])
            raise typer.Exit(REFUSED) from None
        why = "stopped" if talk.watched or told else f"the answers end after line {talk.answers}"
        tell([f"{why}: nothing is written"])
        raise typer.Exit(NOT_FINISHED) from None
    table = table_of(answered)
    write_new(file, short_job_text(table), overwrite)  # stays, whatever becomes of the search
    found = not search or _with_proposal(file, table, answered[TREAD], talk)
    tell_file(file)
    if not found:
        talk.say(f"Next: change in it what is told above, then `platewheel propose {file}`.")
        raise typer.Exit(CHECK_FAILED)
    talk.say(f"Next: `platewheel check {file}`, then `platewheel build {file}`.")


def _with_proposal(
    file: Path, table: dict[str, Any], wanted_mm: float | None, talk: TerminalTalk
) -> bool:
    """The file again with the cheapest wheel that passes; False where there is none."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.folder import PROPOSAL_OURS, require_ours
    from platewheel.cli.output.proposal import write_proposal
    from platewheel.cli.propose.run import propose
    from platewheel.cli.propose.wanted import Wanted
    from platewheel.cli.start.proposed import with_proposal
    from platewheel.cli.start.short_file import FOUND, short_job_text
    from platewheel.cli.terminal.show import steps
    from platewheel.cli.words.proposal import STOPPED, own_words

    before = file.read_text(encoding="utf-8")
    job = read_job(file)
    size = job.wheel.tread_diameter_mm
    wanted = (
        Wanted(round(0.7 * size), round(1.3 * size))
        if wanted_mm is None
        else Wanted(wanted_mm, wanted_mm, step_mm=wanted_mm)
    )
    require_ours(OUT, f"{job.head.name}-proposal", PROPOSAL_OURS)
    with steps() as step:
        report = propose(job, wanted, step)
    page = write_proposal(job, report, OUT)
    tell([*report.refused, *report.left_out])
    if not report.proposals:
        why = [f"no wheel was found that passes; {file} has the wheel to start from; see {page}"]
        if wanted_mm is not None:
            why.append(f"`platewheel propose {file}` looks at other tread diameters, too")
        tell(why)
        return False
    if file.read_text(encoding="utf-8") != before:
        tell([f"{file}: changed meanwhile, and so left as it is; the wheels found are in {page}"])
        return False
    first: ProposalRow = report.proposals[0]
    text = short_job_text(with_proposal(table, first.wheel, first.set_back_to_back_mm), FOUND)
    write_new(file, text, overwrite=True)
    told = [STOPPED] if report.stopped else []
    told += [own_words(report), *report.notes, " ".join(first.lessons)]
    told += [f"look at: {line}" for line in first.warnings]
    for line in (*told, f"the others, and what one step would change: {page}"):
        talk.say(line)
    return True
