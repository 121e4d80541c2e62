"""What a working is made of: terms over quantities, and what was read of a piece of code."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

# given in the job file; a constant of the code; worked out by its term; found by a procedure
# that is no formula (a search, a table, a section mesh), told in words with what went into it
Kind = Literal["given", "constant", "worked", "found"]
# what is told of names within functions: module -> name -> unit or words
ModuleNames = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True)
class Number:
    """A number that stands in the code; `name` is that of pi."""

    value: float
    name: str = ""


@dataclass(frozen=True)
class Of:
    """A quantity in a term."""

    quantity: Quantity

    @property
    def value(self) -> float:
        return self.quantity.value


@dataclass(frozen=True)
class Operation:
    """`sign` is + - × / ^ or neg, of two parts or one."""

    sign: str
    parts: tuple[Term, ...]
    value: float


@dataclass(frozen=True)
class Function:
    """sqrt, sin, max and the like."""

    name: str
    parts: tuple[Term, ...]
    value: float


Term = Number | Of | Operation | Function


@dataclass(frozen=True)
class When:
    """Why a line is taken and not another: `left` stands so to `right`, as `sign` says."""

    left: Term
    sign: str
    right: Term


@dataclass(frozen=True, eq=False)
class Quantity:
    """A number with a name of the code. `says` is what it is, `source` where its formula comes
    from; `term` gives what is worked out, `inputs` what a procedure was given."""

    name: str
    value: float
    unit: str
    kind: Kind
    says: str = ""
    source: str = ""
    term: Term | None = None
    inputs: tuple[Quantity, ...] = ()
    beside: tuple[str, ...] = ()  # inputs that are words: a steel, a process
    home: str = ""  # the module whose line it is
    when: tuple[When, ...] = ()  # what led to this line, of several that the code has


@dataclass(frozen=True, eq=False)
class Reading:
    """What an expression of the code gave. `term` is None of what is no number or no formula;
    `parts` are those of a tuple, `keyed` those of a record or a dict."""

    value: Any
    term: Term | None = None
    parts: tuple[Reading, ...] | None = None
    keyed: Mapping[Any, Reading] = field(default_factory=dict)
    made_by: str = ""  # what the function says of itself that made a record
    when: tuple[When, ...] = ()  # what led to it


def is_number(value: Any) -> bool:
    """Whether a value is a number that a formula has; true and false are none."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def quantities_in(term: Term | None) -> Iterator[Quantity]:
    """Those that stand in a term, in its order, again where it has them again."""
    if isinstance(term, Of):
        yield term.quantity
    elif isinstance(term, Operation | Function):
        for part in term.parts:
            yield from quantities_in(part)


def needs(quantity: Quantity) -> tuple[Quantity, ...]:
    """What goes straight into a quantity, each once."""
    found = (*quantities_in(quantity.term), *quantity.inputs)
    return tuple({id(one): one for one in found}.values())


def all_below(quantities: tuple[Quantity, ...]) -> list[Quantity]:
    """These and all that goes into them, each once, after what it needs."""
    done: dict[int, Quantity] = {}

    def walk(one: Quantity) -> None:
        if id(one) in done:
            return
        for below in needs(one):
            walk(below)
        done[id(one)] = one

    for one in quantities:
        walk(one)
    return list(done.values())


def by_module(told: ModuleNames, home: str, name: str) -> str | None:
    """What is told of a name in the module `home`; None where nothing is."""
    return told.get(home.rpartition(".")[2], {}).get(name)
