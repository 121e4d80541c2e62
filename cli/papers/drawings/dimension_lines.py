"""Dimension lines as SVG: arrows, witness lines, leaders, angles; texts read from below or right.

Drawing coordinates: x to the right, y down; `size` is the height of the letters, and all else
is spaced by it. Each dimension is a group that names the key it shows. Drawn as ISO 129-1
describes (arrows inside where there is room, else outside; half sections with one arrow).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from html import escape
from typing import Literal

XY = tuple[float, float]
Beside = Literal["before", "after"]  # where a text goes that does not fit between its arrows

INK = "#222"
LETTER = 0.56  # mean width of a sans-serif letter over its size, common practice
ARROW = 1.1  # length of an arrow head


def text_width(text: str, size: float) -> float:
    """Width that a text takes, estimated a little wide."""
    return LETTER * size * len(text)


def words(at: XY, text: str, size: float, anchor: str = "start", scale: float = 1.0) -> str:
    """Text with a white edge, so that a line below it does not spoil it."""
    return (
        f'<text x="{at[0]:.2f}" y="{at[1]:.2f}" font-size="{size * scale:.2f}" '
        f'text-anchor="{anchor}" stroke="#fff" stroke-width="{0.3 * size:.2f}" '
        f'paint-order="stroke">{escape(text)}</text>'
    )


def line(points: Sequence[XY], size: float, dash: str = "", weight: float = 0.06) -> str:
    """Thin open line through points; `dash` in letter sizes."""
    path = "L".join(f"{x:.2f} {y:.2f}" for x, y in points)
    gaps = " ".join(f"{float(part) * size:.2f}" for part in dash.split())
    dashed = f' stroke-dasharray="{gaps}"' if gaps else ""
    return (
        f'<path d="M{path}" fill="none" stroke="{INK}" stroke-width="{weight * size:.3f}"{dashed}/>'
    )


def arrow(tip: XY, back: XY, size: float) -> str:
    """Filled arrow head with its tip at `tip`, its shaft coming from `back`."""
    run = math.hypot(back[0] - tip[0], back[1] - tip[1]) or 1.0
    ux, uy = (back[0] - tip[0]) / run, (back[1] - tip[1]) / run
    long, half = ARROW * size, 0.17 * size
    foot = (tip[0] + ux * long, tip[1] + uy * long)
    corners = (
        tip,
        (foot[0] - uy * half, foot[1] + ux * half),
        (foot[0] + uy * half, foot[1] - ux * half),
    )
    path = "L".join(f"{x:.2f} {y:.2f}" for x, y in corners)
    return f'<path d="M{path}Z" fill="{INK}"/>'


def group(key: str, body: str) -> str:
    """One dimension, named by what it shows."""
    return f'<g class="dimension" data-key="{escape(key)}">{body}</g>'


def between(key: str, start: XY, end: XY, text: str, size: float, beside: Beside = "before") -> str:
    """Dimension from `start` to `end`, its text above the line as read along it.

    Arrows lie between the ends where there is room for both, else outside; the text too, then
    `before` the start or `after` the end. A line drawn upwards has its text on its left.
    """
    long = math.hypot(end[0] - start[0], end[1] - start[1])
    turn = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    inside = long >= 2.6 * ARROW * size
    wide = text_width(text, size)
    fits = wide + 0.3 * size <= long and long >= 2 * size
    tail = 2 * ARROW * size
    reach = tail + (0 if fits else wide)
    low, high = (0.0, long) if inside else (-tail, long + tail)
    if not fits:
        low, high = (
            (min(low, -reach), high) if beside == "before" else (low, max(high, long + reach))
        )
    over = -0.3 * size
    if fits:
        label = words((long / 2, over), text, size, "middle")
    elif beside == "before":
        label = words((-tail + 0.4 * size, over), text, size, "end")
    else:
        label = words((long + tail - 0.4 * size, over), text, size)
    way = 1 if inside else -1
    body = line([(low, 0), (high, 0)], size)
    body += arrow((0, 0), (way, 0), size) + arrow((long, 0), (long - way, 0), size) + label
    place = f'transform="translate({start[0]:.2f} {start[1]:.2f}) rotate({turn:.2f})"'
    return group(key, f"<g {place}>{body}</g>")


def half_diameter(key: str, x: float, y: float, text: str, size: float) -> str:
    """Diameter in a half section whose axis is y = 0: one arrow at y < 0, the line runs past
    the axis; the text is turned, on the left of the line."""
    head = y + 1.3 * ARROW * size
    foot = max(1.6 * size, head + text_width(text, size))
    label = words((0, 0), text, size, "end")
    place = f'transform="translate({x - 0.3 * size:.2f} {head:.2f}) rotate(-90)"'
    body = line([(x, y), (x, foot)], size) + arrow((x, y), (x, 0 if y < 0 else 1), size)
    return group(key, f"{body}<g {place}>{label}</g>")


def angle(key: str, centre: XY, radius: float, turn_deg: float, text: str, size: float) -> str:
    """Angle from +x, counter-clockwise as seen, its arc with two arrows and its text outside."""
    turn = math.radians(turn_deg)
    head = (centre[0] + radius * math.cos(turn), centre[1] - radius * math.sin(turn))
    foot = (centre[0] + radius, centre[1])
    middle = turn / 2
    out = radius + 0.5 * size
    at = (centre[0] + out * math.cos(middle), centre[1] - out * math.sin(middle) + 0.3 * size)
    arc = (
        f'<path d="M{foot[0]:.2f} {foot[1]:.2f}A{radius:.2f} {radius:.2f} 0 0 0 '
        f'{head[0]:.2f} {head[1]:.2f}" fill="none" stroke="{INK}" '
        f'stroke-width="{0.06 * size:.3f}"/>'
    )
    near_head = (head[0] + math.sin(turn), head[1] + math.cos(turn))
    body = arc + arrow(foot, (foot[0], foot[1] - 1), size) + arrow(head, near_head, size)
    return group(key, body + words(at, text, size))


def leader(key: str, tip: XY, elbow: XY, text: str, size: float, left: bool) -> str:
    """Arrow to `tip` from `elbow`, where the text, one or more rows, stands on
    its left or right."""
    way, rows = (-size if left else size), text.split("\n")
    shelf = (elbow[0] + 0.6 * way, elbow[1])
    first = elbow[1] + (0.35 - 0.6 * (len(rows) - 1)) * size
    label = "".join(
        words((shelf[0] + 0.3 * way, first + 1.2 * i * size), row, size, "end" if left else "start")
        for i, row in enumerate(rows)
    )
    return group(key, line([tip, elbow, shelf], size) + arrow(tip, elbow, size) + label)


def spread(
    wanted: Sequence[float], heights: Sequence[float], low: float, high: float
) -> list[float]:
    """Places in rising order, near those wanted, that keep their heights apart within limits.

    `wanted` rises; where all do not fit between `low` and `high`, they run over `low`.
    """
    places: list[float] = []
    for i, want in enumerate(wanted):
        least = places[-1] + (heights[i - 1] + heights[i]) / 2 if places else low
        places.append(max(want, least))
    limit = high
    for i in reversed(range(len(places))):
        places[i] = min(places[i], limit)
        if i:
            limit = places[i] - (heights[i - 1] + heights[i]) / 2
    return places
