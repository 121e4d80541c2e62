"""What of a blank is measured and struck by hand: a table for compasses, rule and tape. mm."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import Literal

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
    sides = blank.outline
    if len(sides) == 4 and all(isinstance(side, Line) for side in sides):
        rows = [Row(f"side {i}", side.length_mm) for i, side in enumerate(sides, start=1)]
        across = math.dist(sides[0].start, sides[2].start)
        other = math.dist(sides[1].start, sides[3].start)
        if abs(across - other) < 1e-6:  # equal diagonals of equal sides: a rectangle
            low, high = sorted((sides[0].length_mm, sides[1].length_mm))
            return [Row("length", high), Row("width", low), Row("both diagonals", across)]
        return [*rows, Row("diagonal 1-3", across), Row("diagonal 2-4", other)]
    left, bottom, right, top = blank.bounds
    return [Row("over all, along", right - left), Row("over all, across", top - bottom)]


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


def _hole_rows(blank: Blank) -> list[Row]:
    circles = [circle for circle in map(round_hole, blank.holes) if circle]
    sizes = Counter(round(2 * circle.radius_mm, 6) for circle in circles)
    rows: list[Row] = []
    for size in sorted(sizes, reverse=True):
        count = sizes[size]
        rows.append(Row("hole diameter" if count == 1 else f"{count} holes, diameter", size))
        rows += _circle_of_holes(blank, [c for c in circles if round(2 * c.radius_mm, 6) == size])
    return rows


def _circle_of_holes(blank: Blank, holes: list[Circle]) -> list[Row]:
    """Their circle and spacing, where they lie evenly round the middle of a round blank."""
    if not isinstance(blank.outline, Circle) or len(holes) < 2:
        return []
    middle = blank.outline.centre
    radii = [math.dist(hole.centre, middle) for hole in holes]
    if max(radii) - min(radii) > 1e-6 or min(radii) < 1e-6:
        return []
    angles = sorted(
        math.atan2(h.centre[1] - middle[1], h.centre[0] - middle[0]) % (2 * math.pi) for h in holes
    )
    pitch = 2 * math.pi / len(holes)
    gaps = [b - a for a, b in zip(angles, [*angles[1:], angles[0] + 2 * math.pi], strict=True)]
    rows = [Row("circle through their centres, diameter", 2 * radii[0])]
    if max(abs(gap - pitch) for gap in gaps) < 1e-6:
        chord = 2 * radii[0] * math.sin(pitch / 2)
        rows.append(Row("centre to next centre, straight", chord))
    return rows
