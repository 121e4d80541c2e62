"""What a gauge is: a blank with a number, sizes that it is true to, and words how it is used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Loop, Point, bounds

TRUE_MM = 0.2  # a filed edge keeps to its line; common practice, no source
LEAST_STEP_MM = 2 * TRUE_MM  # go and no-go nearer together could change places
LETTER_SHARE = 0.8  # width of a letter over its height, wide ones
KERF = "cutting.kerf_mm"
CALIPER = "measure with a caliper"
# "section.key" of the job file -> another value
Keys = Mapping[str, float | tuple[float, float]]


@dataclass(frozen=True)
class Stuff:
    """The plate that gauges are cut from, and the width of the cut."""

    thickness_mm: float
    kerf_mm: float


@dataclass(frozen=True)
class Measure:
    """A size that the gauge is true to."""

    name: str
    value: float
    unit: Literal["mm", "deg"] = "mm"


@dataclass(frozen=True)
class Gauge:
    """One gauge; `number` is stamped on it and never another's."""

    number: int
    title: str
    blank: Blank
    sizes: tuple[Measure, ...]
    use: str


def gauge_blank(name: str, stuff: Stuff, loop: Loop, marks: Sequence[MarkText]) -> Blank:
    """The blank of a gauge, as large as its bounds."""
    x0, y0, x1, y1 = bounds(loop)
    sizes = {"length_mm": x1 - x0, "width_mm": y1 - y0}
    return Blank(name, "gauge", stuff.thickness_mm, loop, (), tuple(marks), sizes)


def label(at: Point, text: str, wide_mm: float, high_mm: float) -> MarkText:
    """Words about a point that fit into a box so wide and high, at most 8 mm tall."""
    height = min(8.0, 0.6 * high_mm, wide_mm / (LETTER_SHARE * len(text)))
    return MarkText(at, text, height)


class GaugeError(SpecError):
    """No such gauge can be made of this job; `tries` are keys with other values that may help."""

    def __init__(self, kind: str, allowed: str, otherwise: str, tries: Sequence[Keys]) -> None:
        self.kind, self.allowed, self.otherwise, self.tries = kind, allowed, otherwise, tries
        super().__init__([self.told(tries[0] if tries else None)])

    def told(self, keys: Keys | None) -> Fault:
        """The fault, advising these values, or where there are none what else can be done."""
        words = self.otherwise
        if keys is not None:
            words = " and ".join(f"{key} = {_written(value)}" for key, value in keys.items())
        return Fault(f"gauges.{self.kind}", True, self.allowed, f"{words}, or {self.kind} = false")


def _written(value: float | tuple[float, float]) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(f'{one:g}' for one in value)}]"
    return f"{value:g}"


def refuse(kind: str, allowed: str, otherwise: str, *tries: Keys) -> GaugeError:
    """To be raised where a gauge cannot be made. `tries`, best first, are tried on all gauges that
    are asked for before one is advised (`wanted.py`); `otherwise` is said where none helps."""
    return GaugeError(kind, allowed, otherwise, tries)
