"""Two folders exchange their places in one step, where the system has such a step."""

from __future__ import annotations

import ctypes
import os
import sys
from pathlib import Path

AT_FDCWD, RENAME_EXCHANGE = -100, 2  # Source: Linux, include/uapi/linux/fcntl.h, fs.h
RENAME_SWAP = 2  # Source: macOS, sys/stdio.h (from memory)


def exchange(one: Path, other: Path) -> bool:
    """At every moment each name is one folder or the other. False where it was not done."""
    try:
        library = ctypes.CDLL(None, use_errno=True)
        first, second = os.fsencode(one), os.fsencode(other)
        if sys.platform.startswith("linux"):
            call = library.renameat2
            call.argtypes = (
                ctypes.c_int,
                ctypes.c_char_p,
                ctypes.c_int,
                ctypes.c_char_p,
                ctypes.c_uint,
            )
            done = call(AT_FDCWD, first, AT_FDCWD, second, RENAME_EXCHANGE)
        elif sys.platform == "darwin":
            done = library.renamex_np(first, second, ctypes.c_uint(RENAME_SWAP))
        else:
            return False
    except (AttributeError, OSError, TypeError):  # no such library, no such call
        return False
    return bool(done == 0)  # a disk that cannot do it may do two renames
