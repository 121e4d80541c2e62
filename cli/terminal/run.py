"""One run of the command line in its own process: signals, streams, and the code it ends with."""

from __future__ import annotations

import logging
import os
import re
import signal
import sys
import warnings
from collections.abc import Callable

from platewheel.cli.terminal.exits import NOT_FINISHED, tell
from platewheel.cli.terminal.streams import lost_output
from platewheel.cli.terminal.width import SIZE
from platewheel.cli.work.guard import tell_guard
from platewheel.cli.work.stopping import (
    ToldToStop,
    anything_placed,
    hear_no_more,
    what_is_kept,
)
from platewheel.parts.base.interruptible import hear_kept

INTERRUPTED = 128 + signal.SIGINT  # so the library of commands ends at Ctrl-C, without a word
NO_HOME = "/proc/no-home"  # nothing is there, and nobody can make it


def run(command: Callable[[], object]) -> int:
    """The exit code. What a command does not meet itself is met here."""
    hear_kept(_goes_on)
    _quiet_libraries()
    _sound_environment()
    try:
        os.getcwd()
    except OSError:
        tell(["the folder that this was started in is gone; change into another one first"])
        return NOT_FINISHED
    try:
        code = _left(command)
        hear_no_more()
    except (KeyboardInterrupt, ToldToStop):  # between the two
        hear_no_more()
        code = _told_to_stop()
    sys.stdout.flush()
    lost = lost_output()
    if lost:
        tell([lost])
        if not anything_placed():  # what it shows is all that it does
            code = max(code, NOT_FINISHED)
    sys.stderr.flush()
    return code


def _quiet_libraries() -> None:
    """What they say of their caches and of each other is nothing that a person here can use."""
    logging.getLogger().addHandler(logging.NullHandler())
    if not sys.warnoptions:
        warnings.simplefilter("ignore")


def _sound_environment() -> None:
    """What a variable says that is no such thing is not said at all: libraries stumble over it."""
    if not _may_enter(os.path.expanduser("~")):
        os.environ["HOME"] = NO_HOME  # some will not be loaded without one, or below a file
    for name in ("COLUMNS", "LINES"):
        if not re.fullmatch(SIZE, os.environ.get(name, "80")):
            del os.environ[name]
    for name in [one for one in os.environ if re.fullmatch("XDG_[A-Z]+_HOME", one)]:
        folder = os.environ[name]  # by its specification one not absolute is to be ignored
        if not os.path.isabs(folder) or (os.path.lexists(folder) and not _may_enter(folder)):
            del os.environ[name]
    if not re.fullmatch(r"[1-9][0-9]*(,[1-9][0-9]*)*", os.environ.get("OMP_NUM_THREADS", "1")):
        del os.environ["OMP_NUM_THREADS"]
    os.environ.pop("SOURCE_DATE_EPOCH", None)  # our files have one date, and no other is asked for


def _may_enter(folder: str) -> bool:
    """Whether it is a folder in which files may be looked for."""
    return os.path.isdir(folder) and os.access(folder, os.R_OK | os.X_OK)


def _left(command: Callable[[], object]) -> int:
    try:
        command()
    except SystemExit as left:
        if left.code == INTERRUPTED:  # between what meets it in a command and the command's end
            return _told_to_stop()
        return left.code if isinstance(left.code, int) else int(left.code is not None)
    except (KeyboardInterrupt, ToldToStop):  # before the command had begun, or after it
        return _told_to_stop()
    return 0


def _told_to_stop() -> int:
    tell([f"stopped; {what_is_kept()}"])
    return NOT_FINISHED


def _goes_on(kept: str) -> None:
    tell_guard("keeps")
    tell([f"stopped: writing {kept}; Ctrl-C again ends at once"])
