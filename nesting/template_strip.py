"""Strips round a template's drawing window: check bars, title, line kinds, page map. mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from nesting.paper import BAR_MM, BOTTOM_MM, Box, Page
from nesting.template_ink import (
    BOLD,
    CUT,
    FINE,
    LAY,
    MARK,
    TRIM,
    LineKind,
    draw_line,
    draw_loop,
    draw_registration,
    draw_text,
)
from nesting.tiles import Tile, TileSet
from parts.blank import Blank
from parts.spec_model import UNITS

BAR_SAYS = f"{BAR_MM:g} mm - measure me: print at 100 %, no fit-to-page"
CAUTION = "Check the bars before cutting."
BAR = LineKind(0.15)
LINE_KINDS = (  # place along the strip, kind, meaning
    (0.0, CUT, "cut"),
    (14.0, MARK, "mark, do not cut"),
    (40.0, TRIM, "trim the paper"),
    (65.0, LAY, "lay the next page"),
)
MAP_MM = 70.0  # widest page map
TEXT_MM = 104.0  # least width of the title: the bar and its ends


@dataclass(frozen=True)
class Title:
    """What every page of a template tells."""

    blank: Blank
    count: int
    job_name: str


def draw_strips(canvas: Any, page: Page, tiles: TileSet, tile: Tile, title: Title) -> None:
    """Everything of a page outside its drawing window, but for the hints at its joints."""
    left, bottom, right, _ = page.printable
    map_width = min(MAP_MM, right - left - TEXT_MM - 5)
    map_box = (right - map_width, bottom + 0.3, right - 0.3, bottom + BOTTOM_MM - 2)
    _draw_bars(canvas, page)
    _draw_title(canvas, page, tiles, tile, title, right - left - map_width - 5)
    _draw_map(canvas, tiles, tile, title.blank, map_box)


def _draw_bars(canvas: Any, page: Page) -> None:
    """A bar each way, measured from end tick to end tick, the middle of each thin line."""
    for (x, y), (along, across) in ((page.across_bar, (1, 0)), (page.upright_bar, (0, 1))):
        draw_line(canvas, (x, y), (x + along * BAR_MM, y + across * BAR_MM), BAR)
        for at in range(0, round(BAR_MM) + 1, 10):
            half = 2.0 if at in (0, BAR_MM) else 0.7
            px, py = x + along * at, y + across * at
            dx, dy = across * half, along * half
            draw_line(canvas, (px - dx, py - dy), (px + dx, py + dy), BAR)
    x, y = page.across_bar
    draw_text(canvas, (x, y - 4.4), BAR_SAYS, 1.7, width_mm=62)
    draw_text(canvas, (x + BAR_MM, y - 4.4), CAUTION, 1.7, width_mm=36, font=BOLD, align="right")
    x, y = page.upright_bar
    draw_text(canvas, (x + 4.4, y), BAR_SAYS, 1.7, width_mm=62, turn_deg=90)


def _draw_title(
    canvas: Any, page: Page, tiles: TileSet, tile: Tile, title: Title, width_mm: float
) -> None:
    x, bottom = page.printable[0] + 1, page.printable[1]
    blank, (column, row) = title.blank, tile.cell
    name = f"{blank.name}, cut {title.count} off, {blank.thickness_mm:g} mm plate"
    draw_text(canvas, (x, bottom + 16.6), name, 2.9, width_mm=width_mm, font=BOLD)
    place = (
        f"page {tiles.numbers[tile.cell]} of {len(tiles.tiles)}"
        f" - column {column} of {tiles.columns}, row {row} of {tiles.rows}"
    )
    if not tile.has_lines:
        place += " - nothing to cut here: this page holds the others in place"
    draw_text(canvas, (x, bottom + 12.2), place, 2.2, width_mm=width_mm)
    draw_text(canvas, (x, bottom + 8.3), f"job: {title.job_name}", 2.2, width_mm=width_mm)
    draw_text(canvas, (x, bottom + 4.8), _sizes(blank), 1.7, width_mm=width_mm)
    for along, kind, words in LINE_KINDS:
        draw_line(canvas, (x + along, bottom + 1.9), (x + along + 8, bottom + 1.9), kind)
        draw_text(canvas, (x + along + 9, bottom + 1.2), words, 1.5)
    draw_registration(canvas, (x + 95, bottom + 1.9), 1.3)
    draw_text(canvas, (x + 97, bottom + 1.2), "line up", 1.5)


def _sizes(blank: Blank) -> str:
    """The blank's own dimensions in words, to be measured on the paper."""
    said = []
    for key, value in blank.sizes.items():
        suffix = next((end for end in UNITS if key.endswith(end)), "")
        name = key.removesuffix(suffix).replace("_", " ")
        said.append(f"{name} {round(value, 2):g} {UNITS.get(suffix, '')}".strip())
    return ", ".join(said)


def _draw_map(canvas: Any, tiles: TileSet, tile: Tile, blank: Blank, box: Box) -> None:
    """The grid with the blank over it: this page grey, pages not printed dotted and empty."""
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
        canvas.setFillGray(0.65 if cell == tile.cell else 1.0)
        canvas.rect(x, y, x_end - x, y_end - y, stroke=1, fill=1)
    draw_loop(canvas, blank.outline, LineKind(FINE.width_mm / scale))
    for cell, number in tiles.numbers.items():
        x, y, x_end, y_end = tiles.core(cell)
        high = min(2.2 / scale, (y_end - y) / 2, (x_end - x) / 3)
        if high * scale >= 0.9:  # smaller cannot be read
            at = (x + 0.6 / scale, y + 0.6 / scale)
            draw_text(canvas, at, str(number), high, font=BOLD)
    canvas.restoreState()
