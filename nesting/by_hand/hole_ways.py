"""How holes and hollow arcs of a blank are made by hand: hole saw, drill, chain of holes. mm.

A chain: holes drilled side by side just inside the line, the slug broken out, the land left
between them and the line ground away.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, Loop, Point
from platewheel.parts.geometry.round_hole import round_hole

# Common practice, no source: chain drills of 5 to 8 mm, pitch drill + 0.5 to 1, centres half a
# drill and 0.5 to 1 inside the line; 0.5 to 1 left to file
LAND_MM, WEB_MM = 0.75, 0.8
SMALL_DRILL_MM, DRILL_MM, LARGE_DRILL_MM = 5.0, 6.0, 8.0
SMALL_HOLE_MM, THICK_MM = 40.0, 8.0
PILOT_MM = 6.4  # 1/4 inch, the pilot drill of a hole saw's arbor; from memory
SAW_OVER_MM = 0.5  # a saw so much larger still makes the hole
UNDER_MM = 4.0  # a saw or drill so much smaller does too, the rest ground out
# Hole saws in mild steel: 580 at 14, 350 at 25, 230 at 38, 170 at 51, 135 at 64 mm. Source: speed
# table of a maker of hole saws; that is 8650 over the diameter
SAW_RPM_MM = 8650.0
LEAST_LEFT_MM = 0.1  # to grind: a hole saw runs out by as much; less is not told
SAME_MM = 1e-6
How = Literal["hole saw", "drill", "chain"]


@dataclass(frozen=True)
class HoleTools:
    """Hole saws that the shop has, and the largest drill that its machine takes."""

    saws_mm: tuple[float, ...] = ()
    most_drill_mm: float = 13.0


@dataclass(frozen=True)
class Chain:
    """Holes along a round line: `count` of `drill_mm`, their centres on a circle of `radius_mm`,
    `pitch_mm` apart by dividers. `land_mm` is left at each hole, `web_mm` between two."""

    drill_mm: float
    count: int
    radius_mm: float
    pitch_mm: float
    land_mm: float
    line_mm: float  # radius of the line itself

    @property
    def web_mm(self) -> float:
        return self.pitch_mm - self.drill_mm

    @property
    def circle_mm(self) -> float:
        """Diameter of the circle through the centres."""
        return 2 * self.radius_mm

    @property
    def most_land_mm(self) -> float:
        """From the middle between two holes to the line: what is ground away at most.

        Source: sagitta of the chord between two centres.
        """
        return self.line_mm - math.sqrt(self.radius_mm**2 - (self.pitch_mm / 2) ** 2)


@dataclass(frozen=True)
class HoleWay:
    """Round holes of one size: how they are made, with what tool; what is ground away after it."""

    diameter_mm: float
    centres: tuple[Point, ...]
    how: How
    tool_mm: float  # of the saw, of the drill, of the chain's drill
    chain: Chain | None = None

    @property
    def count(self) -> int:
        return len(self.centres)

    @property
    def left_mm(self) -> float:
        """To grind all round, from what the tool leaves to the line."""
        if self.chain:
            return self.chain.land_mm
        return max(0.0, (self.diameter_mm - self.tool_mm) / 2)

    @property
    def drilled_centres(self) -> tuple[Point, ...]:
        """Centres of a chain's holes, of every hole; none of other ways."""
        if self.chain is None:
            return ()
        step = 2 * math.pi / self.chain.count
        return tuple(
            (x + self.chain.radius_mm * math.cos(k * step),
             y + self.chain.radius_mm * math.sin(k * step))
            for x, y in self.centres
            for k in range(self.chain.count)
        )  # fmt: skip


@dataclass(frozen=True)
class ArcWay:
    """A hollow arc of an outline, no disc reaches into it: a chain from end to end."""

    arc: Arc
    chain: Chain

    @property
    def drilled_centres(self) -> tuple[Point, ...]:
        """From one end of the arc to the other, both ends' included."""
        last = self.chain.count - 1
        at = Arc(self.arc.centre, self.chain.radius_mm, self.arc.start_deg, self.arc.sweep_deg)
        return tuple(at.at(at.start_deg + at.sweep_deg * k / last) for k in range(last + 1))


