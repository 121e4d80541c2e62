"""What of a blank is measured and struck by hand: a table for compasses, rule and tape. mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point
from platewheel.parts.geometry.round_hole import round_hole

MOST_COMPASS_MM = 1500.0  # beyond it a trammel is unhandy; common practice, no source
STEP_MM = 100.0  # of the steps along an arc, about
Unit = Literal["mm", "degrees", ""]


@dataclass(frozen=True)
class Row:
    """One line of the table."""

    what: str
    value: float
    unit: Unit = "mm"


@dataclass(frozen=True)
class Sector:
    """A blank between two arcs about one centre and two radial ends."""

    centre: Point
    inner_mm: float
    outer_mm: float
    sweep_deg: float


def marking_out(blank: Blank) -> tuple[Row, ...]:
    """The rows of a blank: outline first, then its round holes."""
    return (*_outline_rows(blank), *_hole_rows(blank))


def sector_of(outline: Loop) -> Sector | None:
    """The outline as a sector of a ring where it is one, else None."""
    if isinstance(outline, Circle):
        return None
    arcs = [s for s in outline if isinstance(s, Arc)]
    out, back = [a for a in arcs if a.sweep_deg > 0], [a for a in arcs if a.sweep_deg < 0]
    if not out or not back or len(outline) != len(arcs) + 2:
        return None
    first = out[0].centre
    about_one = all(math.dist(arc.centre, first) < 1e-6 for arc in arcs)
    for run in (out, back):
        about_one &= all(abs(arc.radius_mm - run[0].radius_mm) < 1e-6 for arc in run)
    sweep = math.fsum(arc.sweep_deg for arc in out)
    if not about_one or abs(sweep + math.fsum(arc.sweep_deg for arc in back)) > 1e-6:
        return None
    return Sector(first, back[0].radius_mm, out[0].radius_mm, sweep)


def _outline_rows(blank: Blank) -> list[Row]:
    if isinstance(blank.outline, Circle):
        radius = blank.outline.radius_mm
        return [Row("diameter", 2 * radius), Row("set compasses to", radius)]
    sector = sector_of(blank.outline)
    if sector:
        return sector_rows(sector)
    square = sides_of(blank.outline)
    if square:
        high, low, across = square
        return [Row("length", high), Row("width", low), Row("both diagonals", across)]
    sides = blank.outline
    if len(sides) == 4 and all(isinstance(side, Line) for side in sides):
        rows = [Row(f"side {i}", side.length_mm) for i, side in enumerate(sides, start=1)]
        across = math.dist(sides[0].start, sides[2].start)
        other = math.dist(sides[1].start, sides[3].start)
        return [*rows, Row("diagonal 1-3", across), Row("diagonal 2-4", other)]
    left, bottom, right, top = blank.bounds
    return [Row("over all, along", right - left), Row("over all, across", top - bottom)]


def sides_of(outline: Loop) -> tuple[float, float, float] | None:
    """Length, width and diagonal of an outline that is a rectangle, else None."""
    if isinstance(outline, Circle) or len(outline) != 4:
        return None
    if not all(isinstance(side, Line) for side in outline):
        return None
    lengths = [side.length_mm for side in outline]
    across = math.dist(outline[0].start, outline[2].start)
    other = math.dist(outline[1].start, outline[3].start)
    even = abs(lengths[0] - lengths[2]) < 1e-6 and abs(lengths[1] - lengths[3]) < 1e-6
    if not even or abs(across - other) > 1e-6:  # equal diagonals of equal sides: a rectangle
        return None
    low, high = sorted(lengths[:2])
    return high, low, across


def sector_rows(sector: Sector) -> list[Row]:
    """Both radii, sweep, chords. Source: chord 2 R sin(angle / 2)."""
    inner, outer, sweep = sector.inner_mm, sector.outer_mm, sector.sweep_deg
    rows = [
        Row("inner radius", inner),
        Row("outer radius", outer),
        Row("sweep", sweep, "degrees"),
        Row("radial width", outer - inner),
        Row("along the outer arc, by tape", outer * math.radians(sweep)),
        Row("along the inner arc, by tape", inner * math.radians(sweep)),
    ]
    half = math.radians(sweep) / 2
    rows += [
        Row("chord across the outer ends", 2 * outer * math.sin(half)),
        Row("chord across the inner ends", 2 * inner * math.sin(half)),
    ]
    steps = max(2, math.ceil(outer * 2 * half / STEP_MM))
    step = 2 * outer * math.sin(half / steps)
    rows.append(Row(f"outer arc in {steps} steps, chord of one", step))
    return rows


def chord_table(blank: Blank) -> tuple[Row, ...]:
    """Heights of both arcs of a sector over their chords, where no compass reaches the centre.

    Source: sqrt(R^2 - x^2) - R cos(half angle), x along the chord from its middle.
    """
    sector = sector_of(blank.outline)
    if sector is None or sector.outer_mm <= MOST_COMPASS_MM or sector.sweep_deg >= 180:
        return ()
    half = math.radians(sector.sweep_deg) / 2
    return tuple(
        Row(f"{name} arc, {words}", height_mm(radius, half, share))
        for name, radius in (("outer", sector.outer_mm), ("inner", sector.inner_mm))
        for share, words in (
            (0.0, "middle"),
            (0.5, "half way to the end"),
            (0.75, "3/4 to the end"),
        )
    )


def height_mm(radius_mm: float, half: float, share: float) -> float:
    """Height of an arc over its chord, at a share of the half chord from the middle.

    `half` is half of the arc's angle, radians, less than a quarter turn.
    """
    end = radius_mm * math.sin(half)
    return math.sqrt(radius_mm**2 - (share * end) ** 2) - radius_mm * math.cos(half)


@dataclass(frozen=True)
class HoleCircle:
    """Round holes of one size. Where they lie evenly round the middle of a round blank,
    `circle_mm` goes through their centres and `step_mm` leads from one to the next, straight."""

    diameter_mm: float
    holes: tuple[Circle, ...]
    central: bool = False  # the only one, about the middle of a round blank
    circle_mm: float | None = None
    step_mm: float | None = None

    @property
    def count(self) -> int:
        return len(self.holes)


def hole_circles(blank: Blank) -> tuple[HoleCircle, ...]:
    """Round holes by size, the largest first."""
    circles = [circle for circle in map(round_hole, blank.holes) if circle]
    sizes = sorted({round(2 * circle.radius_mm, 6) for circle in circles}, reverse=True)
    return tuple(
        _hole_circle(blank, size, tuple(c for c in circles if round(2 * c.radius_mm, 6) == size))
        for size in sizes
    )


def _hole_rows(blank: Blank) -> list[Row]:
    rows: list[Row] = []
    for one in hole_circles(blank):
        what = "hole diameter" if one.count == 1 else so_many(one.count, "hole") + ", diameter"
        rows.append(Row(what, one.diameter_mm))
        if one.circle_mm is not None:
            rows.append(Row("circle through their centres, diameter", one.circle_mm))
        if one.step_mm is not None:
            rows.append(Row("centre to next centre, straight", one.step_mm))
    return rows


def _hole_circle(blank: Blank, size: float, holes: tuple[Circle, ...]) -> HoleCircle:
    if not isinstance(blank.outline, Circle):
        return HoleCircle(size, holes)
    middle = blank.outline.centre
    radii = [math.dist(hole.centre, middle) for hole in holes]
    if len(holes) == 1:
        return HoleCircle(size, holes, central=radii[0] < 1e-6)
    if max(radii) - min(radii) > 1e-6 or min(radii) < 1e-6:
        return HoleCircle(size, holes)
    angles = sorted(
        math.atan2(h.centre[1] - middle[1], h.centre[0] - middle[0]) % (2 * math.pi) for h in holes
    )
    pitch = 2 * math.pi / len(holes)
    gaps = [b - a for a, b in zip(angles, [*angles[1:], angles[0] + 2 * math.pi], strict=True)]
    even = max(abs(gap - pitch) for gap in gaps) < 1e-6
    chord = 2 * radii[0] * math.sin(pitch / 2) if even else None
    return HoleCircle(size, holes, circle_mm=2 * radii[0], step_mm=chord)
