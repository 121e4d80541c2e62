"""The stock commands: the ledger of the steel on the rack."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, tell, tell_file, write_new
from platewheel.cli.terminal.options import Effort, JobFile, Json, Seed, Work, file_named

if TYPE_CHECKING:
    from platewheel.cli.ledger.piece import Holder, Ledger

stock = typer.Typer(
    help="The steel on the rack: every piece by its name, and which job has it.",
    no_args_is_help=True,
)
LedgerFile = Annotated[Path, typer.Option("--ledger", help="The ledger (TOML).")]
JobName = Annotated[str, typer.Argument(help="Name of the job, or the path of its file.")]
HERE = Path("stock.toml")


@stock.command("new")
def new_ledger(
    file: Annotated[
        Path, typer.Argument(help="Where to write the ledger.", parser=file_named)
    ] = HERE,
) -> None:
    """Write a ledger to start from; a job file names it as `ledger`."""
    from platewheel.cli.ledger.keep import HEAD, START

    with exit_codes():
        write_new(file, HEAD + START, overwrite=None)  # a ledger is never written over
    tell_file(file)


@stock.command("list")
def list_pieces(ledger: LedgerFile = HERE, as_json: Json = False) -> None:
    """Show every piece and which job has it."""
    from platewheel.cli.ledger.read import read_ledger
    from platewheel.cli.terminal.show import show_json, show_table
    from platewheel.cli.words.rack import rack_table

    with exit_codes():
        found = rack_table(read_ledger(ledger))
        if as_json:
            show_json({"pieces": found.as_json()})
        else:
            show_table("On the rack", found)


@stock.command()
def reserve(
    job_file: JobFile, seed: Seed = 0, effort: Work = Effort.normal, as_json: Json = False
) -> None:
    """Reserve what a job's plan takes, as `nest` does, and write no cutting files."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.job.plan import plan_job
    from platewheel.cli.job.what_fits import settled
    from platewheel.cli.output.reserved import require_free, require_ledger, reserved
    from platewheel.cli.terminal.show import show_json, steps

    with exit_codes():
        job = read_job(job_file)
        require_ledger(job)
        require_free(job)
        with steps() as step:
            plan = plan_job(job, seed, step, effort.value)
            plan = settled(job, plan, seed, step, effort.value, what_fits=False).plan
        with reserved(job, plan) as taken:
            if as_json:
                show_json({"reserved": taken})
        if not as_json:
            tell(taken or ["nothing is reserved: the plan cuts no piece of the ledger"])


@stock.command("give-back")
def give_back(job: JobName, ledger: LedgerFile = HERE) -> None:
    """What the job has reserved is free again, and what it was to leave does not come."""
    from platewheel.cli.ledger.change import give_back as change

    with exit_codes():
        _change(job, ledger, change)


@stock.command()
def cut(job: JobName, ledger: LedgerFile = HERE) -> None:
    """The job is cut: its pieces are used up, and what it leaves lies on the rack."""
    from platewheel.cli.ledger.change import cut as change

    with exit_codes():
        _change(job, ledger, change)


def _change(job: str, file: Path, change: Callable[[Ledger, Holder], Ledger]) -> None:
    from platewheel.cli.ledger.change import holder_called
    from platewheel.cli.ledger.keep import changed

    before, after = changed(file, lambda ledger: change(ledger, holder_called(ledger, job)))
    was = {piece.called: piece for piece in before.pieces}
    for piece in after.pieces:
        if was.get(piece.called) != piece:
            typer.echo(f"{piece.kind} '{piece.name}': {piece.state}")
