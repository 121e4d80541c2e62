"""The wheel pulled apart along its axle, as a line drawing (SVG) with the parts' names.

Drawn from the same solids that are written as STEP; beads are left out.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    XY,
    arrow,
    line,
    spread,
    text_width,
    words,
)
from platewheel.cli.papers.drawings.pulled_apart import Pulled, pulled_apart
from platewheel.cli.papers.drawings.visible_edges import Eye, visible_edges
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

EYE = Eye((0.30, 0.82, -0.52))  # from the field side, a little above; +X up, field to the left
LETTERS = 0.085  # height of the letters over the radius of the flange tip
FINE = 0.001  # chord error of curved lines, over the flange tip's radius


def exploded_picture(
    spec: WheelSpec,
    solids: Mapping[str, cq.Solid],
    units: Units = "mm",
    disc: Blank | None = None,
) -> str:
    """SVG element of the wheel's parts along the axle, field side to the left.

    `solids` are those of `wheel_solids`, by name; beads among them are left out.
    """
    tip = spec.over_flange_diameter_mm / 2
    size = LETTERS * tip
    parts = pulled_apart(spec, solids, units, disc)
    strokes = visible_edges([solid for p in parts for solid in _placed(p)], EYE, FINE * tip)
    low = max(y for stroke in strokes for _, y in stroke)
    feet = [_foot(part) for part in parts]
    widths = [max(text_width(row, size) for row in part.rows) + size for part in parts]
    middles = spread([x for x, _ in feet], widths, -math.inf, math.inf)
    labels = "".join(
        _label(part, foot, (x, low + 1.6 * size), size)
        for part, foot, x in zip(parts, feet, middles, strict=True)
    )
    xs = [x for stroke in strokes for x, _ in stroke]
    xs += [x + way * w / 2 for x, w in zip(middles, widths, strict=True) for way in (-1, 1)]
    axle = (
        EYE.seen((0, 0, parts[0].start_mm - 0.5 * tip)),
        EYE.seen((0, 0, parts[-1].start_mm + tip)),
    )
    xs += [axle[0][0], axle[1][0]]
    ys = [y for stroke in strokes for _, y in stroke] + [axle[1][1]]
    left, right = min(xs) - size, max(xs) + size
    top, bottom = min(ys) - size, low + (2.4 + 1.2 * max(len(part.rows) for part in parts)) * size
    body = line(axle, size, "2 0.4 0.3 0.4") + _drawn(strokes, size) + labels
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="wheel pulled apart" '
        f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}" '
        f'font-family="sans-serif" font-size="{size:.2f}" fill="{INK}" stroke-linejoin="round">'
        f"<title>The wheel's parts pulled apart along the axle</title>{body}</svg>"
    )


def _placed(part: Pulled) -> list[cq.Solid]:
    """Its solids where they are drawn."""
    import cadquery as cq

    shifts = [cq.Vector(*part.piece_shift(i)) for i in range(len(part.solids))]
    return [
        solid.moved(cq.Location(shift)) for solid, shift in zip(part.solids, shifts, strict=True)
    ]


def _foot(part: Pulled) -> XY:
    """Lowest point, as seen, of the part's rim on its field side."""
    radius, z, count = part.radius_mm, part.start_mm, len(part.solids)
    points = []
    for i in range(180):
        turn = 2 * math.pi * i / 180
        x, y, _ = part.piece_shift(i * count // 180)
        rim = (radius * math.cos(turn) + x, radius * math.sin(turn) + y, z)
        points.append(EYE.seen(rim))
    return max(points, key=lambda point: point[1])


def _label(part: Pulled, foot: XY, at: XY, size: float) -> str:
    """Rows of text below `at`, an arrow from there to the part."""
    rows = "".join(
        words((at[0], at[1] + (0.9 + 1.2 * i) * size), row, size, "middle")
        for i, row in enumerate(part.rows)
    )
    top = (at[0], at[1] - 0.2 * size)
    stem = line([foot, top], size) + arrow(foot, top, size)
    return f'<g class="part" data-part="{part.key}">{stem}{rows}</g>'


def _drawn(strokes: Sequence[Sequence[XY]], size: float) -> str:
    path = "".join("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in stroke) for stroke in strokes)
    return (
        f'<path d="{path}" fill="none" stroke="{INK}" stroke-width="{0.11 * size:.2f}" '
        'stroke-linecap="round"/>'
    )
