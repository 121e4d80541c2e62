"""Long work that is left at once when the user says stop.

For work that Ctrl-C would wait for: long calls that let go of the interpreter's lock. What is left
alone goes on to its end unheard, and does not keep the program from ending.
"""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Sequence
from typing import TypeVar

T = TypeVar("T")
AWAKE_S = 0.1
_HEARERS: list[Callable[[str], None]] = []
_KEPT: list[str] = []  # of a program that does one thing and ends, the command line


def hear_kept(hear: Callable[[str], None]) -> None:
    """`hear` is called where Ctrl-C has ended a search whose best is kept, with what is kept; the
    searches after it in the same program are left out then. Without it Ctrl-C ends the program."""
    _HEARERS[:], _KEPT[:] = [hear], []


def kept(what: str) -> None:
    """To be called where a KeyboardInterrupt is met and the run goes on with what it has.

    Raises: KeyboardInterrupt where nobody hears it, as in a script: its author has not asked for
    less than the best, nor for the next search.
    """
    if not _HEARERS:
        raise sys.exception() or KeyboardInterrupt
    for hear in _HEARERS:
        _KEPT.append(what)
        hear(what)


def kept_already() -> bool:
    """Whether the program was asked to stop before, so that no other search is begun."""
    return bool(_KEPT)


def side_by_side(works: Sequence[Callable[[], T]], at_once: int) -> list[T]:
    """What each of them gives, in their order; the caller waits and is free to meet Ctrl-C.

    Raises: what the first of them raised, once those that run beside it have ended.
    """
    done: list[T] = []
    for first in range(0, len(works), at_once):
        done += _all_at_once(works[first : first + at_once])
    return done


def _all_at_once(works: Sequence[Callable[[], T]]) -> list[T]:
    given: dict[int, T] = {}
    wrong: dict[int, BaseException] = {}

    def run(number: int) -> None:
        try:
            given[number] = works[number]()
        except BaseException as error:
            wrong[number] = error
        ended[number].set()

    ended = [threading.Event() for _ in works]
    for number in range(len(works)):
        threading.Thread(target=run, args=(number,), daemon=True).start()
    for event in ended:
        while not event.wait(AWAKE_S):  # a signal that another thread takes does not wake this one
            pass
    if wrong:
        raise wrong[min(wrong)]
    return [given[number] for number in range(len(works))]


def interruptible(work: Callable[[], T]) -> T:
    """What the work gives or raises."""
    if threading.current_thread() is not threading.main_thread():
        return work()  # Ctrl-C is met by the main thread alone
    return side_by_side([work], 1)[0]
