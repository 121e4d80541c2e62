"""The ledger's file: changed by one process at a time, whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from platewheel.cli.ledger.change import undone
from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.ledger.read import ledger_of, read_ledger
from platewheel.cli.work.lock import NO_LOCKS, alone
from platewheel.cli.work.not_finished import NotFinished
from platewheel.cli.work.stopping import undisturbed
from platewheel.cli.work.whole_file import put_whole
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import toml_value

HEAD = """\
# Steel on the rack, every piece by the name chalked on it: [[plate]], [[offcut]], [[bar]],
# [[pipe]] and [[round]] with the keys of a job file, but no count. platewheel writes this
# file anew when a job takes or leaves a piece; remarks stay as note = "...", not as comments.
# state: free, reserved for a job, used by it, or coming: what a job leaves once it is cut.
"""
START = """
[[plate]]
name = "plate-1"
thickness_mm = 6
width_mm = 1250
length_mm = 2500
"""
TRIES = 100  # ten seconds; a change takes a few thousandths


def changed(path: Path, change: Callable[[Ledger], Ledger]) -> tuple[Ledger, Ledger]:
    """The ledger before and after a change, which is on the disk when this returns.

    Nothing is written where `change` raises. Raises: SpecError where the file is damaged,
    NotFinished where another process keeps it locked, OSError; whatever `change` raises.
    """
    home = Path(os.path.realpath(path))  # all its names share one lock
    if not home.is_file():  # a lock would be left beside nothing
        read_ledger(home)
    with _locked(home):
        before = read_ledger(home)
        after = change(before)
        if after != before:
            require_kept(path)
            with undisturbed():
                put_whole(home, ledger_toml(after).encode())
        return before, after


def take_back(path: Path, job: str, job_file: str, before: str) -> None:
    """After a run that was ended with pieces reserved for the job: they are as the text of the
    ledger before it has them. Nothing where that cannot be."""
    with suppress(NotFinished, SpecError, OSError):
        holder, former = Holder(job, job_file or None), ledger_of(path, before)
        changed(path, lambda now: undone(now, former, holder))


def require_kept(path: Path) -> None:
    """The ledger can be written; for a command that takes long, to ask first. Raises:
    NotFinished."""
    home = os.path.realpath(path)
    if not os.access(os.path.dirname(home), os.W_OK | os.X_OK):
        raise NotFinished([f"{path}: its folder is not yours to write in; ask whose it is"])
    if os.path.exists(home) and not os.access(home, os.W_OK):
        way = "let it be written to (chmod u+w), or ask whose it is"
        raise NotFinished([f"{path}: the ledger is not to be written to; {way}"])


def ledger_toml(ledger: Ledger) -> str:
    """Text of the file."""
    return "\n".join([HEAD, *(_piece_toml(piece) for piece in ledger.pieces)])


def _piece_toml(piece: Piece) -> str:
    keys = {"name": piece.name, **piece.sizes, "state": piece.state}
    more = {"job": piece.job, "job_file": piece.job_file, "note": piece.note}
    keys |= {key: value for key, value in more.items() if value}
    lines = (f"{key} = {toml_value(value)}" for key, value in keys.items())
    return "\n".join([f"[[{piece.kind}]]", *lines, ""])


@contextmanager
def _locked(path: Path) -> Iterator[None]:
    """Alone with the ledger. The lock goes with its process, however that ends; its file stays."""

    def refusal(who: str) -> NotFinished:
        return NotFinished([f"{path}: {who} is changing it; try again when it is done"])

    with ExitStack() as held:
        try:
            held.enter_context(alone(path.with_name(f".{path.name}.lock"), TRIES, refusal))
        except OSError as error:
            if error.errno not in NO_LOCKS:
                raise
            why = "its disk knows no locks, and two jobs at once could take one piece"
            raise NotFinished([f"{path}: {why}; keep it on another disk"]) from error
        yield
