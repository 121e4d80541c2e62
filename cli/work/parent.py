"""A process that does not outlive the one that started it, however that ended."""

from __future__ import annotations

import os
import signal
import sys
import threading
import time

PR_SET_PDEATHSIG = 1  # Source: Linux, include/uapi/linux/prctl.h
LOOK_S = 0.5


def end_with(parent: int) -> None:
    """From here on this process ends when `parent`, which forked it, does. In the main thread;
    its parent must have forked it there too, as the signal comes when that thread ends."""
    if not _told_by_the_system():
        threading.Thread(target=_watch, args=(parent,), daemon=True).start()
    if os.getppid() != parent:  # it ended meanwhile
        os._exit(1)


def _told_by_the_system() -> bool:
    if not sys.platform.startswith("linux"):
        return False
    import ctypes

    try:
        return bool(ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL) == 0)
    except (OSError, AttributeError):  # a system that has no such call
        return False


def _watch(parent: int) -> None:
    while os.getppid() == parent:
        time.sleep(LOOK_S)
    os._exit(1)
