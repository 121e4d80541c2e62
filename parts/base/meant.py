"""What was meant by a value that a key does not take as it stands: `"50 cm"`, `"Hand"`, `yes`."""

from __future__ import annotations

import difflib
import math
import re
import types
from collections.abc import Iterator
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from platewheel.parts.base.written_number import normal, readings, unquoted

YES = ("true", "yes", "y", "on", "ja", "oui", "si", "t")
NO = ("false", "no", "n", "off", "nein", "non", "f", "none")
# times which a value is right, and why
_POINT = (0.1, "lacks its point")
SLIPS = {
    "mm": (
        (10.0, "is in cm"),
        (25.4, "is in inches"),
        (1000.0, "is in m"),
        _POINT,
        (1 / 25.4, "was turned from inches twice"),
        (0.001, "is in thousandths of a mm"),
    ),
    "m": ((0.001, "is in mm"), (0.01, "is in cm"), (1000.0, "is in km"), _POINT),
    "kg": ((1000.0, "is in t"), (0.001, "is in g"), _POINT),
    "degrees": ((180 / math.pi, "is in rad"), _POINT),
    "percent": ((100.0, "is a share of one"), _POINT),
    "": (_POINT,),
}
ROUND = re.compile(r"diameter|outside|bore|circle")
LARGEST = 1e12
TAPE = 0.02
ALIKE = 3.0  # a slip is believed where it brings a value within so many times the usual one


def meant(field: FieldInfo, value: Any, unit: str = "") -> tuple[Any, ...]:
    """Values that the key takes and that were meant, the likeliest first; none where nobody can
    tell. `value` is what TOML read, or the text of a line that TOML could not read."""
    found: list[Any] = []
    for kind in _kinds(field.annotation):
        if get_origin(kind) is Literal:
            found += _choices(get_args(kind), value)
        elif kind is bool:
            found += _truth(value)
        elif kind in (int, float):
            found += (n for n in _numbers(kind, value, unit) if in_range(field, n))
        elif kind is str and isinstance(value, int | float) and not isinstance(value, bool):
            found.append(f"{value}")
        elif get_origin(kind) in (tuple, list) and isinstance(value, str):
            found += _pair(kind, value, unit)
    return tuple(one for i, one in enumerate(found) if one not in found[:i])


def slips(
    key: str, field: FieldInfo, value: Any, unit: str, usual: float
) -> Iterator[tuple[float, str]]:
    """Values in range and near the `usual` one that may have been meant, and why."""
    if isinstance(value, bool) or not isinstance(value, int | float) or usual <= 0:
        return
    if not 0 < value < LARGEST:
        return
    taped = ((1 / math.pi, "is a circumference"),) if ROUND.search(key) else ()
    for times, why in (*SLIPS.get(unit, ()), *taped):
        if (times, why) == _POINT and value % 1:
            continue  # it has one
        other = round(value * times, 2 if times in (1 / math.pi, 1 / 25.4) else 6)
        if in_range(field, other) and usual / ALIKE <= other <= usual * ALIKE:
            yield other, why


def across(round_mm: float) -> float:
    """Diameter of what a tape measures round."""
    return round_mm / math.pi


def alike(one: float, other: float) -> bool:
    """Whether two sizes are one, but for rounding and a loose tape."""
    return abs(one / other - 1) < TAPE


def middling(low: float, high: float) -> float:
    """The usual size between two bounds that are far apart."""
    return math.sqrt(low * high)


def in_range(field: FieldInfo, number: float) -> bool:
    """Whether the bounds of the key let the number be."""
    for limit in field.metadata:
        for sign, holds in (
            ("gt", number.__gt__),
            ("ge", number.__ge__),
            ("lt", number.__lt__),
            ("le", number.__le__),
        ):
            bound = getattr(limit, sign, None)
            if bound is not None and holds(type(number)(bound)) is not True:
                return False
    return True


def _kinds(annotation: Any) -> Iterator[Any]:
    """The types of an annotation, one by one, without None."""
    origin = get_origin(annotation)
    if origin in (Union, types.UnionType):
        for one in get_args(annotation):
            yield from _kinds(one)
    elif origin is Annotated:
        yield from _kinds(get_args(annotation)[0])
    elif annotation is not type(None):
        yield annotation


def _numbers(kind: type, value: Any, unit: str) -> Iterator[float]:
    if isinstance(value, str):
        numbers: tuple[float, ...] = readings(value, unit)
    elif isinstance(value, float) and kind is int and value.is_integer():
        numbers = (value,)
    elif isinstance(value, list) and len(value) == 1 and type(value[0]) in (int, float):
        numbers = (float(value[0]),)
    else:
        return
    for number in numbers:
        if kind is float:
            yield number
        elif number.is_integer():
            yield int(number)


def _truth(value: Any) -> Iterator[bool]:
    if isinstance(value, str):
        word = unquoted(normal(value)).lower()
        if word in YES:
            yield True
        elif word in NO:
            yield False


def _choices(choices: tuple[Any, ...], value: Any) -> list[Any]:
    if not isinstance(value, str):
        return []
    bare = {_bare(choice): choice for choice in choices}
    word = _bare(unquoted(normal(value)))
    if word in bare:
        return [bare[word]]
    if len(word) >= 4 and (longer := [one for key, one in bare.items() if word.startswith(key)]):
        return longer[:1]  # S235JR
    near = difflib.get_close_matches(word, bare, n=1, cutoff=0.6)
    return [bare[near[0]]] if near else []


def _bare(text: str) -> str:
    return re.sub(r"[\W_]", "", text.lower())


def _pair(kind: Any, value: str, unit: str) -> list[list[float]]:
    """`+-2` and `-2; 2` as two numbers."""
    if get_origin(kind) is not tuple:
        return []
    text = unquoted(normal(value)).strip("[](){} ")
    either = re.fullmatch(r"(?:±|\+/?-) ?(.+)", text)
    if either:
        return [[-n, n] for n in readings(either[1], unit)[:1]]
    parts = re.split(r"; ?|, | to | \.\. ?|\.\.\.?", text)
    if len(parts) != 2:
        parts = text.split(",") if text.count(",") == 1 else []
    numbers = [readings(part, unit)[:1] for part in parts]
    return [[n for (n,) in numbers]] if len(numbers) == 2 and all(numbers) else []
