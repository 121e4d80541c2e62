"""Drawings for the tests of reading: loops written as a drawing office might, and random parts."""

from __future__ import annotations

import math
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import ezdxf
import shapely
from hypothesis import assume
from hypothesis import strategies as st

from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Point, Segment, segments
from tests.nesting.plates import faceted


def drawing(version: str = "R2000", insunits: int | None = 4) -> Any:
    doc = ezdxf.new(version)
    if insunits is not None:
        doc.header["$INSUNITS"] = insunits
    return doc


def save(doc: Any, folder: Path, name: str = "part.dxf") -> Path:
    path = folder / name
    doc.saveas(path)
    return path


def add_loose(space: Any, loops: Iterable[Loop], unit_mm: float = 1.0, rng: Any = None) -> None:
    """Each edge as a LINE, ARC or CIRCLE of its own, in any order and direction."""
    edges: list[Segment | Circle] = []
    for loop in loops:
        edges += [loop] if isinstance(loop, Circle) else segments(loop)
    if rng is not None:
        rng.shuffle(edges)
    for edge in edges:
        if isinstance(edge, Line):
            ends = [edge.start, edge.end]
            if rng is not None:
                rng.shuffle(ends)
            space.add_line(*([x / unit_mm, y / unit_mm] for x, y in ends))
            continue
        centre = (edge.centre[0] / unit_mm, edge.centre[1] / unit_mm)
        if isinstance(edge, Circle):
            space.add_circle(centre, edge.radius_mm / unit_mm)
        else:
            first, last = sorted((edge.start_deg, edge.start_deg + edge.sweep_deg))
            space.add_arc(centre, edge.radius_mm / unit_mm, first, last)


def bulged(points: list[Point], bulges: list[float]) -> tuple[Segment, ...]:
    """Closed loop; a bulge is the rise of an arc over half its chord.

    Radius from chord c and rise h: (c^2 / 4 + h^2) / 2 h.
    """
    loop: list[Segment] = []
    for (ax, ay), (bx, by), bulge in zip(points, [*points[1:], points[0]], bulges, strict=True):
        chord, rise = math.dist((ax, ay), (bx, by)), bulge * math.dist((ax, ay), (bx, by)) / 2
        if bulge == 0:
            loop.append(Line((ax, ay), (bx, by)))
            continue
        radius = (chord**2 / 4 + rise**2) / (2 * abs(rise))
        off = (radius - abs(rise)) * math.copysign(1, bulge)
        nx, ny = -(by - ay) / chord, (bx - ax) / chord
        cx, cy = (ax + bx) / 2 + off * nx, (ay + by) / 2 + off * ny
        first = math.degrees(math.atan2(ay - cy, ax - cx))
        sweep = 4 * math.degrees(math.atan(bulge))
        loop.append(Arc((cx, cy), radius, first, sweep))
    return tuple(loop)


@st.composite
def stars(draw: st.DrawFn, low_mm: float = 60.0, high_mm: float = 100.0) -> tuple[Segment, ...]:
    """Loop round the origin, counter-clockwise, inward corners and arcs both ways."""
    count = draw(st.integers(3, 9))
    bulge = st.sampled_from([0.0, 0.0, 0.1, -0.1, 0.4, -0.3, 1.0])
    radii = draw(st.lists(st.floats(low_mm, high_mm), min_size=count, max_size=count))
    bulges = draw(st.lists(bulge, min_size=count, max_size=count))
    turn = draw(st.floats(0, 2 * math.pi))
    points = [
        (r * math.cos(turn + 2 * math.pi * i / count), r * math.sin(turn + 2 * math.pi * i / count))
        for i, r in enumerate(radii)
    ]
    return bulged(points, bulges)


@st.composite
def parts_with_holes(draw: st.DrawFn) -> tuple[Loop, tuple[Loop, ...]]:
    """An outline and up to two holes, clear of each other by shapely's word."""
    outline = draw(stars())
    holes: list[Loop] = []
    if draw(st.booleans()):
        holes.append(Circle((draw(st.floats(-20, -8)), 0.0), draw(st.floats(1, 6))))
    if draw(st.booleans()):
        star = draw(stars(4.0, 7.0))
        holes.append(_shifted(star, 12.0, draw(st.floats(-9, 9))))
    shape = faceted(outline)
    inner = [faceted(hole) for hole in holes]
    assume(_clear(shape) and all(_clear(one) for one in inner))
    assume(all(shape.buffer(-1).contains(one) for one in inner))
    assume(len(inner) < 2 or inner[0].distance(inner[1]) > 0.5)
    return outline, tuple(holes)


def _clear(shape: shapely.Polygon) -> bool:
    """One simple edge, no two stretches of it within half a millimetre."""
    if not shape.is_valid:
        return False
    thin, fat = shape.buffer(-0.25), shape.buffer(0.25)
    whole = thin.geom_type == "Polygon" and not thin.is_empty
    return whole and fat.geom_type == "Polygon" and not fat.interiors


def _shifted(loop: tuple[Segment, ...], x: float, y: float) -> tuple[Segment, ...]:
    out: list[Segment] = []
    for s in loop:
        if isinstance(s, Line):
            out.append(Line((s.start[0] + x, s.start[1] + y), (s.end[0] + x, s.end[1] + y)))
        else:
            centre = (s.centre[0] + x, s.centre[1] + y)
            out.append(Arc(centre, s.radius_mm, s.start_deg, s.sweep_deg))
    return tuple(out)