def hole_ways(blank: Blank, tools: HoleTools) -> tuple[HoleWay, ...]:
    """Round holes by size, the smallest first."""
    circles = [circle for circle in map(round_hole, blank.holes) if circle]
    found = []
    for size in sorted({round(2 * circle.radius_mm, 6) for circle in circles}):
        own = tuple(c.centre for c in circles if round(2 * c.radius_mm, 6) == size)
        found.append(way_of(size, own, blank.thickness_mm, tools))
    return tuple(found)


def way_of(
    diameter_mm: float, centres: Sequence[Point], thickness_mm: float, tools: HoleTools
) -> HoleWay:
    """A hole saw that holds the size, else a drill that the machine takes, or one a little smaller
    and the rest ground out, else a chain; a hole too small for a chain is ground out too."""
    at = tuple(centres)
    fits = [
        saw for saw in tools.saws_mm if diameter_mm - UNDER_MM <= saw <= diameter_mm + SAW_OVER_MM
    ]
    if fits:
        nearest = min(fits, key=lambda saw: (abs(saw - diameter_mm), saw))
        return HoleWay(diameter_mm, at, "hole saw", nearest)
    if diameter_mm <= tools.most_drill_mm + SAME_MM:
        return HoleWay(diameter_mm, at, "drill", diameter_mm)
    if diameter_mm <= tools.most_drill_mm + UNDER_MM + SAME_MM:
        return HoleWay(diameter_mm, at, "drill", tools.most_drill_mm)
    chain = chain_in_hole(diameter_mm, chain_drill_mm(diameter_mm, thickness_mm))
    if chain is None:
        return HoleWay(diameter_mm, at, "drill", tools.most_drill_mm)
    return HoleWay(diameter_mm, at, "chain", chain.drill_mm, chain)


def chain_drill_mm(diameter_mm: float, thickness_mm: float) -> float:
    """Drill of a chain: small in small holes, larger in thick plate."""
    if diameter_mm < SMALL_HOLE_MM:
        return SMALL_DRILL_MM
    return LARGE_DRILL_MM if thickness_mm > THICK_MM else DRILL_MM


def chain_in_hole(diameter_mm: float, drill_mm: float) -> Chain | None:
    """As many holes as go round with at least a web between two; None below three.

    Source: chord of the circle of centres, 2 R sin(pi / n).
    """
    radius = diameter_mm / 2 - LAND_MM - drill_mm / 2
    least = drill_mm + WEB_MM
    if 2 * radius <= least:
        return None
    count = math.floor(math.pi / math.asin(least / (2 * radius)) + SAME_MM)
    if count < 3:
        return None
    pitch = 2 * radius * math.sin(math.pi / count)
    return Chain(drill_mm, count, radius, pitch, LAND_MM, diameter_mm / 2)


def chain_along_arc(arc: Arc, drill_mm: float) -> Chain | None:
    """The same along a hollow arc, one hole on each end; None where it is too small for three."""
    radius = arc.radius_mm - LAND_MM - drill_mm / 2
    least = drill_mm + WEB_MM
    if 2 * radius <= least:
        return None
    spaces = math.floor(abs(math.radians(arc.sweep_deg)) / (2 * math.asin(least / (2 * radius))))
    if spaces < 2:
        return None
    pitch = 2 * radius * math.sin(abs(math.radians(arc.sweep_deg)) / spaces / 2)
    return Chain(drill_mm, spaces + 1, radius, pitch, LAND_MM, arc.radius_mm)


def arc_ways(blank: Blank) -> tuple[ArcWay, ...]:
    """Each hollow arc of the outline that is long enough for a chain."""
    found = []
    for arc in hollows(blank.outline):
        chain = chain_along_arc(arc, chain_drill_mm(2 * arc.radius_mm, blank.thickness_mm))
        if chain:
            found.append(ArcWay(arc, chain))
    return tuple(found)


def hollows(outline: Loop) -> Iterator[Arc]:
    """Arcs of an outline that the blank lies outside of, pieces of one arc put together."""
    if isinstance(outline, Circle):
        return
    run: Arc | None = None
    for segment in outline:
        if not isinstance(segment, Arc) or segment.sweep_deg > 0:
            if run:
                yield run
            run = None
        elif run and math.dist(run.centre, segment.centre) < SAME_MM:
            run = Arc(run.centre, run.radius_mm, run.start_deg, run.sweep_deg + segment.sweep_deg)
        else:
            if run:
                yield run
            run = segment
    if run:
        yield run
