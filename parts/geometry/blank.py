"""Flat pattern of a part: true outline, holes and marks, on its own origin. mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from platewheel.parts.geometry import outline
from platewheel.parts.geometry.outline import Arc, Line, Loop, Point

Kind = str  # of part; "extra" is one of the user's own


@dataclass(frozen=True)
class MarkPoint:
    """Spot to punch: a centre."""

    at: Point


@dataclass(frozen=True)
class MarkText:
    """Words on the plate, centred at a point."""

    at: Point
    text: str
    height_mm: float
    turn_deg: float = 0.0


Mark = MarkPoint | MarkText | Line | Arc


@dataclass(frozen=True)
class Blank:
    """One flat part to cut. `sizes` are its own dimensions by name, each with its unit.

    Loops may be given either way round; they are kept counter-clockwise.
    """

    name: str
    kind: Kind
    thickness_mm: float
    outline: Loop
    holes: tuple[Loop, ...] = ()
    marks: tuple[Mark, ...] = ()
    sizes: Mapping[str, float] = field(default_factory=dict, compare=False)
    many_turns: bool = field(default=False, compare=False)  # worth more than quarter turns

    def __post_init__(self) -> None:
        object.__setattr__(self, "outline", outline.counter_clockwise(self.outline))
        object.__setattr__(self, "holes", tuple(map(outline.counter_clockwise, self.holes)))

    def __hash__(self) -> int:
        return hash((self.name, self.thickness_mm, self.area_mm2))  # not of thousands of corners

    @cached_property
    def area_mm2(self) -> float:
        """Material area: outline less holes."""
        return outline.area_mm2(self.outline) - math.fsum(outline.area_mm2(h) for h in self.holes)

    @cached_property
    def cut_length_mm(self) -> float:
        """Length of all cuts."""
        loops = (self.outline, *self.holes)
        return math.fsum(outline.length_mm(loop) for loop in loops)

    @property
    def volume_mm3(self) -> float:
        """Area x thickness."""
        return self.area_mm2 * self.thickness_mm

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y of the outline."""
        return outline.bounds(self.outline)


def annular_sector(inner_mm: float, outer_mm: float, sweep_deg: float) -> tuple[Line | Arc, ...]:
    """Outline between two arcs about the origin, from angle 0 to sweep_deg, counter-clockwise."""
    outer = outline.arc_pieces(Arc((0.0, 0.0), outer_mm, 0.0, sweep_deg))
    inner = outline.arc_pieces(Arc((0.0, 0.0), inner_mm, sweep_deg, -sweep_deg))
    return (
        *outer,
        Line(outer[-1].end, inner[0].start),
        *inner,
        Line(inner[-1].end, outer[0].start),
    )
