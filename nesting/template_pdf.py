"""Full-size paper templates: one PDF for each blank, a page for each tile. mm."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

from nesting.paper import Page, Paper
from nesting.template_ink import (
    CUT,
    FINE,
    LAY,
    MARK,
    TRIM,
    Align,
    draw_line,
    draw_loop,
    draw_punch_mark,
    draw_registration,
    draw_segment,
    draw_text,
)
from nesting.template_strip import Title, draw_strips
from nesting.tiles import Cell, Tile, TileSet, blank_on_paper, cross_arm_mm, registration_points
from parts.blank import Blank, MarkPoint, MarkText
from parts.faults import Fault, SpecError
from parts.outline import Circle, Point, turned

POINTS_PER_MM = 72 / 25.4  # Source: ISO 32000-1, 8.3.2.3: the default unit is 1/72 inch
PUNCH_ARM_MM = 4.0
HINT_MM = 1.5  # height of capitals in the hints for putting pages together


def write_template(blank: Blank, count: int, paper: Paper, path: Path, *, job_name: str) -> int:
    """Draw the blank at full size on as many pages as it takes; returns the number of pages.

    `count` is how many of the blank the job needs. The same input gives the same bytes.
    Raises: SpecError for a count below 1; OSError where the file cannot be written.
    """
    from reportlab.pdfgen.canvas import Canvas

    if not count >= 1:
        raise SpecError([Fault("count", count, "a whole number from 1", "count = 1")])
    page, tiles = blank_on_paper(blank, paper)
    size = (page.width_mm * POINTS_PER_MM, page.height_mm * POINTS_PER_MM)
    # not compressed: the bytes then do not hang on the compression library of the machine
    canvas = Canvas(str(path), pagesize=size, invariant=1, pageCompression=0)
    canvas.setTitle(f"{blank.name} - {job_name}")
    canvas.setAuthor("")
    canvas.setSubject("full-size cutting template")
    canvas.setCreator("platewheel")
    # asks the viewer's print dialogue for true size. Source: ISO 32000-1, table 150
    canvas.setViewerPreference("PrintScaling", "None")
    for tile in tiles.tiles:
        canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
        draw_strips(canvas, page, tiles, tile, Title(blank, count, job_name))
        _draw_hints(canvas, page, tiles, tile.cell)
        _draw_tile(canvas, page, tiles, tile, blank)
        canvas.showPage()
    canvas.save()
    return len(tiles.tiles)


def _draw_tile(canvas: Any, page: Page, tiles: TileSet, tile: Tile, blank: Blank) -> None:
    """What lies in the window, in the blank's own coordinates; cut lines last, on top."""
    left, bottom, right, top = page.window
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(left, bottom, right - left, top - bottom)
    canvas.clipPath(window, stroke=0, fill=0)
    canvas.translate(left - tile.box[0], bottom - tile.box[1])
    _draw_joints(canvas, tiles, tile.cell)
    arm = cross_arm_mm(tiles)
    for at in registration_points(blank, tiles, tile.cell):
        draw_registration(canvas, at, arm)
    _draw_marks(canvas, blank)
    for loop in (blank.outline, *blank.holes):
        draw_loop(canvas, loop, CUT)
    canvas.restoreState()


def _draw_marks(canvas: Any, blank: Blank) -> None:
    """Lines dashed, spots as punch marks, words as words; each round hole gets its centre."""
    for mark in blank.marks:
        if isinstance(mark, MarkText):
            dx, dy = turned((0.0, -mark.height_mm / 2), mark.turn_deg)  # baseline to middle
            at = (mark.at[0] + dx, mark.at[1] + dy)
            turn, height = mark.turn_deg, mark.height_mm
            draw_text(canvas, at, mark.text, height, align="centre", turn_deg=turn)
        elif not isinstance(mark, MarkPoint):
            draw_segment(canvas, mark, MARK)
    spots = {mark.at: PUNCH_ARM_MM for mark in blank.marks if isinstance(mark, MarkPoint)}
    for hole in blank.holes:
        if isinstance(hole, Circle):
            punched = [at for at in spots if math.dist(at, hole.centre) < 0.01]
            arm = min(PUNCH_ARM_MM, 0.7 * hole.radius_mm)  # stays clear of the cut line
            spots |= dict.fromkeys(punched or [hole.centre], arm)
    for at, arm in spots.items():
        draw_punch_mark(canvas, at, arm)


def _joints(tiles: TileSet, cell: Cell) -> dict[str, int]:
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


def _draw_joints(canvas: Any, tiles: TileSet, cell: Cell) -> None:
    """Trim lines at edges that lie on a page before, lay lines for the edge of the next page."""
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
    for side in _joints(tiles, cell):
        draw_line(canvas, *lines[side])


def _draw_hints(canvas: Any, page: Page, tiles: TileSet, cell: Cell) -> None:
    """What to do at each joint, told beside the window."""
    left, bottom, right, top = page.window
    lay_x, lay_y = right - tiles.overlap_mm, bottom + tiles.overlap_mm
    hints: dict[str, tuple[Point, str, Align, float]] = {
        "left": ((left - 1.2, top - 2), "trim this edge, lay it on page {}", "right", 90.0),
        "above": ((left + 2, top + 1.2), "trim this edge, lay it on page {}", "left", 0.0),
        "corner": ((right + 2.7, top - 2), "trim this edge", "right", 90.0),
        "right": ((lay_x - 1, top + 1.2), "page {} is laid up to this line", "right", 0.0),
        "below": ((left - 1.2, lay_y + 1), "page {} is laid up to this line", "left", 90.0),
    }
    for side, number in _joints(tiles, cell).items():
        at, words, align, turn = hints[side]
        draw_text(canvas, at, words.format(number), HINT_MM, align=align, turn_deg=turn)
    if "right" in _joints(tiles, cell):
        draw_line(canvas, (lay_x, top), (lay_x, top + 3), FINE)
    if "below" in _joints(tiles, cell):
        draw_line(canvas, (left - 3, lay_y), (left, lay_y), FINE)
