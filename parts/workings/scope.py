"""The names of a function as its lines are followed, and what answers for all that lies outside."""

from __future__ import annotations

import ast
from collections.abc import Sequence
from dataclasses import dataclass
from types import FunctionType
from typing import Any, Protocol

from platewheel.parts.workings.terms import Number, Of, Quantity, Reading, When, is_number
from platewheel.parts.workings.units import UNKNOWN, unit_of_name

ENTRY = "a count, or of a list in the program"


class Calls(Protocol):
    """What follows a call, and what knows constants and fields of records."""

    def call(
        self, function: FunctionType, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading: ...

    def made(
        self, kind: type, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading | None: ...

    def constant(self, module: str, name: str, value: Any) -> Reading: ...

    def attribute(self, base: Reading, name: str) -> Reading: ...

    def table(self, base: Reading, key: Reading, node: ast.expr, value: Any) -> Reading: ...


@dataclass
class Scope:
    """Names of a function as they stand, and its module."""

    names: dict[str, Reading]
    module: dict[str, Any]
    calls: Calls
    when: tuple[When, ...] = ()  # what led into the branch that is followed now
    past: tuple[When, ...] = ()  # why branches with a result of their own were not taken

    def raw(self) -> dict[str, Any]:
        """The same as the code would have them."""
        return {**self.module, **{name: one.value for name, one in self.names.items()}}


def number(value: float) -> Reading:
    """A number of the code."""
    return Reading(value, Number(value))


def bare(value: Any, made_by: str = "") -> Reading:
    """A value of which no more is known than what its table or list says of itself."""
    if is_number(value):
        return Reading(value, Number(value), made_by=made_by)
    return Reading(value, made_by=made_by)


def row_entry(name: str, one: Reading) -> Reading:
    """A number of a row of a table, by the name that the code gives it; a count, or another number
    of which nothing is said, stays a number."""
    if not isinstance(one.term, Number) or one.term.name or not one.made_by:
        return one
    quantity = Quantity(name, one.value, unit_of_name(name) or UNKNOWN, "found", one.made_by)
    return Reading(one.value, Of(quantity))
