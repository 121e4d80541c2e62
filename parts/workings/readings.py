"""Readings made of quantities, and how two of them are known to be the same."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from types import FunctionType
from typing import Any

from platewheel.parts.checks.result import judged
from platewheel.parts.workings.scope import Scope
from platewheel.parts.workings.terms import Kind, Of, Quantity, Reading, Term, When, is_number
from platewheel.parts.workings.units import UNKNOWN, unit_at, unit_of_name, unit_of_term

WentIn = tuple[tuple[Quantity, ...], tuple[str, ...]]  # numbers and words given to a procedure


def of(quantity: Quantity) -> Reading:
    """It alone."""
    return Reading(quantity.value, Of(quantity))


def worked(
    name: str,
    term: Term,
    value: float,
    home: str,
    told: str = "",
    source: str = "",
    when: tuple[When, ...] = (),
) -> Quantity:
    """What a term gives; its unit by its name, or else by the units in the term."""
    kind: Kind = "worked"
    unit = unit_at(home, name)
    if unit is None:
        unit = unit_of_name(name)
    if unit is None:
        unit = unit_of_term(term)
    unit = UNKNOWN if unit is None else unit
    return Quantity(name, value, unit, kind, told, source, term, home=home, when=when)


def went_in(scope: Scope) -> WentIn:
    """Numbers and words among the arguments of a procedure."""
    inputs, words = [], []
    for name, one in scope.names.items():
        if isinstance(one.term, Of):
            inputs.append(one.term.quantity)
        elif is_number(one.value):
            words.append(f"{name} {one.value:g}")
        elif isinstance(one.value, str):
            words.append(one.value)
        elif isinstance(getattr(one.value, "name", None), str):
            words.append(one.value.name)
    return tuple(inputs), tuple(words)


def key_of(one: Reading) -> Hashable:
    """The same for readings that a function could not tell apart."""
    if isinstance(one.term, Of):
        return id(one.term.quantity)
    if is_number(one.value) or isinstance(one.value, str | None | bool):
        return (type(one.value), one.value)
    return id(one.value)


def value_of(function: FunctionType, args: Sequence[Reading], named: dict[str, Reading]) -> Any:
    """What it gives; of what gives one thing after another, all of them."""
    value = function(*(one.value for one in args), **{k: v.value for k, v in named.items()})
    return list(value) if isinstance(value, Iterator) else value


def as_judged(args: Sequence[Reading], named: dict[str, Reading]) -> Reading:
    """A judgement, without its sentences, keyed by what it was given."""
    given: dict[str, Any] = {key: one.value for key, one in named.items()}
    value = judged(*[one.value for one in args], good="-", bad="-", **given)
    return Reading(value, keyed={"value": args[2], "limit": args[3], **named})
