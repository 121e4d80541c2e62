"""The upright rectangle of a plate that rows are laid in: all within the margin, or the largest
that an offcut holds. mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from platewheel.nesting.stock.layout import Sheet

Rectangle = tuple[float, float, float, float]
MOST_MEASURES = 14  # along each axis; an offcut of more corners is looked at in these steps
HAIR_MM = 1e-6


def usable(sheet: Sheet, margin_mm: float) -> Rectangle | None:
    """x0, y0, x1, y1 with the margin kept to the edge and to holes; None where nothing is left."""
    if not sheet.is_offcut:
        room = (margin_mm, margin_mm, sheet.length_mm - margin_mm, sheet.width_mm - margin_mm)
        return room if room[2] > room[0] and room[3] > room[1] else None
    import shapely

    steel = shapely.Polygon(sheet.corners, sheet.holes).buffer(-margin_mm, join_style="mitre")
    return None if steel.is_empty else largest_box(steel)


def largest_box(steel: Any) -> Rectangle | None:
    """The largest upright rectangle on measures of a shapely polygon's own corners."""
    import shapely

    whole = steel.buffer(HAIR_MM)
    shapely.prepare(whole)
    corners = shapely.get_coordinates(steel)
    xs, ys = (_measures(corners[:, axis].tolist()) for axis in (0, 1))
    best: Rectangle | None = None
    most = 0.0
    for i, x0 in enumerate(xs):
        for x1 in xs[i + 1 :]:
            for j, y0 in enumerate(ys):
                for y1 in ys[j + 1 :]:
                    area = (x1 - x0) * (y1 - y0)
                    if area > most and whole.covers(shapely.box(x0, y0, x1, y1)):
                        best, most = (x0, y0, x1, y1), area
    return best


def _measures(values: Sequence[float]) -> list[float]:
    """Different values in order; of many, evenly some."""
    own = sorted({round(value, 6) for value in values})
    if len(own) <= MOST_MEASURES:
        return own
    low, step = own[0], (own[-1] - own[0]) / (MOST_MEASURES - 1)
    return [low + k * step for k in range(MOST_MEASURES)]
