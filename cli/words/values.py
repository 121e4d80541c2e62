"""Values as a person reads them: each knows what it measures and formats itself.

A cell of a table and a sentence hold these; terminal, page and paper ask each what it is `told`
as in their units. `bare` leaves the unit out, where the head of a column has it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

from platewheel.parts.base.so_many import counted_unit
from platewheel.parts.base.units import MM_PER_INCH, Units, inches, length, thousandths

MM_PER_FOOT = 12 * MM_PER_INCH
Raw = str | float | int | None
# what a length is measured by, so how fine its inches are: to 1/64; the same, below 3 mm to a
# thousandth; to a ten-thousandth
MeasuredBy = Literal["rule", "gauge", "micrometer"]
Beside = Literal["mm", "number"]  # in brackets beside inches: `(12.5 mm)` or `(12.5)`


class Value(Protocol):
    """Anything that can be told."""

    @property
    def raw(self) -> Raw:
        """As a program reads it."""

    def told(self, units: Units, bare: bool = False) -> str:
        """As a person reads it."""


def _in_inches(mm: float, by: MeasuredBy) -> str:
    if by == "micrometer":
        return thousandths(mm)
    return inches(mm) if by == "rule" else length(mm, "inch")


@dataclass(frozen=True)
class Length:
    """A length, mm. `form` is a format of its digits, `.1f` or `g`.

    What a gauge measures is turned to inches as it is told in mm, so that both agree.
    """

    mm: float
    form: str = ".1f"
    by: MeasuredBy = "gauge"
    beside: Beside = "mm"

    @property
    def raw(self) -> Raw:
        return self.mm

    def told(self, units: Units, bare: bool = False) -> str:
        return Lengths((self.mm,), "", self.form, self.by, self.beside).told(units, bare)


@dataclass(frozen=True)
class Lengths:
    """Lengths with one unit between them: `1250 x 870 mm`, `0.3 to 0.7 mm`."""

    mm: tuple[float, ...]
    joint: str = " x "
    form: str = ".1f"
    by: MeasuredBy = "gauge"
    beside: Beside = "mm"

    @property
    def raw(self) -> Raw:
        return self.told("mm", bare=True)

    def told(self, units: Units, bare: bool = False) -> str:
        digits = [f"{mm:{self.form}}" for mm in self.mm]
        numbers = self.joint.join(digits)
        if units == "mm":
            return numbers if bare else f"{numbers} mm"
        as_told = self.by == "gauge" and self.beside == "mm"
        sizes = [float(text) for text in digits] if as_told else self.mm
        turned = self.joint.join(_in_inches(mm, self.by) for mm in sizes)
        return f"{turned} ({numbers} mm)" if self.beside == "mm" else f"{turned} ({numbers})"


@dataclass(frozen=True)
class Size:
    """A length as a drawing tells it: `8 mm`, or inches alone."""

    mm: float
    places: int = 1

    @property
    def raw(self) -> Raw:
        return self.mm

    def told(self, units: Units, bare: bool = False) -> str:
        return length(self.mm, units, self.places)


@dataclass(frozen=True)
class Run:
    """A length of cut, travel or bar, mm: told in metres, with feet before on paper in inches."""

    mm: float

    @property
    def raw(self) -> Raw:
        return self.mm

    def told(self, units: Units, bare: bool = False) -> str:
        metres = f"{self.mm / 1000:.1f} m"
        return metres if units == "mm" else f"{self.mm / MM_PER_FOOT:.0f} ft ({metres})"


@dataclass(frozen=True)
class Quantity:
    """Digits and a unit that stays what it is with a paper in inches."""

    value: float
    form: str
    unit: str

    @property
    def raw(self) -> Raw:
        return self.value

    def told(self, units: Units, bare: bool = False) -> str:
        digits = f"{self.value:{self.form}}"
        return digits if bare or not self.unit else f"{digits} {counted_unit(digits, self.unit)}"


@dataclass(frozen=True)
class Mass(Quantity):
    """kg."""

    form: str = ".1f"
    unit: str = "kg"


@dataclass(frozen=True)
class Force(Quantity):
    """N."""

    form: str = ".0f"
    unit: str = "N"


@dataclass(frozen=True)
class Angle(Quantity):
    """Degrees."""

    form: str = ".2f"
    unit: str = "deg"


@dataclass(frozen=True)
class Percent(Quantity):
    """A share, of a hundred."""

    form: str = ".1f"
    unit: str = "%"


@dataclass(frozen=True)
class Count(Quantity):
    """How many, or how often."""

    form: str = "d"
    unit: str = ""


@dataclass(frozen=True)
class Margin:
    """Room left, as a share of one: `+12%`."""

    share: float
    form: str = "+.0%"

    @property
    def raw(self) -> Raw:
        return self.share

    def told(self, units: Units, bare: bool = False) -> str:
        return f"{self.share:{self.form}}"


@dataclass(frozen=True)
class Change:
    """More or less than before: with its sign, blank where it rounds to nothing, `?` if unknown."""

    by: float | None
    places: int = 1

    @property
    def raw(self) -> Raw:
        return self.by

    def told(self, units: Units, bare: bool = False) -> str:
        if self.by is None:
            return "?"
        text = f"{self.by:+.{self.places}f}"
        return text if text.strip("+-0.") else ""


@dataclass(frozen=True)
class Money:
    """A price; never an empty or a zero cell for one that is missing."""

    price: float | None
    currency: str = ""
    form: str = ".2f"

    @property
    def raw(self) -> Raw:
        return self.price

    def told(self, units: Units, bare: bool = False) -> str:
        if self.price is None:
            return "not priced"
        digits = f"{self.price:{self.form}}"
        return digits if bare or not self.currency else f"{digits} {self.currency}"


@dataclass(frozen=True)
class Figure:
    """A number of any kind to four significant digits, never with an exponent for large ones."""

    value: float
    unit: str = ""

    @property
    def raw(self) -> Raw:
        return self.value

    def told(self, units: Units, bare: bool = False) -> str:
        digits = f"{self.value:.0f}" if abs(self.value) >= 1000 else f"{self.value:.4g}"
        told = digits if bare else f"{digits} {counted_unit(digits, self.unit)}".strip()
        if units == "inch" and self.unit == "mm":
            return f"{length(self.value, units)} ({told})"
        return told
