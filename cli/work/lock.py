"""One process at a time: a lock that goes with its process, however that ends."""

from __future__ import annotations

import errno
import os
import re
import stat
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

WAIT_S = 0.1
# errors of a disk without locks, some in a network
NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS)
NOT_OURS = "there, but no lock of platewheel; move it away"
_OURS = re.compile(rb"\d*\n?")  # all that a lock holds: who has it


class NoLock(OSError):  # noqa: N818 - named for what it tells
    """What stands in the place of a lock, by its name; nothing of it is touched."""


@contextmanager
def alone(path: Path, tries: int, refusal: Callable[[str], Exception]) -> Iterator[None]:
    """While `path` is locked by this process. It is tried `tries` times, a tenth of a second
    apart; then `refusal` of who has it, in words, is raised. The file stays.

    Raises: NoLock; OSError that names it where the disk knows no locks.
    """
    file = _locked(path, tries, refusal)
    with file:
        yield


@contextmanager
def alone_for_now(path: Path, tries: int, refusal: Callable[[str], Exception]) -> Iterator[None]:
    """The same with a file that is taken away in the end. Whoever waited for it meanwhile sees
    that what is locked is no longer the file of that name, and begins anew.

    Raises: as `alone`; OSError that names it where the folder takes none.
    """
    for attempt in range(tries):
        path.parent.mkdir(parents=True, exist_ok=True)  # whoever made it may have taken it away
        try:
            file = _locked(path, tries, refusal)
        except FileNotFoundError:
            if attempt + 1 == tries:  # nobody took it away: it cannot be made here
                raise
            continue
        if _is(path, file):
            break
        file.close()
    else:
        raise refusal("another process")
    with file:
        _write_id(path, file)
        try:
            yield
        finally:
            if sys.platform != "win32":  # while it is locked: nobody else can have it
                with suppress(OSError):  # another person's, in a folder where each keeps his own
                    path.unlink(missing_ok=True)
    if sys.platform == "win32":
        with suppress(OSError):  # another one has it open
            path.unlink(missing_ok=True)


def _locked(path: Path, tries: int, refusal: Callable[[str], Exception]) -> BinaryIO:
    file = _opened(path)
    try:
        for attempt in range(tries):
            if lock_now(file.fileno()):
                return file
            if attempt + 1 < tries:
                time.sleep(WAIT_S)
        raise refusal(_who(file))
    except BaseException as error:
        file.close()
        if isinstance(error, OSError):
            error.filename = str(path)
        raise


def _opened(path: Path) -> BinaryIO:
    """Not what a link leads to, and nothing that is waited for; that of another person as it is."""
    beside = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    beside |= getattr(os, "O_BINARY", 0)
    if os.path.lexists(path) and not stat.S_ISREG(os.lstat(path).st_mode):
        raise NoLock(errno.EEXIST, NOT_OURS, str(path))
    try:
        handle = os.open(path, os.O_RDWR | os.O_APPEND | os.O_CREAT | beside, 0o666)
    except PermissionError:
        if not os.path.exists(path):
            raise
        return os.fdopen(os.open(path, os.O_RDONLY | beside), "rb")
    return os.fdopen(handle, "a+b")


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


def _write_id(path: Path, file: BinaryIO) -> None:
    if sys.platform == "win32":  # what is locked there cannot be read by others
        return
    file.seek(0)
    if not _OURS.fullmatch(file.read(40)):
        raise NoLock(errno.EEXIST, NOT_OURS, str(path))
    if not file.writable():
        return
    try:  # past the buffer, which would be written once more when the file is closed
        os.ftruncate(file.fileno(), 0)
        os.write(file.fileno(), f"{os.getpid()}\n".encode())
    except OSError as error:  # a disk that is full
        path.unlink(missing_ok=True)
        error.filename = str(path)
        raise


def _who(file: BinaryIO) -> str:
    try:
        file.seek(0)
        number = file.read(20).strip()
    except OSError:
        number = b""
    return f"platewheel, process {int(number)}" if number.isdigit() else "another platewheel"
