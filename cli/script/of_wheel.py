"""Functions of a wheel as a script asks them: one at a time."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from platewheel.parts.base.one_at_a_time import one_at_a_time


@cache
def of_wheel(function: Callable[..., Any]) -> Callable[..., Any]:
    """The function for a script, the same whenever it is asked for."""
    asked = one_at_a_time(function)
    asked.__module__ = "platewheel"  # by which a process that gets it finds it again
    return asked
