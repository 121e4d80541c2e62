"""Functions of a wheel as a script asks them: of a WheelSpec and nothing else, one at a time."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, wraps
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.one_at_a_time import one_at_a_time
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.disc_lines import too_many_lines
from platewheel.parts.wheel.spec import WheelSpec


@cache
def of_wheel(function: Callable[..., Any]) -> Callable[..., Any]:
    """The function for a script, the same whenever it is asked for. It raises SpecError where its
    first argument is no WheelSpec, or a disc of one's own has too many lines."""
    alone = one_at_a_time(function)

    @wraps(function)
    def asked(spec: WheelSpec, *args: Any, **named: Any) -> Any:
        _prove(spec, named.get("disc"))
        return alone(spec, *args, **named)

    asked.__module__ = "platewheel"  # by which a process that gets it finds it again
    return asked


def _prove(spec: object, disc: object) -> None:
    advice = "WheelSpec(**table) for a table of keys, job.job.wheel for a job"
    require_kind("spec", spec, WheelSpec, "a WheelSpec", advice)
    if isinstance(disc, Blank) and (faults := [*too_many_lines(disc)]):
        raise SpecError(faults)
