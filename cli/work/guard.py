"""The run in a process of its own, with one that has loaded nothing beside it.

A signal is heard by Python between two of its own steps. A library that meshes or compiles for
seconds makes none, and one that crashes makes no more. The process beside it passes signals on,
waits a moment, ends what has not ended, and puts the job folder right.
"""

from __future__ import annotations

import json
import os
import select
import signal
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import NoReturn

from platewheel.cli.work.parent import end_with
from platewheel.cli.work.stopping import (
    ASKED,
    NOTHING_WRITTEN,
    listen,
    placed,
    stopped,
    undisturbed,
)

GRACE_S = 1.0  # to end by itself; within two seconds it has ended
CUT_SHORT = 3  # exit code
DONE = (0, 1)  # those of a run that came to its end, whatever its checks say
TOLD = {signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)}
_TO_GUARD: list[int] = []  # in a run that is watched over: where it tells


@dataclass
class _Seen:
    """What the run has told."""

    begun: dict[tuple[str, ...], list[str]] = field(default_factory=dict)  # and not ended
    placed: list[str] = field(default_factory=list)
    keeps: bool = False  # it was asked to stop, and writes what it has found
    hard: bool = False  # it was told to end, whatever it would keep
    rest: bytes = b""


Mend = Callable[[Sequence[str], bool], None]


def guarded(run: Callable[[], int], mend: Mend) -> NoReturn:
    """Exits with the code of `run`, or 3 where it did not come to its end. `mend` puts right what
    such a run had told by `begins`, and whether its files are in place already."""
    if not hasattr(os, "fork"):
        listen()
        _end(run())
    told, tells = os.pipe()
    wake, wakes = os.pipe()
    for end in (told, wake, wakes):
        os.set_blocking(end, False)
    heard: list[int] = []
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        if signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, lambda given, frame: heard.append(given))
    signal.signal(signal.SIGCHLD, lambda given, frame: None)  # wakes the guard
    signal.set_wakeup_fd(wakes, warn_on_full_buffer=False)
    guard, started = os.getpid(), os.fork()
    if started == 0:
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # of a terminal's Ctrl-C the guard tells
        signal.signal(signal.SIGCHLD, signal.SIG_DFL)
        listen()
        end_with(guard)
        for one in heard:  # before it listened
            os.kill(os.getpid(), ASKED if one == signal.SIGINT else signal.SIGTERM)
        for end in (told, wake):  # by `wakes` the guard hears what this one was told, however deep
            os.close(end)  # in a library it is
        _TO_GUARD.append(tells)
        _end(run())
    os.close(tells)
    _watch(started, heard, (told, wake), mend)


def tell_guard(what: str, *more: object) -> None:
    """To the process that watches over this one, if there is one: that it "begins" or "ends" what
    would be to put right (its kind, where, its name; at the beginning more), has "placed" files, or
    "keeps" what it has found.
    """
    for end in _TO_GUARD:
        line = json.dumps([what, *map(str, more)]).encode() + b"\n"
        with undisturbed():  # a long one goes in pieces
            while line:
                line = line[os.write(end, line) :]


def in_place(line: str) -> None:
    """What is on the disk and whole now, for the line that ends a run that is stopped."""
    placed(line)
    tell_guard("placed", line)


def _end(code: int) -> NoReturn:
    for number in {ASKED, *TOLD}:  # all is done and shown; while the interpreter ends, too
        signal.signal(number, signal.SIG_IGN)
    if stopped():  # threads that were left alone may be deep in a library still
        os._exit(code)
    raise SystemExit(code)


def _watch(run: int, heard: list[int], ends: tuple[int, int], mend: Mend) -> NoReturn:
    seen, last, asked = _Seen(), None, 0
    while True:
        wait = None if last is None else max(last - time.monotonic(), 0.0)
        ready, _, _ = select.select([end for end in ends if end >= 0], [], [], wait)
        if ends[1] in ready and TOLD & set(_drained(ends[1]) or b"") and not seen.hard:
            heard.append(signal.SIGTERM)
        if ends[0] in ready and not _read(ends[0], seen):
            ends = (-1, ends[1])
        while heard:
            number = heard.pop(0)
            asked += number == signal.SIGINT
            seen.hard = seen.hard or number != signal.SIGINT or asked > 1
            _send(run, signal.SIGTERM if seen.hard else ASKED)
            last = last or time.monotonic() + GRACE_S
        if seen.keeps and not seen.hard:
            last = None
        done, status = os.waitpid(run, os.WNOHANG)
        if done:
            break
        if last is not None and time.monotonic() >= last:
            _send(run, signal.SIGKILL)
            _, status = os.waitpid(run, 0)
            break
    if ends[0] >= 0:
        _read(ends[0], seen)
    for one in [*seen.begun.values()][::-1]:  # not left in the way that a run leaves it
        mend(one, bool(seen.placed))
    if os.WIFEXITED(status):
        code = os.WEXITSTATUS(status)
        if (last is not None or heard) and code in DONE and not seen.keeps:
            _say("; ".join(["stopped when all was done", *seen.placed]))
            code = CUT_SHORT  # as wherever else a stop is heard
        os._exit(code)
    _say(_why(os.WTERMSIG(status), asked or last is not None, seen))
    os._exit(CUT_SHORT)


def _why(number: int, asked: object, seen: _Seen) -> str:
    kept = "; ".join(seen.placed) or NOTHING_WRITTEN
    if asked:
        return f"stopped; {kept}"
    if number == signal.SIGKILL:
        why = "ended from outside, for want of memory perhaps"
    else:
        named = number in set(signal.Signals)
        called = signal.Signals(number).name if named else f"signal {number}"
        why = f"a library has crashed ({called}), please report it"
    return f"{why}; {kept}"


def _say(line: str) -> None:
    try:
        if os.isatty(2):  # a line with a spinner may stand there still, and the cursor be hidden
            line = f"\r\x1b[K\x1b[?25h{line}"
        os.write(2, f"{line}\n".encode())
    except OSError:
        return


def _send(run: int, number: int) -> None:
    try:
        os.kill(run, number)
    except ProcessLookupError:
        return


def _drained(end: int) -> bytes | None:
    """What there is to read; None where nobody writes any more."""
    had = b""
    while True:
        try:
            more = os.read(end, 65536)
        except BlockingIOError:
            return had
        if not more:
            return had or None
        had += more


def _read(end: int, seen: _Seen) -> bool:
    """Take in what the run tells. Whether it may tell more."""
    got = _drained(end)
    *lines, seen.rest = (seen.rest + (got or b"")).split(b"\n")
    for line in lines:
        what, *more = json.loads(line)
        if what == "begins":
            seen.begun[tuple(more[:3])] = more
        elif what == "ends":
            seen.begun.pop(tuple(more), None)
        elif what == "placed":
            seen.placed += more
        elif what == "keeps":
            seen.keeps = True
    return got is not None
