"""Every check of a setting with its working: value and limit down to the keys of the job."""

from __future__ import annotations

from dataclasses import dataclass, replace
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
from platewheel.parts.workings.units import UNKNOWN

ROOMS: tuple[tuple[str, tuple[Any, ...]], ...] = (
    ("running", RUNNING),
    ("strength", STRENGTH),
    ("wheelset", WHEELSET),
    ("galvanizing", FINISH),
    ("making", MAKING),
)


@dataclass(frozen=True)
class Working:
    """How a check came to its value and its limit; None of what it has not, and of both where its
    lines could not be followed: then `result` stands alone."""

    room: str
    result: CheckResult
    says: str
    value: Quantity | None
    limit: Quantity | None
    at_most: bool  # the value must not pass the limit
    followed: bool = True


def workings(setting: Setting, made: Wheelset | None = None) -> list[Working]:
    """Of every check that has something to say of this setting, room by room."""
    reader, found = Reader(setting), []
    for room, checks in ROOMS:
        for check in checks:
            if room == "wheelset" and made is None:
                continue
            asked = (setting, made) if room == "wheelset" else (setting,)
            assert isinstance(check, FunctionType)
            result = check(*asked)
            if result is not None:  # else it does not apply
                found.append(_working(room, check, result, _read(reader, check, asked, result)))
    return found


def _read(
    reader: Reader, check: FunctionType, asked: tuple[Any, ...], result: CheckResult
) -> Reading | None:
    """A check's lines followed; None where they cannot be, or lead to other numbers than its own.
    A paper that shows how a check judged must never keep it from judging."""
    try:
        read = reader.result(check, *asked)
    except Exception:  # whatever the code of a check may be, and the reader does not know
        return None
    if read is None:
        return None
    sides = ((getattr(result, key), read.keyed.get(key)) for key in ("value", "limit"))
    same = all(number is None or (one and _same(one.value, number)) for number, one in sides)
    return read if same else None


def _same(one: Any, other: float) -> bool:
    return bool(one == other or (one != one and other != other))  # of two that are not numbers too


def _working(room: str, check: FunctionType, result: CheckResult, read: Reading | None) -> Working:
    told = says(check).whole
    at_most = result.margin is None if result.at_most is None else result.at_most
    if read is None:
        return Working(room, result, told, None, None, at_most, followed=False)
    value, limit = (
        _side(read.keyed[key], key, told, result) if key in read.keyed else None
        for key in ("value", "limit")
    )
    return Working(room, result, told, value, limit, at_most)


def _side(one: Reading, name: str, told: str, result: CheckResult) -> Quantity | None:
    if one.value is None:
        return None
    if isinstance(one.term, Of):
        quantity = one.term.quantity  # its unit is the check's where nothing else tells it
        return replace(quantity, unit=result.unit) if quantity.unit == UNKNOWN else quantity
    if one.term is None:
        return Quantity(name, one.value, result.unit, "found", told)
    kind: Kind = "constant" if isinstance(one.term, Number) else "worked"
    return Quantity(name, one.value, result.unit, kind, term=one.term, when=one.when)
