"""Words as values: a name, a sentence that came as plain text, words with values between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from platewheel.cli.words.inches import in_inches, plate_name
from platewheel.cli.words.values import Raw, Value
from platewheel.parts.base.units import Units


@dataclass(frozen=True)
class Given:
    """What a program reads, and how it is told: None is `not known`."""

    given: Raw | list[Any] | dict[str, Any]
    text: str

    @property
    def raw(self) -> Any:
        return self.given

    def told(self, units: Units, bare: bool = False) -> str:
        return self.text


@dataclass(frozen=True)
class Name:
    """Words that no unit changes: a name, a file, a verdict."""

    text: str

    @property
    def raw(self) -> Raw:
        return self.text

    def told(self, units: Units, bare: bool = False) -> str:
        return self.text


@dataclass(frozen=True)
class PlateName:
    """A plate or bar, called by its size in mm or by any name."""

    text: str

    @property
    def raw(self) -> Raw:
        return self.text

    def told(self, units: Units, bare: bool = False) -> str:
        return plate_name(self.text, units)


@dataclass(frozen=True)
class Sentence:
    """Words that come as plain text, of a check or a step; lengths in them are in mm."""

    text: str

    @property
    def raw(self) -> Raw:
        return self.text

    def told(self, units: Units, bare: bool = False) -> str:
        return self.text if units == "mm" else in_inches(self.text)


@dataclass(frozen=True)
class Phrase:
    """Words with values between them."""

    parts: tuple[str | Value, ...]

    @property
    def raw(self) -> Raw:
        return self.told("mm")

    def told(self, units: Units, bare: bool = False) -> str:
        return "".join(
            part if isinstance(part, str) else part.told(units, bare) for part in self.parts
        )


Words = Name | Sentence | Phrase | Given  # may stand in a column of any kind: `not known`


def phrase(*parts: str | Value) -> Phrase:
    """`phrase("radii ", Length(60), " and ", Length(90))`."""
    return Phrase(parts)


def listed(values: Iterable[str | Value], joint: str = ", ") -> Phrase:
    """Values one after the other, with the joint between them."""
    parts: list[str | Value] = []
    for value in values:
        parts += [joint, value] if parts else [value]
    return Phrase(tuple(parts))
