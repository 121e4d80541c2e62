"""What a call gives: a term of mathematics, a record field by field, or what a body says."""

from __future__ import annotations

import math
from types import FunctionType, MethodType
from typing import Any, Final

from platewheel.parts.workings.scope import Scope, bare
from platewheel.parts.workings.terms import Function, Operation, Reading, Term, is_number

SHOWN: Final[dict[Any, str]] = {
    **{getattr(math, name): name for name in ("sqrt", "sin", "cos", "tan", "asin", "acos", "atan")},
    **{getattr(math, name): name for name in ("hypot", "atan2", "ceil", "floor", "log10", "fsum")},
    math.radians: "rad",
    math.degrees: "deg",
    abs: "abs",
    round: "round",
    float: "",
    int: "",
    max: "max",
    min: "min",
    sum: "sum",
}
MOST_SHOWN: Final = 6  # parts of one sum; of a longer one its value is told


def called(function: Any, args: list[Reading], named: dict[str, Reading], scope: Scope) -> Reading:
    """What a call gives: a term of mathematics, or what the function's own body says."""
    inner = getattr(function, "__wrapped__", None)  # of one that remembers its results
    if isinstance(inner, FunctionType):
        function = inner
    if isinstance(function, FunctionType):
        return scope.calls.call(function, args, named)
    if isinstance(function, MethodType) and isinstance(function.__func__, FunctionType):
        return scope.calls.call(function.__func__, [Reading(function.__self__), *args], named)
    try:
        name = SHOWN.get(function)
    except TypeError:
        name = None
    if name is not None and not named:
        return _mathematics(function, name, args)
    if function in (max, min) and set(named) == {"key"} and len(args) == 1 and args[0].parts:
        best = function([one.value for one in args[0].parts], key=named["key"].value)
        return next(one for one in args[0].parts if one.value is best)
    if isinstance(function, type):
        found = scope.calls.made(function, args, named)
        if found is not None:
            return found
    if function in (tuple, list, sorted) and len(args) == 1 and args[0].parts and not named:
        parts = args[0].parts
        if function is sorted:
            parts = tuple(sorted(parts, key=lambda part: part.value))
        return Reading(function(args[0].value), parts=parts)
    if function is next and isinstance(args[0].value, list):
        firsts: list[Reading] = [*(args[0].parts or map(bare, args[0].value)), *args[1:]]
        return firsts[0]
    value = function(*(one.value for one in args), **{k: v.value for k, v in named.items()})
    return Reading(value, made_by=args[0].made_by if args else "")


def _mathematics(function: Any, name: str, args: list[Reading]) -> Reading:
    parts = args
    if name in ("max", "min", "sum", "fsum") and len(args) == 1:
        parts = list(args[0].parts or [bare(value) for value in args[0].value])
    value = function(*(one.value for one in args))
    if name in ("max", "min") and parts and not is_number(value):
        return _wins(name, parts, value)
    terms = [part.term for part in parts]
    if not is_number(value) or any(term is None for term in terms):
        return Reading(value)
    known = [term for term in terms if term is not None]
    if len(known) > MOST_SHOWN and name in ("max", "min"):
        known = [next(term for term in known if term.value == value)]
    if not name or (name in ("max", "min") and len(known) == 1):
        return Reading(value, known[0])
    if name in ("sum", "fsum"):
        return _sum(known, value)
    return Reading(value, Function(name, tuple(known), value))


def _wins(name: str, parts: list[Reading], value: Any) -> Reading:
    """Of records the one that wins; where each begins with a number, all of these are told."""
    best = next(part for part in parts if part.value == value)
    firsts = [part.parts[0] if part.parts else Reading(None) for part in parts]
    terms = [one.term for one in firsts if one.term is not None and is_number(one.value)]
    if not best.parts or not 1 < len(terms) == len(parts) <= MOST_SHOWN:
        return best
    number = best.parts[0].value
    told = Reading(number, Function(name, tuple(terms), number))
    return Reading(value, parts=(told, *best.parts[1:]))


def _sum(terms: list[Term], value: float) -> Reading:
    if not terms or len(terms) > MOST_SHOWN:
        return Reading(value)
    whole = terms[0]
    for term in terms[1:]:
        whole = Operation("+", (whole, term), whole.value + term.value)
    return Reading(value, whole)
