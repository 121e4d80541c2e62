"""One file written beside its place and then put into it: all of it or nothing."""

from __future__ import annotations

import os
import re
import shutil
from contextlib import suppress
from pathlib import Path

from platewheel.cli.work.guard import in_place
from platewheel.cli.work.lock import lock_now
from platewheel.cli.work.stopping import undisturbed


def write_whole(file: Path, made: bytes, *, over: bool = True) -> None:
    """Write the bytes; `over` a file that is there, too, which keeps its rights and, where `file`
    is a link to it, its place. What a run that was ended left beside it is taken away.

    Raises: FileExistsError where it is there and not `over`; OSError.
    """
    home = file.resolve() if file.is_symlink() else file
    there = over and home.exists()
    if there and not home.is_file():  # a device takes what comes
        home.write_bytes(made)
        return
    _clear(home)
    aside = home.with_name(f".{home.name}-{os.getpid()}")
    try:
        with aside.open("wb") as target:
            with suppress(OSError):  # a disk without locks
                lock_now(target.fileno())  # goes with this process, however that ends
            target.write(made)
            target.flush()
            if there:
                home.open("r+b").close()  # it may be written to
                shutil.copymode(home, aside)
            with undisturbed():
                _put(aside, home, over)
                in_place(f"{file} is the new one, whole" if there else f"{file} is written")
    finally:
        aside.unlink(missing_ok=True)


def _clear(home: Path) -> None:
    name = re.compile(rf"\.{re.escape(home.name)}-[0-9]+")
    with suppress(OSError):  # not to be listed, or without locks: what is there stays
        for left in [one for one in home.parent.iterdir() if name.fullmatch(one.name)]:
            with left.open("r+b") as target:
                if lock_now(target.fileno()):
                    left.unlink()


def _put(aside: Path, home: Path, over: bool) -> None:
    if over:
        aside.replace(home)
        return
    try:
        os.link(aside, home)  # in one step, and not over one that was made meanwhile
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no links
        if home.exists():
            raise FileExistsError(home) from None
        aside.replace(home)
