"""A plan's pieces on the job's rack: reserved before its files are written, or nothing is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import left_pieces, taken_pieces
from platewheel.cli.job.plan import Plan
from platewheel.cli.ledger.change import reserve, undone
from platewheel.cli.ledger.keep import changed, ledger_toml, require_kept
from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.work.guard import tell_guard
from platewheel.cli.work.stopping import how_many_placed
from platewheel.parts.base.faults import Fault, SpecError


@contextmanager
def reserved(job: Job, plan: Plan, *, axles: bool = True) -> Iterator[list[str]]:
    """While the files are written the pieces of the ledger that they cut are the job's; where they
    cannot be written all is as it was. Yields what is taken, in words; nothing without a ledger.

    `axles`: those of the job are sawn too. Raises: NotFinished where another job was quicker;
    SpecError where the ledger is damaged.
    """
    if job.rack is None:
        yield []
        return
    holder = Holder(job.head.name, job.rack.file)
    taken, leaves = taken_pieces(job, plan, axles), left_pieces(job, plan, axles)
    seen = job.rack.ledger
    path = seen.path
    in_place, told = how_many_placed(), ("ledger", str(path.absolute()), holder.job)

    def reserving(ledger: Ledger) -> Ledger:
        with_ours = reserve(ledger, holder, taken, leaves, seen)
        tell_guard("begins", *told, holder.job_file or "", ledger_toml(ledger))
        return with_ours

    before, after = changed(path, reserving)
    try:
        yield [*_words(path.name, taken), *_twice(after, leaves, holder)]
    except BaseException:
        if how_many_placed() == in_place:  # else the files are there, though it was stopped
            changed(path, lambda now: undone(now, before, holder))
        tell_guard("ends", *told)
        raise
    tell_guard("ends", *told)


def require_free(job: Job) -> None:
    """Raises: SpecError telling each offcut of the job's file that another job has; NotFinished
    where the ledger cannot be written."""
    if job.rack:
        job.rack.require_free(job.head.name)
        require_kept(job.rack.ledger.path)


def require_ledger(job: Job) -> None:
    """Raises: SpecError where the job names no ledger."""
    if job.rack is None:
        advice = 'ledger = "stock.toml"; `platewheel stock new` writes one'
        raise SpecError([Fault("job.ledger", None, "the file of the steel on the rack", advice)])


def _words(ledger: str, taken: Sequence[Piece]) -> Iterator[str]:
    kinds = list(dict.fromkeys(piece.kind for piece in taken))
    names = {kind: [p.name for p in taken if p.kind == kind] for kind in kinds}
    told = "; ".join(f"{kind} {', '.join(names[kind])}" for kind in kinds)
    if told:
        yield f"reserved in {ledger}: {told}; when they are cut: `platewheel stock cut`"


def _twice(after: Ledger, leaves: Sequence[Piece], holder: Holder) -> Iterator[str]:
    for piece in leaves:
        there = after.piece(piece.name)
        if there and (there.state, there.holder) != ("coming", holder):
            yield (
                f"{piece.kind} '{piece.name}' is in {after.path.name} already, from a former cut "
                "of the same job: chalk another name on the new one and write it down"
            )
