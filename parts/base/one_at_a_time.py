"""One call at a time in a process: what modeller and nester fill as they go is shared by threads.

Solids of the modeller, polygons prepared for questions and tables of dispatch are not made for two
threads at once: they end the program, or fail half filled.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import wraps
from inspect import isgeneratorfunction
from threading import RLock
from typing import Any, ParamSpec, TypeVar, cast

P = ParamSpec("P")
T = TypeVar("T")
_turn = RLock()


def one_at_a_time(function: Callable[P, T]) -> Callable[P, T]:
    """The function, in which one thread is at a time, as in all that are made by this; the others
    wait. It may call them again itself. One that yields has its turn for each step."""

    @wraps(function)
    def alone(*args: P.args, **named: P.kwargs) -> T:
        with _turn:
            return function(*args, **named)

    @wraps(function)
    def stepped(*args: P.args, **named: P.kwargs) -> Iterator[Any]:
        steps = cast(Iterator[Any], function(*args, **named))
        while True:
            with _turn:
                try:
                    step = next(steps)
                except StopIteration:
                    return
            yield step

    return cast(Callable[P, T], stepped) if isgeneratorfunction(function) else alone


def _anew() -> None:
    """In a process that was forked: a thread that had its turn in the parent is not here."""
    global _turn
    _turn = RLock()


if hasattr(os, "register_at_fork"):  # not on Windows, which forks none
    os.register_at_fork(after_in_child=_anew)
