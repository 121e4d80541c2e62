"""The page map: a small picture of a template's pages with the blank over them. mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from platewheel.nesting.templates.ink import BOLD, FINE, LineKind, draw_loop, draw_text
from platewheel.nesting.templates.paper import BOTTOM_MM, Page
from platewheel.nesting.templates.strip import map_width_mm
from platewheel.nesting.templates.tiles import Tile, TileSet
from platewheel.parts.geometry.blank import Blank


def draw_page_map(canvas: Any, page: Page, tiles: TileSet, tile: Tile, blank: Blank) -> None:
    """The grid with the blank over it: this page grey, pages not printed dotted and empty."""
    _, low, far, _ = page.printable
    box = (far - map_width_mm(page), low + 0.3, far - 0.3, low + BOTTOM_MM - 2)
    columns, rows = tiles.columns, tiles.rows
    left, top = tiles.left_mm, tiles.top_mm
    _, bottom, right, _ = tiles.box((columns, rows))
    scale = min((box[2] - box[0]) / (right - left), (box[3] - box[1]) / (top - bottom))
    printed, empty = LineKind(0.15 / scale), LineKind(0.1 / scale, (0.4 / scale, 0.6 / scale))

    canvas.saveState()
    canvas.translate(box[2] - scale * right, box[3] - scale * top)
    canvas.scale(scale, scale)
    for cell in sorted(tiles.cells, key=lambda one: one in tiles.numbers):  # dots lie below
        x, y, x_end, y_end = tiles.core(cell)
        (printed if cell in tiles.numbers else empty).use(canvas)
        canvas.setFillGray(0.75 if cell == tile.cell else 1.0)
        canvas.rect(x, y, x_end - x, y_end - y, stroke=1, fill=1)
    for loop in (blank.outline, *blank.holes):
        draw_loop(canvas, loop, LineKind(FINE.width_mm / scale))
    for cell, number in tiles.numbers.items():
        x, y, x_end, y_end = tiles.core(cell)
        high = min(2.8 / scale, (y_end - y) / 2, (x_end - x) / 3)
        if high * scale >= 0.9:  # smaller cannot be read
            at = (x + 0.6 / scale, y + 0.6 / scale)
            draw_text(canvas, at, str(number), high, font=BOLD)
    canvas.restoreState()


def draw_page_list(canvas: Any, page: Page, names: Sequence[str]) -> None:
    """What is on a page that small parts share, where else the map is."""
    _, low, right, _ = page.printable
    left, y = right - map_width_mm(page), low + BOTTOM_MM - 5
    draw_text(canvas, (left, y), "on this page:", 1.9, font=BOLD)
    pitch = min(3.6, (y - low - 1) / max(1, len(names)))
    for name in names:
        y -= pitch
        draw_text(canvas, (left, y), name, 0.55 * pitch, width_mm=map_width_mm(page))
