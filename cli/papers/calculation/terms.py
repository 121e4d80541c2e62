"""A term as plain text on one line, in symbols or in numbers: it survives copying from a PDF."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from platewheel.parts.base.units import Units, length
from platewheel.parts.workings.terms import Function, Number, Of, Operation, Quantity, Term
from platewheel.parts.workings.units import UNKNOWN

DIGITS: Final = 5  # significant ones, of every number that is worked out
BINDS: Final = {"+": 1, "-": 1, "×": 2, "/": 2, "neg": 2, "^": 4}
WHOLE: Final = 9
MINUS: Final = "−"


def finite(value: float) -> bool:
    """Whether it is a number that can be printed."""
    return abs(value) < float("inf")


def digits(value: float) -> str:
    """A number as it is printed: whole numbers whole, others to `DIGITS`, no grouping. One that
    is rounded has all of its digits, one that is exact no more than it needs."""
    if not finite(value):
        return "unbounded"
    if value == int(value) and abs(value) < 1e9:
        text = str(int(value))
    else:
        text = f"{value:.{DIGITS}g}"
        if abs(float(text) - value) > 1e-12 * abs(value):  # rounded: it keeps its zeros
            text = f"{value:#.{DIGITS}g}".rstrip(".").replace(".e", "e")
        if "e+" in text and abs(value) < 1e10:
            text = f"{float(text):.0f}"
    return text.replace("e-0", "e-").replace("e+", "e").replace("-", MINUS)


def with_unit(value: float, unit: str, units: Units) -> str:
    """The number with its unit; lengths with inches beside them where the paper is in inches."""
    told = f"{digits(value)} {'' if unit == UNKNOWN else unit}".strip()
    if unit == "mm" and units == "inch" and finite(value):
        return f"{told} ({length(value, units)})"
    return told


def term_text(term: Term, of: Callable[[Quantity], str]) -> str:
    """The term with each quantity as `of` calls it, in no more brackets than it needs."""
    return _told(term, of)[0]


def _told(term: Term, of: Callable[[Quantity], str]) -> tuple[str, int]:
    if isinstance(term, Number):
        return _number(term.name or digits(term.value))
    if isinstance(term, Of):
        return _number(of(term.quantity))
    if isinstance(term, Function):
        return f"{term.name}({', '.join(_told(part, of)[0] for part in term.parts)})", WHOLE
    return _operation(term, of)


def _number(text: str) -> tuple[str, int]:
    return text, BINDS["+"] - 1 if text.startswith(MINUS) else WHOLE


def _operation(term: Operation, of: Callable[[Quantity], str]) -> tuple[str, int]:
    own = BINDS[term.sign]
    parts = [_told(part, of) for part in term.parts]
    if term.sign == "neg":
        return MINUS + _bracketed(*parts[0], parts[0][1] <= own), own
    (left, loose), (right, tight) = parts
    left = _bracketed(left, loose, loose < own or (term.sign == "^" and loose <= own))
    right = _bracketed(right, tight, tight < own or (tight == own and term.sign in "-/"))
    sign = MINUS if term.sign == "-" else term.sign
    return f"{left} {sign} {right}", own


def _bracketed(text: str, _: int, needed: bool) -> str:
    return f"({text})" if needed else text
