"""Flat pattern of a part: true outline, holes and marks, on its own origin. mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.plain_number import plain_number
from platewheel.parts.base.plain_values import MOST
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, Segment
from platewheel.parts.geometry.soundness import ABOVE_0, shape_faults, tidied

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
    """One flat part to cut, proved to be one that can be: whoever has a Blank has a sound one.

    Loops may be given either way round, closed twice, with corners named twice, a full turn as one
    Arc; they are kept counter-clockwise, without pieces of no length. `sizes` are its own
    dimensions by name, each with its unit. Lengths mm, angles degrees.

    Raises: SpecError with every fault, by blank, loop and place: a loop that is open by more than
    0.001 mm, crosses or touches itself or another, encloses nothing, or has NaN or infinity in it;
    a hole outside the outline or in another; a thickness of nothing or less.

    >>> Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0), (Circle((35.0, 0.0), 10.0),))
    Traceback (most recent call last):
    platewheel.parts.base.faults.SpecError: lid.holes[0]: found (40.0, 0.0); allowed: ...
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
        object.__setattr__(self, "thickness_mm", plain_number(self.thickness_mm))
        allowed = "a tuple of loops, each a hole; () for none"
        require_kind(f"{self.name}.holes", self.holes, Iterable, allowed, "(Circle(...),)")
        allowed = "a tuple of marks; () for none"
        require_kind(f"{self.name}.marks", self.marks, (tuple, list), allowed, "(MarkPoint(...),)")
        given = (self.outline, *self.holes)
        loops = [one if isinstance(one, Circle) else _run(one) for one in given]
        faults = [*self._own_faults(), *shape_faults(self.name, loops[0], tuple(loops[1:]))]
        if faults:
            raise SpecError(faults)
        object.__setattr__(self, "outline", tidied(loops[0]))
        object.__setattr__(self, "holes", tuple(map(tidied, loops[1:])))

    def _own_faults(self) -> Iterator[Fault]:
        if not (isinstance(self.name, str) and self.name):
            yield Fault("name", self.name, "text", '"lid"')
        if not isinstance(self.kind, str):
            yield Fault(f"{self.name}.kind", self.kind, "text, the kind of part", '"extra"')
        thick = self.thickness_mm
        sound = isinstance(thick, int | float) and not isinstance(thick, bool)
        if not (sound and 0 < thick <= MOST):
            yield Fault(f"{self.name}.thickness_mm", thick, ABOVE_0, "6.0")

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


def _run(pieces: object) -> tuple[Segment, ...]:
    """A loop as a tuple, whatever it was given as; what it holds is looked at by its proof."""
    return tuple(pieces) if isinstance(pieces, Iterable) else (pieces,)  # type: ignore[return-value]


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
