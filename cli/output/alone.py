"""One run at a time in a job folder, and what a run that was ended left behind is cleared away."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from contextvars import ContextVar
from pathlib import Path

from platewheel.cli.work.guard import tell_guard
from platewheel.cli.work.lock import NO_LOCKS, alone_for_now
from platewheel.cli.work.not_finished import NotFinished

TRIES = 20  # two seconds
SOON = 4  # tries until the workers of a run that was ended, which share its lock, have ended too
_MINE: ContextVar[frozenset[Path]] = ContextVar("mine", default=frozenset())


@contextmanager
def alone_in(out: Path, name: str, tries: int | None = None) -> Iterator[None]:
    """While this run alone writes out/name. What is made of `out` for it goes with it where it is
    empty in the end. May be asked for again inside.

    Raises: NotFinished where another run has it; OSError.
    """
    home, lock = (out / name).absolute(), out / f".{name}.lock"
    if home in _MINE.get():
        yield
        return

    def refusal(who: str) -> NotFinished:
        return NotFinished([f"{home}: {who} is at work there; try again when it is done"])

    made = [one.absolute() for one in (out, *out.parents) if not one.exists()]
    mine = _MINE.set(_MINE.get() | {home})
    tell_guard("begins", "folder", out.absolute(), name, *made)
    try:
        out.mkdir(parents=True, exist_ok=True)
        with ExitStack() as held:
            try:
                held.enter_context(alone_for_now(lock, tries or TRIES, refusal))
            except OSError as error:
                if error.errno not in NO_LOCKS:
                    raise
                # whoever works there is trusted to be alone
                lock.unlink(missing_ok=True)
                put_back(out, name)
            else:
                clear(out, name)
            yield
    finally:
        _MINE.reset(mine)
        _away_where_empty(made)
    if not _left(out, name):  # else the guard clears it, when this process has let go of its files
        tell_guard("ends", "folder", out.absolute(), name)


def mend(out: Path, name: str, made: Sequence[Path] = ()) -> None:
    """After a run there that was ended, which had `made` folders for it, inner ones first. Nothing
    where another one is at work there already."""
    with suppress(NotFinished, OSError), alone_in(out, name, SOON):
        pass
    _away_where_empty(made)


def _away_where_empty(folders: Sequence[Path]) -> None:
    for one in folders:
        with suppress(OSError):  # it holds something
            one.rmdir()


def clear(out: Path, name: str) -> None:
    """Put right what a run that was ended left: a job folder between two renames is put back, what
    was written aside is taken away. To be called alone there."""
    put_back(out, name)
    for aside in _asides(out, name):
        take_away(aside)


def take_away(aside: Path) -> None:
    """The folder with all that is in it, where that can be."""
    shutil.rmtree(aside, ignore_errors=True)
    if not aside.exists():
        return
    for home, folders, files in os.walk(aside, topdown=False):  # one handle instead of three
        for one in files:
            with suppress(OSError):
                os.unlink(os.path.join(home, one))
        _away_where_empty([Path(home, one) for one in folders])
    _away_where_empty([aside])


def _left(out: Path, name: str) -> bool:
    try:
        return out.exists() and any(_asides(out, name))
    except OSError:  # not to be listed now
        return True


def put_back(out: Path, name: str) -> None:
    """Put back a job folder between two renames."""
    home = out / name
    for aside in _asides(out, name):
        former = former_of(aside, name)
        if former.is_dir() and not home.exists():
            former.rename(home)


def _asides(out: Path, name: str) -> Iterator[Path]:
    """Folders that runs wrote to: nothing is in them but what those put there."""
    pattern = re.compile(rf"\.{re.escape(name)}-[a-z0-9_]{{8}}")
    for aside in sorted(one for one in out.iterdir() if pattern.fullmatch(one.name)):
        if aside.is_symlink() or not aside.is_dir():
            continue
        if {one.name for one in aside.iterdir()} <= {"made", former_of(aside, name).name}:
            yield aside


def former_of(aside: Path, name: str) -> Path:
    """Where the former job folder lies while the new one is put in its place by two renames."""
    return aside / f"former-{name}"
