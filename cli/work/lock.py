"""One process at a time: a lock that goes with its process, however that ends."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

WAIT_S = 0.1


@contextmanager
def alone(path: Path, tries: int, refusal: Callable[[str], Exception]) -> Iterator[None]:
    """While `path` is locked by this process. It is tried `tries` times, a tenth of a second
    apart; then `refusal` of who has it, in words, is raised. The file stays.

    Raises: OSError where the disk knows no locks.
    """
    file = _locked(path, tries, refusal)
    with file:
        yield


@contextmanager
def alone_for_now(path: Path, tries: int, refusal: Callable[[str], Exception]) -> Iterator[None]:
    """The same with a file that is taken away in the end. Whoever waited for it meanwhile sees
    that what is locked is no longer the file of that name, and begins anew."""
    for _ in range(tries):
        file = _locked(path, tries, refusal)
        if _is(path, file):
            break
        file.close()
    else:
        raise refusal("another process")
    with file:
        _write_id(file)
        try:
            yield
        finally:
            if sys.platform != "win32":  # while it is locked: nobody else can have it
                path.unlink(missing_ok=True)
    if sys.platform == "win32":
        with suppress(OSError):  # another one has it open
            path.unlink(missing_ok=True)


def _locked(path: Path, tries: int, refusal: Callable[[str], Exception]) -> BinaryIO:
    file = path.open("a+b")
    try:
        for attempt in range(tries):
            if lock_now(file.fileno()):
                return file
            if attempt + 1 < tries:
                time.sleep(WAIT_S)
        raise refusal(_who(file))
    except BaseException:
        file.close()
        raise


def lock_now(handle: int) -> bool:
    """Whether the open file is locked by this process now. Raises: OSError."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def _is(path: Path, file: BinaryIO) -> bool:
    try:
        return os.path.samestat(path.stat(), os.fstat(file.fileno()))
    except FileNotFoundError:
        return False


def _write_id(file: BinaryIO) -> None:
    if sys.platform == "win32":  # what is locked there cannot be read by others
        return
    file.truncate(0)
    file.write(f"{os.getpid()}\n".encode())
    file.flush()


def _who(file: BinaryIO) -> str:
    try:
        file.seek(0)
        number = file.read(20).strip()
    except OSError:
        number = b""
    return f"platewheel, process {int(number)}" if number.isdigit() else "another platewheel"
