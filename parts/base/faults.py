"""What is wrong with an input, told so that it can be put right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date, time
from typing import Any

MOST_KEY = 1000  # letters that are told; a path of a file may be long


@dataclass(frozen=True)
class Fault:
    """One thing wrong: the key's path, the value found, what is allowed, what to try; the line of
    its file, from 1, where that is known.

    >>> print(Fault("wheel.hub_bore_mm", -3.0, "a number above 0 mm", "hub_bore_mm = 35"))
    wheel.hub_bore_mm: found -3.0; allowed: a number above 0 mm; try: hub_bore_mm = 35
    """

    key: str
    value: object = field(hash=False)  # maybe a list
    allowed: str
    advice: str
    line: int = 0

    def __str__(self) -> str:
        shown = "nothing" if self.value is None else _shown(self.value)
        place = f"line {self.line}: " if self.line else ""
        key = self.key if len(self.key) <= MOST_KEY else f"{self.key[:MOST_KEY]}..."
        return f"{place}{key}: found {shown}; allowed: {self.allowed}; try: {self.advice}"

    def below(self, path: str) -> Fault:
        """The same fault with its key put below a section's name."""
        return replace(self, key=f"{path}.{self.key}")


def _shown(value: object) -> str:
    try:
        if isinstance(value, date | time):  # of TOML, which has them without quotes
            return value.isoformat()
        whole = isinstance(value, float) and value.is_integer() and abs(value) < 1e6
        text = repr(value) if whole or not isinstance(value, float) else f"{value:g}"
    except (ValueError, RecursionError):  # an integer or a nesting too long to write out
        return f"a {type(value).__name__} beyond measure"
    return text if len(text) <= 60 else text[:57] + "..."


def comes_whole(error: Exception) -> tuple[Any, ...]:
    """`__reduce__` of an error whose class asks for other things than its words, so that it comes
    whole from another process."""
    return _bare, (type(error), error.args), vars(error)


def _bare(kind: type[Exception], words: tuple[object, ...]) -> Exception:
    return kind.__new__(kind, *words)


class SpecError(ValueError):
    """An input that cannot be made or understood; `faults` has every one found.

    >>> SpecError([Fault("count", 0, "1 or more", "count = 1")]).faults[0].key
    'count'
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        if not self.faults:  # who gathers faults would take the refused for sound
            raise RuntimeError("refused without a fault that says why")
        super().__init__("\n".join(str(fault) for fault in self.faults))

    __reduce__ = comes_whole


class GeometryError(ValueError):
    """A solid or an outline that the modeller could not build; says which.

    >>> raise GeometryError("hub-tube: this wheel has none")
    Traceback (most recent call last):
    platewheel.parts.base.faults.GeometryError: hub-tube: this wheel has none
    """
