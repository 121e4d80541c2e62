"""Blanks as the search moves them, about their own middle, and its poses as placements. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.geometry.facets import laid_polygon, sector_of
from platewheel.nesting.stock.layout import Placement, Turns
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Point, moved_point

PACE_MM = 32.0  # between samples on the edge of a polygon
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
    return bool(sector[0] - inner.outline.radius_mm >= spacing_mm + SEARCH_EXTRA_MM)


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


def rectangle(blank: Blank) -> tuple[float, float] | None:
    """Sides along x and y of a blank that is an upright rectangle."""
    x0, y0, x1, y1 = blank.bounds
    full = (x1 - x0) * (y1 - y0)
    if isinstance(blank.outline, Circle) or len(blank.outline) != 4:
        return None
    plain = math.isclose(outline.area_mm2(blank.outline), full, rel_tol=1e-12)
    return (x1 - x0, y1 - y0) if plain else None


def ring(shape: Shape) -> list[Point]:
    """Corners of a polygon's outline in its frame."""
    cx, cy = shape.centre
    return [(x - cx, y - cy) for x, y in laid_polygon(shape.blank.outline)]
