"""What a gauge is: a blank with a number, sizes that it is true to, and words how it is used."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Loop, Point, bounds

TRUE_MM = 0.2  # a filed edge keeps to its line; common practice, no source
LEAST_STEP_MM = 2 * TRUE_MM  # go and no-go nearer together could change places
LETTER_SHARE = 0.8  # width of a letter over its height, wide ones


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


def refuse(kind: str, allowed: str, advice: str) -> SpecError:
    """No such gauge can be made of this job."""
    return SpecError([Fault(f"gauges.{kind}", True, allowed, f"{advice}, or {kind} = false")])
