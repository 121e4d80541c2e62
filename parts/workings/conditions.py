"""Which line of several was taken, and why: a comparison of two numbers, as it came out."""

from __future__ import annotations

import ast
from collections.abc import Callable
from dataclasses import replace
from typing import Any, Final

from platewheel.parts.workings.scope import Scope
from platewheel.parts.workings.terms import Reading, When

# how it is written -> as it is told, and its opposite
SIGNS: Final[dict[type[ast.cmpop], tuple[str, str]]] = {
    ast.Lt: ("<", "≥"),
    ast.LtE: ("≤", ">"),
    ast.Gt: (">", "≤"),
    ast.GtE: ("≥", "<"),
}


def reason(
    test: ast.expr, holds: bool, scope: Scope, read: Callable[[ast.expr, Scope], Reading]
) -> tuple[When, ...]:
    """Of a comparison of two numbers that are known by their terms; of any other none."""
    if not isinstance(test, ast.Compare) or len(test.ops) != 1 or type(test.ops[0]) not in SIGNS:
        return ()
    try:
        left, right = read(test.left, scope).term, read(test.comparators[0], scope).term
    except Exception:  # a form that has no term (an iterator within): Python itself judged it
        return ()
    if left is None or right is None:
        return ()
    return (When(left, SIGNS[type(test.ops[0])][0 if holds else 1], right),)


def because(found: Reading, why: tuple[When, ...]) -> Reading:
    """The same, and what led to it."""
    return replace(found, when=(*found.when, *why)) if why and found.term is not None else found


def returns_number(body: list[ast.stmt]) -> bool:
    """Whether a branch ends in a result, so that what follows is another line for the same."""
    last: Any = body[-1]
    if not isinstance(last, ast.Return) or last.value is None:
        return False
    return not (isinstance(last.value, ast.Constant) and last.value.value is None)
