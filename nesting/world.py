"""Blanks, plate and gaps as the arrays that the compiled search works on, and poses back. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from nesting.facets import outer_polygon, sector_of
from nesting.layout import Placement, Sheet, Turns
from parts import outline
from parts.blank import Blank
from parts.outline import Circle, Point, moved_point

PACE_MM = 16.0  # between samples on the edge of a polygon
LOOSE = 0.3  # of a band's width: more than any of it is from its sample discs
CLOSE = 0.75  # of their diameter, from inscribed disc to disc in a band
ROUNDING_MM = 0.001  # of places
SEARCH_EXTRA_MM = 0.02  # over the spacing and margin, for what samples and rounding leave


@dataclass(frozen=True)
class Shape:
    """A blank, or a cone blank with a disc at the centre of its mouth.

    The shape's own frame: origin at `centre` of the blank, x along `along_deg`; the centre of a
    sector's arcs lies `back_mm` behind its origin, so that parts turn about their own middle.
    """

    blank: Blank
    turns: Turns
    centre: Point = (0.0, 0.0)
    along_deg: float = 0.0
    back_mm: float = 0.0
    inner: Blank | None = None

    @property
    def area_mm2(self) -> float:
        """Outline area, holes not taken off."""
        inner = outline.area_mm2(self.inner.outline) if self.inner else 0.0
        return outline.area_mm2(self.blank.outline) + inner


def shape_of(blank: Blank, turns: Turns = "any", inner: Blank | None = None) -> Shape:
    """A blank as the search sees it."""
    if isinstance(blank.outline, Circle):
        return Shape(blank, turns, blank.outline.centre)
    sector = sector_of(blank.outline)
    if sector is not None:
        near, far, start, sweep, centre = sector
        cos = math.cos(math.radians(sweep / 2))
        back = (far + min(near * cos, far * cos)) / 2
        along = start + sweep / 2
        middle = moved_point((back, 0.0), *centre, along)
        return Shape(blank, turns, middle, along, back, inner)
    x0, y0, x1, y1 = blank.bounds
    return Shape(blank, turns, ((x0 + x1) / 2, (y0 + y1) / 2))


def goes_inside(holder: Blank, inner: Blank, spacing_mm: float) -> bool:
    """Whether a round blank lies at the centre of a cone blank that reaches round it."""
    sector = sector_of(holder.outline)
    if sector is None or sector[3] <= 180 or not isinstance(inner.outline, Circle):
        return False
    return sector[0] - inner.outline.radius_mm >= spacing_mm + SEARCH_EXTRA_MM


def placements_of(
    shapes: Sequence[Shape], kinds: Sequence[int], pose: Any
) -> tuple[Placement, ...]:
    """Poses of the search as placements, rounded to 0.001 mm and 0.0001 degrees."""
    placed = []
    for kind, (x, y, turn) in zip(kinds, pose, strict=True):
        shape = shapes[kind]
        degrees = math.degrees(turn) - shape.along_deg
        nearest = 90 * round(degrees / 90)
        if abs(degrees - nearest) < 1e-7:
            degrees = float(nearest)
        behind = moved_point((-shape.back_mm, 0.0), x, y, math.degrees(turn))
        for blank, at, centre in (
            (shape.blank, (x, y), shape.centre),
            (shape.inner, behind, _middle(shape.inner)),
        ):
            if blank is None:
                continue
            round_blank = isinstance(blank.outline, Circle) and not blank.holes
            rotation = 0.0 if round_blank else round(degrees % 360, 4) % 360
            dx, dy = moved_point(centre, 0.0, 0.0, rotation)
            placed.append(Placement(blank, round(at[0] - dx, 3), round(at[1] - dy, 3), rotation))
    return tuple(placed)


def poses_of(shapes: Sequence[Shape], placements: Sequence[Placement]) -> dict[int, list[Any]]:
    """Poses of placements by kind, each blank as a shape of its own; the way back."""
    kinds = {shape.blank.name: k for k, shape in enumerate(shapes) if shape.inner is None}
    poses: dict[int, list[Any]] = {}
    for p in placements:
        shape = shapes[kinds[p.blank.name]]
        x, y = moved_point(shape.centre, p.x_mm, p.y_mm, p.rotation_deg)
        turn = math.radians(p.rotation_deg + shape.along_deg)
        poses.setdefault(kinds[p.blank.name], []).append((x, y, turn))
    return poses


def _middle(blank: Blank | None) -> Point:
    return blank.outline.centre if blank and isinstance(blank.outline, Circle) else (0.0, 0.0)


def _primitives(shape: Shape) -> list[tuple[int, list[float], list[Any]]]:
    """Kind, parameters and edges of each primitive, in the shape's frame."""
    from nesting.depth import DISC, POLYGON, RECTANGLE, SECTOR

    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [(DISC, [0, 0, blank.outline.radius_mm], [])]
    sector = sector_of(blank.outline)
    if sector is not None:
        inner, outer, _, sweep, _ = sector
        half = math.radians(sweep / 2)
        back = -shape.back_mm
        found: list[tuple[int, list[float], list[Any]]] = [
            (SECTOR, [back, 0, inner, outer, math.cos(half), math.sin(half)], [])
        ]
        if shape.inner is not None:
            assert isinstance(shape.inner.outline, Circle)
            found.append((DISC, [back, 0, shape.inner.outline.radius_mm], []))
        return found
    x0, y0, x1, y1 = blank.bounds
    if len(blank.outline) == 4 and math.isclose(
        outline.area_mm2(blank.outline), (x1 - x0) * (y1 - y0), rel_tol=1e-12
    ):
        return [(RECTANGLE, [0, 0, (x1 - x0) / 2, (y1 - y0) / 2], [])]
    cx, cy = shape.centre
    ring = [(x - cx, y - cy) for x, y in outer_polygon(blank.outline)]
    ring = [p for p, q in zip(ring, [*ring[1:], ring[0]], strict=True) if math.dist(p, q) > 1e-9]
    edges = [(*p, *q) for p, q in zip(ring, [*ring[1:], ring[0]], strict=True)]
    box = [x0 - cx, y0 - cy, x1 - cx, y1 - cy]
    return [(POLYGON, box, edges)]


