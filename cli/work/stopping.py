"""Being told to stop: Ctrl-C asks, SIGTERM tells; neither breaks in where it would do harm."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import FrameType

SHORT = (
    "Ctrl-C has ended the search for places: the plan is the best found by then; the same command, "
    "left to its end, may find a better one"
)
# of a command with a job folder, a file or neither
NOTHING_WRITTEN = "nothing is written, all is as it was"
AGAIN_S = 0.05  # looked again whether the place is safe


class ToldToStop(BaseException):
    """Ends the run now: no search keeps what it has found, as it may at a KeyboardInterrupt."""


@dataclass
class _State:
    """Of this process: what came and waits, who may not be disturbed, what is in place."""

    waiting: type[BaseException] | None = None
    came: bool = False
    told: bool = False  # once is enough, whoever says it again
    undisturbed: int = 0
    placed: list[str] = field(default_factory=list)


_STATE = _State()
# Ctrl-C in a process that another one watches over: that one hears it and passes it on, once
ASKED = getattr(signal, "SIGUSR1", signal.SIGINT)


def listen() -> None:
    """From here on signals are met so. In the main thread, once a process."""
    told = [signal.SIGTERM, *([signal.SIGHUP] if hasattr(signal, "SIGHUP") else [])]
    for number in (ASKED, *told):
        if signal.getsignal(number) != signal.SIG_IGN:  # nohup stays in force
            signal.signal(number, _heard)
    if hasattr(signal, "SIGALRM"):
        signal.signal(signal.SIGALRM, _heard)
        sys.unraisablehook = _swallowed


def stopped() -> bool:
    """Whether this run was asked or told to stop."""
    return _STATE.came


def stopped_short() -> list[str]:
    """For the warnings of a plan: by Ctrl-C it is less than what another run would find."""
    return [SHORT] if _STATE.came else []


def placed(line: str) -> None:
    """For that line; see `guard.in_place`."""
    _STATE.placed.append(line)


def anything_placed() -> bool:
    """Whether a file or folder was written."""
    return bool(_STATE.placed)


def how_many_placed() -> int:
    """Files and folders that this process has written so far."""
    return len(_STATE.placed)


def what_is_kept() -> str:
    """For that line."""
    return "; ".join(_STATE.placed) or NOTHING_WRITTEN


@contextmanager
def undisturbed() -> Iterator[None]:
    """What is done inside is done to its end; a stop that came meanwhile is met after it."""
    _STATE.undisturbed += 1
    try:
        yield
    finally:
        _STATE.undisturbed -= 1
    if _STATE.waiting and not _STATE.undisturbed:
        _stop()


def hear_no_more() -> None:
    """What is left is to show what was done, and to leave: no stop breaks in any more."""
    _STATE.undisturbed += 1


def _heard(number: int, frame: FrameType | None) -> None:
    _STATE.came = True
    if number == ASKED:  # once it was told, no search is to keep what it has found and go on
        _STATE.waiting = _STATE.waiting or (None if _STATE.told else KeyboardInterrupt)
    elif number != getattr(signal, "SIGALRM", None) and not _STATE.told:
        _STATE.told, _STATE.waiting = True, ToldToStop
    if _STATE.waiting is None or _STATE.undisturbed:
        return
    if _loading(frame) and hasattr(signal, "setitimer"):
        signal.setitimer(signal.ITIMER_REAL, AGAIN_S)
        return
    _stop()


def _swallowed(told: sys.UnraisableHookArgs) -> None:
    """A stop that was raised where Python lets nothing out, as while a process is forked."""
    if not issubclass(told.exc_type, KeyboardInterrupt | ToldToStop):
        sys.__unraisablehook__(told)
        return
    _STATE.waiting = told.exc_type
    signal.setitimer(signal.ITIMER_REAL, AGAIN_S)


def _stop() -> None:
    error, _STATE.waiting = _STATE.waiting, None
    assert error is not None
    raise error


def _loading(frame: FrameType | None) -> bool:
    """Whether a library is being loaded: half of one left behind may crash the interpreter."""
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False
