"""Every check of a setting with its working: value and limit down to the keys of the job."""

from __future__ import annotations

from dataclasses import dataclass
from types import FunctionType
from typing import Any

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import FINISH, MAKING, RUNNING, STRENGTH
from platewheel.parts.checks.run_wheelset import CHECKS as WHEELSET
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.workings.reader import Reader
from platewheel.parts.workings.source import says
from platewheel.parts.workings.terms import Kind, Number, Of, Quantity, Reading

ROOMS: tuple[tuple[str, tuple[Any, ...]], ...] = (
    ("running", RUNNING),
    ("strength", STRENGTH),
    ("wheelset", WHEELSET),
    ("galvanizing", FINISH),
    ("making", MAKING),
)


@dataclass(frozen=True)
class Working:
    """How a check came to its value and its limit; None of what it has not."""

    room: str
    result: CheckResult
    says: str
    value: Quantity | None
    limit: Quantity | None
    at_most: bool  # the value must not pass the limit


def workings(setting: Setting, made: Wheelset | None = None) -> list[Working]:
    """Of every check that has something to say of this setting, room by room."""
    reader, found = Reader(setting), []
    for room, checks in ROOMS:
        for check in checks:
            if room == "wheelset" and made is None:
                continue
            asked = (setting, made) if room == "wheelset" else (setting,)
            assert isinstance(check, FunctionType)
            read = reader.result(check, *asked)
            if read is not None:  # else it does not apply
                found.append(_working(room, check, read))
    return found


def _working(room: str, check: FunctionType, read: Reading) -> Working:
    result, told = read.value, says(check).whole
    assert isinstance(result, CheckResult)
    if "at_most" in read.keyed:
        at_most = bool(read.keyed["at_most"].value)
    else:  # told without a judgement
        at_most = result.margin is None
    sides = (
        _side(read.keyed[key], key, told, result) if key in read.keyed else None
        for key in ("value", "limit")
    )
    value, limit = sides
    return Working(room, result, told, value, limit, at_most)


def _side(one: Reading, name: str, told: str, result: CheckResult) -> Quantity | None:
    if one.value is None:
        return None
    if isinstance(one.term, Of):
        return one.term.quantity
    if one.term is None:
        return Quantity(name, one.value, result.unit, "found", told)
    kind: Kind = "constant" if isinstance(one.term, Number) else "worked"
    return Quantity(name, one.value, result.unit, kind, term=one.term)