def _samples(shape: Shape) -> tuple[list[tuple[float, float, float]], float, float]:
    """Sample discs (x, y, radius) of a shape in its frame, the edge each stands for, and how far
    any point of the shape is from the discs: below nothing for a lone disc, no end for polygons.

    They leave no way for a part to lie across another unseen: inscribed discs closer than their
    diameter in bands, points closer than PACE_MM round other outlines.
    """
    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [(0.0, 0.0, blank.outline.radius_mm)], blank.outline.radius_mm / 4, -1.0
    sector = sector_of(blank.outline)
    if sector is not None:
        near, far, _, sweep, _ = sector
        points = [
            (x - shape.back_mm, y, r) for x, y, r in _band(near, far, math.radians(sweep / 2))
        ]
        if shape.inner is not None:
            assert isinstance(shape.inner.outline, Circle)
            points.append((-shape.back_mm, 0.0, shape.inner.outline.radius_mm))
        return points, CLOSE * (far - near), LOOSE * (far - near)
    x0, y0, x1, y1 = blank.bounds
    points = []
    if len(blank.outline) == 4 and math.isclose(
        outline.area_mm2(blank.outline), (x1 - x0) * (y1 - y0), rel_tol=1e-12
    ):
        a, b = (x1 - x0) / 2, (y1 - y0) / 2
        short, run = min(a, b), abs(a - b)
        count = max(1, math.ceil(2 * run / (2 * CLOSE * short))) + 1
        for k in range(count):
            along = -run + 2 * run * k / (count - 1)
            points.append((along, 0.0, short) if a > b else (0.0, along, short))
        points += [(a, b, 0.0), (-a, b, 0.0), (-a, -b, 0.0), (a, -b, 0.0)]
        return points, 2 * CLOSE * short, 2 * LOOSE * short
    length = 0.0
    corners = outer_polygon(blank.outline)
    for p, q in zip(corners, [*corners[1:], corners[0]], strict=True):
        side = math.dist(p, q)
        length += side
        count = max(1, math.ceil(side / PACE_MM))
        for k in range(count):
            x, y = p[0] + k / count * (q[0] - p[0]), p[1] + k / count * (q[1] - p[1])
            points.append((x - shape.centre[0], y - shape.centre[1], 0.0))
    return points, length / len(points), 1e9


