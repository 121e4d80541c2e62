"""Where the pages of a template meet: trim and glue lines, hints, numbered arrows. mm."""

from __future__ import annotations

from typing import Any

from platewheel.nesting.templates.ink import (
    BOLD,
    FINE,
    LAY,
    TRIM,
    Align,
    draw_arrow,
    draw_line,
    draw_text,
)
from platewheel.nesting.templates.paper import Page
from platewheel.nesting.templates.tiles import Cell, TileSet
from platewheel.parts.geometry.outline import Point

HINT_MM = 1.5  # height of capitals in the hints for putting pages together
ARROW_MM = 2.8
NUMBER_MM = 2.6  # height of the page number beside an arrow


def joints(tiles: TileSet, cell: Cell) -> dict[str, int]:
    """Page numbers beside a page. Each page is laid on those left and above.

    `corner`: the page up and right of it, where none at the right would cover this one's strip,
    so that the strip must be cut off.
    """
    (column, row), numbers = cell, tiles.numbers
    beside = {
        "left": (column - 1, row),
        "above": (column, row - 1),
        "right": (column + 1, row),
        "below": (column, row + 1),
        "corner": (column + 1, row - 1),
    }
    pages = {side: numbers[at] for side, at in beside.items() if at in numbers}
    if "right" in pages:
        pages.pop("corner", None)
    return pages


def draw_joints(canvas: Any, tiles: TileSet, cell: Cell) -> None:
    """Trim lines at edges that lie on a page before, glue lines for the edge of the next page;
    in the blank's coordinates."""
    left, bottom, right, top = tiles.box(cell)
    half = FINE.width_mm / 2  # the whole line shows inside the window
    lay_x, lay_y = right - tiles.overlap_mm + half, bottom + tiles.overlap_mm - half
    lines = {
        "left": ((left + half, bottom), (left + half, top), TRIM),
        "above": ((left, top - half), (right, top - half), TRIM),
        "corner": ((right - half, bottom), (right - half, top), TRIM),
        "right": ((lay_x, bottom), (lay_x, top), LAY),
        "below": ((left, lay_y), (right, lay_y), LAY),
    }
    for side in joints(tiles, cell):
        draw_line(canvas, *lines[side])


def draw_hints(canvas: Any, page: Page, tiles: TileSet, cell: Cell) -> None:
    """What to do at each joint, told beside the window."""
    left, bottom, right, top = page.window
    lay_x, lay_y = right - tiles.overlap_mm, bottom + tiles.overlap_mm
    hints: dict[str, tuple[Point, str, Align, float]] = {
        "left": ((left - 1.2, top - 2), "trim this edge, lay it on page {}", "right", 90.0),
        "above": ((left + 2, top + 1.2), "trim this edge, lay it on page {}", "left", 0.0),
        "corner": ((right + 2.7, top - 2), "trim this edge", "right", 90.0),
        "right": ((lay_x - 1, top + 1.2), "glue: page {} is laid up to this line", "right", 0.0),
        "below": (
            (left - 1.2, lay_y + 1),
            "glue: page {} is laid up to this line",
            "left",
            90.0,
        ),
    }
    found = joints(tiles, cell)
    for side, number in found.items():
        at, words, align, turn = hints[side]
        draw_text(canvas, at, words.format(number), HINT_MM, align=align, turn_deg=turn)
    if "right" in found:
        draw_line(canvas, (lay_x, top), (lay_x, top + 3), FINE)
    if "below" in found:
        draw_line(canvas, (left - 3, lay_y), (left, lay_y), FINE)
    _draw_arrows(canvas, page, found)


def _draw_arrows(canvas: Any, page: Page, found: dict[str, int]) -> None:
    """An arrow to each page beside, its number with it; in the strips, clear of bars and map."""
    left, bottom, right, top = page.window
    middle_x, middle_y = (left + right) / 2, (bottom + top) / 2
    bar_end = page.across_bar[0] + 101.6 + 0.2
    up = middle_y + 54  # above the bar
    high = min(ARROW_MM, max(1.5, top - up))
    # side: tip, direction, where the number's baseline begins, its alignment
    places: dict[str, tuple[Point, tuple[float, float], Point, Align]] = {
        "left": ((left - 3.7, middle_y), (-1.0, 0.0), (left - 2.2, middle_y + 2), "centre"),
        "right": (
            (right + 11.0, top - high),
            (1.0, 0.0),
            (right + 10.2 - ARROW_MM, top - high - NUMBER_MM / 2),
            "right",
        ),
        "above": ((middle_x + 9, top + 3.6), (0.0, 1.0), (middle_x + 11, top + 0.9), "left"),
        "below": (
            (bar_end + 2, bottom - 6.0),
            (0.0, -1.0),
            (bar_end + 3.7, bottom - 5.8),
            "left",
        ),
    }
    for side, number in found.items():
        if side == "corner":
            continue
        tip, towards, at, align = places[side]
        size = high if side == "right" else ARROW_MM
        draw_arrow(canvas, tip, size, towards)
        width = {"left": 3.2, "below": 4.0}.get(side, 6.5)
        draw_text(
            canvas, at, str(number), min(NUMBER_MM, size), width_mm=width, font=BOLD, align=align
        )
