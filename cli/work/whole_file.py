"""One file written beside its place and then put into it: all of it or nothing."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from platewheel.cli.work.guard import in_place
from platewheel.cli.work.lock import lock_now
from platewheel.cli.work.stopping import undisturbed

ASIDE = re.compile(r"\.platewheel-[0-9a-f]{16}")  # room for the longest name


def write_whole(file: Path, made: bytes, *, over: bool = True) -> None:
    """Write the bytes that a person has asked for by the file's name, as `put_whole`; a run that
    is stopped after it tells that the file is there."""
    told = f"{file} is the new one, whole" if over and file.exists() else f"{file} is written"
    put_whole(file, made, over=over, then=lambda: in_place(told))


def put_whole(
    file: Path, made: bytes, *, over: bool = True, then: Callable[[], None] = lambda: None
) -> None:
    """Write the bytes, and do `then` with no stop between. A link stays one, and a file that is
    written over keeps who may read it. What a run that was ended left in the folder goes.

    Raises: FileExistsError where it is there and is not to be written `over`; OSError that names
    the file, or its folder where nothing can be put into that.
    """
    target = Path(os.path.realpath(file))
    named = target.parent
    try:
        _clear(target.parent)
        with _aside(target.parent) as (aside, out):
            named = file
            out.write(made)
            out.flush()
            os.fsync(out.fileno())
            if over and target.exists():
                target.open("r+b").close()  # it may be written to
                shutil.copymode(target, aside)
            if sys.platform == "win32":  # none is renamed there while it is open
                out.close()
            with undisturbed():
                _put(aside, target, over)
                then()
    except OSError as error:
        error.filename, error.filename2 = str(named), None  # not one that nobody gave
        raise


@contextmanager
def _aside(folder: Path) -> Iterator[tuple[Path, BinaryIO]]:
    """A file of no other's, locked while its process lives, taken away where it is not put into
    its place."""
    while True:
        aside = folder / f".platewheel-{os.urandom(8).hex()}"
        with aside.open("xb") as out:
            try:
                with suppress(OSError):  # a disk without locks
                    lock_now(out.fileno())
                if aside.exists():  # not taken for a leftover before it was locked
                    yield aside, out
                    return
            finally:
                out.close()
                aside.unlink(missing_ok=True)


def _clear(folder: Path) -> None:
    with suppress(OSError):  # not to be listed, or without locks: what is there stays
        for left in [one for one in folder.iterdir() if ASIDE.fullmatch(one.name)]:
            with left.open("r+b") as target:
                at_work = not lock_now(target.fileno())
            if not at_work:
                left.unlink(missing_ok=True)


def _put(aside: Path, target: Path, over: bool) -> None:
    if over:
        aside.replace(target)
        return
    try:
        os.link(aside, target)  # in one step, and not over one that was made meanwhile
    except FileExistsError:
        raise
    except OSError:  # a disk without links
        target.open("xb").close()
        aside.replace(target)