def _band(near: float, far: float, half: float) -> list[tuple[float, float, float]]:
    """Inscribed discs along the middle of an annular sector about +x, and its corners."""
    middle, r = (near + far) / 2, (far - near) / 2
    end = half - math.asin(min(1.0, r / middle))
    if end <= 0:
        end, r = 0.0, middle * math.sin(min(half, math.pi / 2))
        r = min(r, (far - near) / 2)
    count = max(1, math.ceil(2 * end * middle / (2 * CLOSE * r))) + 1
    turns = [-end + 2 * end * k / (count - 1) for k in range(count)]
    discs = [(middle * math.cos(t), middle * math.sin(t), r) for t in turns]
    corners = [
        (rho * math.cos(t), rho * math.sin(t), 0.0) for rho in (near, far) for t in (-half, half)
    ]
    return discs + corners


def _allowed(shape: Shape) -> list[float]:
    """Turns of the shape's frame; empty for any."""
    names = {"any": 0, "quarter": 4, "half": 2, "fixed": 1}
    count = names[shape.turns]
    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return [0.0]
    if count == 0:
        x0, y0, x1, y1 = blank.bounds
        if sector_of(blank.outline) is None and max(x1 - x0, y1 - y0) > 4 * min(x1 - x0, y1 - y0):
            count = 4  # long strips lie along the plate or across it
        else:
            return []
    return [math.radians(shape.along_deg + 360 * k / count) for k in range(count)]


def world_of(
    shapes: Sequence[Shape], sheet: Sheet, spacing_mm: float, margin_mm: float, length_mm: float
) -> Any:
    """Arrays for shapes on a plate of which `length_mm` may be used."""
    from nesting.depth import World

    kinds: list[int] = []
    params: list[list[float]] = []
    edges: list[Any] = []
    prim_first = [0]
    samples, sample_first, pace, loose, rounds, size = [], [0], [], [], [], []
    turns = [_allowed(shape) for shape in shapes]
    for shape in shapes:
        for kind, given, ring in _primitives(shape):
            row = [0.0] * 8
            if ring:
                row[2:4] = [len(edges), len(edges) + len(ring)]
                row[4:8] = given
                edges += ring
            else:
                row[: len(given)] = given
            kinds.append(kind)
            params.append(row)
        prim_first.append(len(kinds))
        points, each, off = _samples(shape)
        loose.append(off)
        samples += points
        sample_first.append(len(samples))
        pace.append(each)
        rounds.append(_round(shape))
        size.append(math.sqrt(shape.area_mm2))
    most = max(1, *(len(t) for t in turns))
    table = np.zeros((len(shapes), most))
    for i, allowed in enumerate(turns):
        table[i, : len(allowed)] = allowed
    gap = margin_mm + (ROUNDING_MM if margin_mm else 0.0)
    plate: list[Any] = []
    if sheet.is_offcut:
        for rim in (sheet.corners, *sheet.holes):
            plate += [(*p, *q) for p, q in zip(rim, [*rim[1:], rim[0]], strict=True)]
    end = min(length_mm, sheet.length_mm)
    return World(
        np.array(prim_first),
        np.array(kinds),
        np.array(params),
        np.array(edges, dtype=float).reshape(-1, 4),
        np.array(sample_first),
        np.array(samples),
        np.array(pace),
        np.array(loose),
        np.array(rounds),
        np.array(size),
        np.array([len(t) for t in turns]),
        table,
        spacing_mm + SEARCH_EXTRA_MM if spacing_mm else 0.0,
        np.array([gap, gap, end - gap, sheet.width_mm - gap]),
        np.array(plate, dtype=float).reshape(-1, 4),
        gap,
    )


def _round(shape: Shape) -> tuple[float, float, float]:
    """A small circle round all of a shape, in its frame."""
    import shapely

    blank = shape.blank
    if isinstance(blank.outline, Circle):
        return 0.0, 0.0, blank.outline.radius_mm
    (cx, cy), along = shape.centre, -shape.along_deg
    corners = [moved_point((x - cx, y - cy), 0, 0, along) for x, y in outer_polygon(blank.outline)]
    middle = shapely.minimum_bounding_circle(shapely.MultiPoint(corners)).centroid
    at = (middle.x, middle.y)
    return *at, max(math.dist(at, corner) for corner in corners) + 1e-6
