"""How a blank is marked out by hand, in order: with compasses, dividers, straight-edge and tape."""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units, length
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.marking_out import (
    MOST_COMPASS_MM,
    Sector,
    hole_circles,
    sector_of,
    sides_of,
)
from platewheel.parts.geometry.outline import Arc, Circle, Loop, Point, segments
from platewheel.parts.geometry.round_hole import round_hole

DIVIDERS_MM = 150.0  # beyond it a trammel, a bar with two points; common practice, no source


def marking_way(blank: Blank, units: Units) -> tuple[str, ...]:
    """The outline first, then the holes; lengths in `units`."""
    return (*_outline(blank, units), *_holes(blank, units))


def _tool(radius_mm: float) -> str:
    return "dividers" if radius_mm <= DIVIDERS_MM else "a trammel"


def _outline(blank: Blank, units: Units) -> Iterator[str]:
    if isinstance(blank.outline, Circle):
        radius = blank.outline.radius_mm
        yield (
            f"Punch the centre. Set {_tool(radius)} to {length(radius, units)} and scribe the "
            f"circle; prove it across: {length(2 * radius, units)}."
        )
        return
    sector = sector_of(blank.outline)
    if sector:
        yield from _sector(sector, units)
        return
    sides = sides_of(blank.outline)
    if sides:
        long, wide, across = sides
        yield (
            f"Scribe a line {length(long, units)} long by straight-edge; square both ends up "
            f"{length(wide, units)} and join them."
        )
        yield f"Prove it square: both diagonals {length(across, units)} by tape."
        return
    yield from _corners(blank, units)


def _sector(sector: Sector, units: Units) -> Iterator[str]:
    """Source: chord 2 R sin(angle / 2)."""
    inner, outer = sector.inner_mm, sector.outer_mm
    half = math.radians(sector.sweep_deg) / 2
    across = 2 * outer * math.sin(half)
    if outer > MOST_COMPASS_MM:
        yield (
            f"No trammel reaches {length(outer, units)}: scribe a straight chord, square up the "
            "heights of the table at its stations, and bend a thin batten through the points."
        )
    else:
        yield (
            f"Scribe a centre line and punch the centre on it, on a clamped scrap of the same "
            f"thickness where it falls off the plate. Set {_tool(outer)} to "
            f"{length(outer, units)} and to {length(inner, units)} and scribe both arcs."
        )
    if sector.sweep_deg <= 180:
        yield (
            f"From one end of the outer arc strike the other: {length(across, units)}, "
            "measured straight. Scribe both ends by straight-edge through the centre."
        )
    else:
        yield (
            f"Lay a tape along the outer arc, {length(outer * 2 * half, units)}, for the other "
            f"end; the gap between both ends is {length(across, units)}, measured straight. Scribe "
            "both ends by straight-edge through the centre."
        )
    yield f"Prove it: {length(2 * inner * math.sin(half), units)} across the inner ends."


def _corners(blank: Blank, units: Units) -> Iterator[str]:
    """Any other outline: its corners from two lines square to each other."""
    left, bottom, right, top = blank.bounds
    yield (
        f"Scribe two lines square to each other: one along, {length(right - left, units)}, one up, "
        f"{length(top - bottom, units)}. Measure all that follows along and up from where they "
        "meet."
    )
    run = segments(blank.outline)

    def told(point: Point) -> str:
        return f"{length(point[0] - left, units)}, {length(point[1] - bottom, units)}"

    points = [f"{k} at {told(one.start)}" for k, one in enumerate(run, 1)]
    yield "Punch the corners in turn, along and up: " + "; ".join(points) + "."
    arcs = [
        f"from {k} to {k % len(run) + 1}, radius {length(one.radius_mm, units)} "
        f"about {told(one.centre)}"
        for k, one in enumerate(run, 1)
        if isinstance(one, Arc)
    ]
    if arcs:
        yield "Strike the arcs: " + "; ".join(arcs) + ". Join all other corners straight."
    else:
        yield "Join the corners straight."


def _holes(blank: Blank, units: Units) -> Iterator[str]:
    for row in hole_circles(blank):
        size, many = length(row.diameter_mm, units), so_many(row.count, "hole")
        if row.circle_mm is None and row.count == 1 and row.central:
            yield f"Scribe the hole of {size} about the same centre."
        elif row.circle_mm is not None and row.step_mm is not None:
            yield (
                f"Scribe the circle of {length(row.circle_mm, units)} through the centres of the "
                f"{many} of {size}; step it off with dividers at {length(row.step_mm, units)}: "
                f"the last step meets the first. Punch each, scribe each."
            )
        else:
            at = "; ".join(_at(blank, hole, units) for hole in row.holes)
            what = f"hole of {size}" if row.count == 1 else f"{many} of {size}"
            yield f"Punch and scribe the {what}, along and up from the lower left: {at}."
    others = sum(round_hole(hole) is None for hole in blank.holes)
    if others:
        many = "1 cut-out" if others == 1 else f"{others} cut-outs"
        yield f"Scribe {many} that no compass strikes, by the template."


def _at(blank: Blank, hole: Loop, units: Units) -> str:
    assert isinstance(hole, Circle)
    left, bottom, _, _ = blank.bounds
    x, y = hole.centre
    return f"{length(x - left, units)}, {length(y - bottom, units)}"
