"""The equations of a calculation read off the PDF's own text and worked out again.

Nothing is shared with the writer: symbols, numbers and operators are those that a reader sees.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:e[-−]?\d+)?(?![\w.])")
NAME = re.compile(r"[^\W\d]\w*")
SIGNED = re.compile(r"[−-]?\d+(?:\.\d+)?(?:e[-−]?\d+)?|unbounded")
TAG = re.compile(r"\[(L\d+|R\d+|\d+\.\d+|\d+)\] ")
GIVEN = re.compile(r"(?:^| )(\S+) = (−?\d+(?:\.\d+)?(?:e−?\d+)?|unbounded)")
FUNCTIONS: dict[str, Callable[..., Any]] = {
    **{name: getattr(math, name) for name in ("sqrt", "sin", "cos", "tan", "asin", "acos", "atan")},
    **{name: getattr(math, name) for name in ("hypot", "atan2", "ceil", "floor", "log10")},
    "rad": math.radians,
    "deg": math.degrees,
    "min": min,
    "max": max,
    "abs": abs,
    "round": round,
}
DIGITS = 5


@dataclass
class Read:
    """A line as it stands in the PDF."""

    tag: str
    symbol: str
    letters: str
    numbers: str
    result: str
    given: dict[str, str] = field(default_factory=dict)


def value_of(text: str) -> float:
    """A printed number."""
    return math.inf if text == "unbounded" else float(text.replace("−", "-"))


def half_step(text: str) -> float:
    """How far a printed number may be from the true one: those with fewer figures are exact."""
    plain = text.replace("−", "-").lstrip("-")
    mantissa = plain.partition("e")[0]
    figures = mantissa.replace(".", "").lstrip("0")
    if len(figures) < DIGITS:
        return 0.0
    size = abs(value_of(text))
    return 0.5 * 10 ** (math.floor(math.log10(size)) - DIGITS + 1) if size else 0.0


def worked(text: str, values: Mapping[str, float]) -> float:
    """An expression as it is printed; its names by `values`."""
    plain = text.replace("−", "-").replace("×", "*").replace("^", "**").replace("π", "math_pi")
    names = {**FUNCTIONS, **values, "math_pi": math.pi, "unbounded": math.inf, "__builtins__": {}}
    return float(eval(plain, names))


def allowed(text: str, printed: Mapping[str, str], result: str) -> float:
    """What rounding of all that is printed may change: each number moved by half its last digit,
    one after another."""
    values = {name: value_of(number) for name, number in printed.items()}
    middle = worked(text, values)
    change = half_step(result) + 1e-9 * abs(middle)
    for name, number in printed.items():
        step = half_step(number)
        if not step and "." not in number:
            continue
        step = step or 1e-12 * abs(values[name])  # a ceil may stand on it
        change += max(
            abs(worked(text, {**values, name: values[name] + way * step}) - middle)
            for way in (-1, 1)
        )
    return change


def off(text: str, printed: Mapping[str, str], result: str) -> str:
    """What is wrong with an expression beside its result; empty where it is right."""
    try:
        found = worked(text, {name: value_of(number) for name, number in printed.items()})
    except (ValueError, ZeroDivisionError) as error:
        return f"{text}: {error}"
    told = value_of(result)
    if found == told or abs(found - told) <= half_step(result):
        return ""
    if abs(found - told) <= allowed(text, printed, result):
        return ""
    return f"{text} is {found:.8g}, not {result}"


def numbered(text: str) -> tuple[str, dict[str, str]]:
    """The same expression with a name for every number that it prints."""
    printed: dict[str, str] = {}

    def name(found: re.Match[str]) -> str:
        printed[f"n{len(printed)}"] = found[0]
        return f"n{len(printed) - 1}"

    return NUMBER.sub(name, text), printed


def read_lines(text: str) -> Iterator[Read]:
    """Every tagged line of the whole text."""
    places = list(TAG.finditer(text))
    for here, after in zip(places, [*places[1:], None], strict=True):
        body = text[here.end() : after.start() if after else len(text)]
        if "." not in here[1] and here[1][0] not in "LR":
            continue  # a verdict
        head, _, _ = body.partition(" — ")
        equation, _, given = head.partition(" where ")
        parts = equation.strip().split(" = ")
        result = SIGNED.match(parts[-1])
        assert result is not None, body
        letters, numbers = parts[1:3] if len(parts) == 4 else ("", "")
        assert len(parts) in (2, 4), equation
        yield Read(here[1], parts[0], letters, numbers, result[0], dict(GIVEN.findall(given)))


def faults(text: str) -> Iterator[str]:
    """Lines whose letters or whose numbers do not give what is printed behind them."""
    shared: dict[str, str] = {}
    block: dict[str, str] = {}
    number = ""
    for line in read_lines(text):
        own = line.tag.partition(".")[0] if "." in line.tag else line.tag[0]
        if own != number:
            number, block = own, {}
        known = shared if own == "L" else block
        for symbol, value in line.given.items():
            known.setdefault(symbol, value)
        if line.numbers:
            wrong = off(*numbered(line.numbers), line.result)
            names = NAME.findall(NUMBER.sub("", line.letters))
            symbols = {name for name in names if name not in FUNCTIONS} - {"unbounded"}
            symbols -= {"π"}
            lacking = symbols - set(known)
            if lacking:
                yield f"[{line.tag}] {line.letters}: {lacking} not told"
            else:
                plain, printed = numbered(line.letters)
                printed |= {name: known[name] for name in symbols}
                wrong = wrong or off(plain, printed, line.result)
            if wrong:
                yield f"[{line.tag}] {wrong}"
        known[line.symbol] = line.result
