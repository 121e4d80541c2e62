"""What is left of a plate for the next job: free rectangles, or the outline of all that is free."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.nesting.offcuts.largest_rectangle import Rectangle, largest_rectangle
from platewheel.nesting.offcuts.real_outline import real_outlines
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.outline import Point

LEAST_CLEAR_MM = 1.0  # where the kerf is told as less
HAIR_MM = 1e-6


@dataclass(frozen=True)
class Remnant:
    """A piece worth keeping, where it lies on one layout; as many as the layout is repeated."""

    layout: Layout
    corners: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()

    @property
    def area_mm2(self) -> float:
        """Holes taken off."""
        rings = [outline.area_mm2(outline.polygon(ring)) for ring in (self.corners, *self.holes)]
        return rings[0] - math.fsum(rings[1:])

    @property
    def bounds(self) -> Rectangle:
        """Least x, least y, greatest x, greatest y."""
        return outline.bounds(outline.polygon(self.corners))

    @property
    def length_mm(self) -> float:
        """Along x of the layout."""
        return self.bounds[2] - self.bounds[0]

    @property
    def width_mm(self) -> float:
        """Along y of the layout."""
        return self.bounds[3] - self.bounds[1]

    @property
    def is_rectangle(self) -> bool:
        return not self.holes and math.isclose(self.area_mm2, self.length_mm * self.width_mm)


def rectangle(layout: Layout, room: Rectangle) -> Remnant:
    """An upright rectangle x0, y0, x1, y1 of a layout."""
    x0, y0, x1, y1 = room
    return Remnant(layout, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def clear_distance_mm(cutting: Cutting) -> float:
    """From a part to what is left: its kerf, and what leads cut into the scrap beside it."""
    return max(cutting.kerf_mm, LEAST_CLEAR_MM) + max(cutting.lead_in_mm, cutting.lead_out_mm)


def remnants(layout: Layout, cutting: Cutting) -> tuple[Remnant, ...]:
    """Every piece worth keeping by the job's `offcut_outline` and `least_offcut_mm`; largest
    first, sizes in whole mm where the plate's own edge is not met."""
    clear, least = clear_distance_mm(cutting), cutting.least_offcut_mm
    if cutting.offcut_outline == "real":
        return tuple(Remnant(layout, *found) for found in real_outlines(layout, clear, least))
    kept: list[Rectangle] = []
    while True:
        room = largest_rectangle(layout, clear, least, kept)
        whole = _whole_mm(room, layout) if room else None
        if not whole or min(whole[2] - whole[0], whole[3] - whole[1]) < least:
            return tuple(rectangle(layout, room) for room in kept)
        kept.append(whole)


def _whole_mm(room: Rectangle, layout: Layout) -> Rectangle:
    """Sides set inwards to whole millimetres, those on the plate's edge left."""
    x0, y0, x1, y1 = room
    length, width = layout.sheet.length_mm, layout.sheet.width_mm
    return (
        float(math.ceil(x0 - HAIR_MM)),
        float(math.ceil(y0 - HAIR_MM)),
        x1 if x1 >= length - HAIR_MM else float(math.floor(x1 + HAIR_MM)),
        y1 if y1 >= width - HAIR_MM else float(math.floor(y1 + HAIR_MM)),
    )
