"""Strips round a template's drawing window: check bars, title and legend. mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from platewheel.nesting.templates.ink import (
    BOLD,
    CUT,
    DRILLED,
    LAY,
    MARK,
    TRIM,
    LineKind,
    draw_drill_centre,
    draw_line,
    draw_punch_mark,
    draw_registration,
    draw_text,
)
from platewheel.nesting.templates.paper import Page, Paper
from platewheel.parts.base.units import MM_PER_INCH

BAR_SAYS = "{} - measure me: print at 100 %, no fit-to-page"
CORRECTED_SAYS = "{} on paper - measure me: made for a printer that prints {:g}"
SCALE_HELP = "off? print again with --print-scale MEASURED / TRUE"
CAUTION = "Check the bars before cutting."
BAR = LineKind(0.15)
LINE_KINDS = (  # place along the strip, kind, meaning
    (0.0, CUT, "cut"),
    (15.0, DRILLED, "hole to drill"),
    (39.0, MARK, "mark, do not cut"),
    (66.0, TRIM, "trim the paper"),
)
SPOT_KINDS = (
    (2.0, draw_punch_mark, "centre: punch"),
    (22.0, draw_drill_centre, "centre: punch, drill"),
    (49.0, draw_registration, "lines up pages"),
)
MAP_MM = 70.0  # widest page map
TEXT_MM = 104.0  # least width of the title: the bar and its ends


@dataclass(frozen=True)
class Title:
    """What a page of a template tells: its part, its place among the pages, its job."""

    name: str
    place: str
    job_name: str


def map_width_mm(page: Page) -> float:
    """Width at the right of the bottom strip that a page map may take."""
    left, _, right, _ = page.printable
    return min(MAP_MM, right - left - TEXT_MM - 5)


def draw_strips(
    canvas: Any, page: Page, paper: Paper, title: Title, print_scale: float = 1.0
) -> None:
    """Everything of a page outside its drawing window, but for page map and joints."""
    left, _, right, _ = page.printable
    _draw_bars(canvas, page, paper, print_scale)
    _draw_title(canvas, page, title, right - left - map_width_mm(page) - 5)
    _draw_legend(canvas, page)


def _draw_bars(canvas: Any, page: Page, paper: Paper, print_scale: float) -> None:
    """A bar each way, measured from end tick to end tick, the middle of each thin line."""
    inch = paper.units == "inch"
    length, step, name = paper.bar_mm, MM_PER_INCH / 4 if inch else 10.0, "100 mm"
    if inch:
        name = "4 in"
    count = round(length / step)
    for (x, y), (along, across) in ((page.across_bar, (1, 0)), (page.upright_bar, (0, 1))):
        draw_line(canvas, (x, y), (x + along * length, y + across * length), BAR)
        for i in range(count + 1):
            half = 2.0 if i in (0, count) else 0.7
            px, py = x + along * i * step, y + across * i * step
            dx, dy = across * half, along * half
            draw_line(canvas, (px - dx, py - dy), (px + dx, py + dy), BAR)
    says = BAR_SAYS.format(name)
    if print_scale != 1:
        says = CORRECTED_SAYS.format(name, print_scale)
    x, y = page.across_bar
    draw_text(canvas, (x, y - 4.4), says, 1.7, width_mm=62)
    draw_text(canvas, (x + length, y - 4.4), CAUTION, 1.7, width_mm=36, font=BOLD, align="right")
    x, y = page.upright_bar
    draw_text(canvas, (x + 4.4, y), says, 1.7, width_mm=62, turn_deg=90)
    draw_text(canvas, (x + 6.9, y), SCALE_HELP, 1.5, width_mm=95, turn_deg=90)


def _draw_title(canvas: Any, page: Page, title: Title, width_mm: float) -> None:
    x, bottom = page.printable[0] + 1, page.printable[1]
    draw_text(canvas, (x, bottom + 17.0), title.name, 2.9, width_mm=width_mm, font=BOLD)
    draw_text(canvas, (x, bottom + 12.9), title.place, 2.2, width_mm=width_mm)
    draw_text(canvas, (x, bottom + 9.2), f"job: {title.job_name}", 2.2, width_mm=width_mm)


def _draw_legend(canvas: Any, page: Page) -> None:
    """Every kind of line and spot with its meaning."""
    x, bottom = page.printable[0] + 1, page.printable[1]
    y = bottom + 6.2
    for along, kind, words in LINE_KINDS:
        draw_line(canvas, (x + along, y), (x + along + 8, y), kind)
        draw_text(canvas, (x + along + 9, y - 0.7), words, 1.5)
    y = bottom + 2.4
    for along, draw, words in SPOT_KINDS:
        draw(canvas, (x + along, y), 1.4 if draw is draw_registration else 2.1)
        draw_text(canvas, (x + along + 3, y - 0.7), words, 1.5)
    draw_line(canvas, (x + 70, y), (x + 82, y), LAY)
    draw_text(canvas, (x + 83, y - 0.7), "glue line: next page", 1.5)
