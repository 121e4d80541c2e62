"""Discs of one size in rows: upright, staggered, and staggered with the rows pressed together.

Source: hexagonal packing and its widened forms, plain geometry; in a square of 1000 mm, 216 discs
of 70 mm lie in staggered rows (best known packing 219: Specht's tables, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.nesting.stock.layout import Placement, Sheet
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Point

SLACK_MM = 1e-3  # places are rounded to 0.001 mm


def disc_rows(blank: Blank, sheet: Sheet, spacing_mm: float, margin_mm: float) -> list[Placement]:
    """Most discs that rows lay on a plain sheet, in order along its length; none for an offcut.

    Raises: ValueError for a blank that is not round.
    """
    if not isinstance(blank.outline, Circle):
        raise ValueError(f"{blank.name} is not round")
    if sheet.is_offcut:
        return []
    apart = 2 * blank.outline.radius_mm + spacing_mm
    low = math.ceil((margin_mm + blank.outline.radius_mm) / SLACK_MM - 1e-6) * SLACK_MM
    length, width = (
        side - low - margin_mm - blank.outline.radius_mm
        for side in (sheet.length_mm, sheet.width_mm)
    )
    if min(length, width) < -1e-9:
        return []
    found = [*_rows(length, width, apart)]
    found += [[(x, y) for y, x in way] for way in _rows(width, length, apart)]
    best = max(found, key=len)
    cx, cy = blank.outline.centre
    return [
        Placement(blank, round(x + low - cx, 3), round(y + low - cy, 3), 0.0)
        for x, y in sorted(best)
    ]


def _rows(length: float, width: float, apart: float) -> Iterator[list[Point]]:
    """Centres in rows along `length`, for each count of rows that goes into `width`."""
    apart += SLACK_MM if length > SLACK_MM else 0.0
    yield [
        (apart * i, apart * j)
        for j in range(math.floor(width / apart + 1e-9) + 1)
        for i in range(math.floor(length / apart + 1e-9) + 1)
    ]
    for rows in range(2, math.floor(2 * width / apart) + 2):
        pitch = (width - SLACK_MM) / (rows - 1)
        if pitch < apart / 2:
            return
        along = apart
        if pitch < apart:
            along = max(apart, 2 * math.sqrt(apart**2 - pitch**2) + SLACK_MM)
        counts = [
            math.floor((length - SLACK_MM - shift) / along + 1e-9) + 1
            if length - SLACK_MM >= shift
            else 0
            for shift in (0.0, along / 2)
        ]
        yield [
            (along * i + (along / 2 if j % 2 else 0.0), pitch * j)
            for j in range(rows)
            for i in range(counts[j % 2])
        ]
