"""The PDF file of a template: pages of true millimetres, the same input giving the same bytes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from platewheel.nesting.templates.paper import Page

POINTS_PER_MM = 72 / 25.4  # Source: ISO 32000-1, 8.3.2.3: the default unit is 1/72 inch


def open_canvas(path: Path, page: Page, title: str, print_scale: float) -> Any:
    """A file for pages of one size; the page is in millimetres as they come out of the printer,
    the file's own are larger by 1 / `print_scale`."""
    from reportlab.pdfgen.canvas import Canvas

    points = POINTS_PER_MM / print_scale
    # not compressed: the bytes then do not hang on the compression library of the machine
    canvas = Canvas(
        str(path),
        pagesize=(page.width_mm * points, page.height_mm * points),
        invariant=1,
        pageCompression=0,
    )
    canvas.setTitle(title)
    canvas.setAuthor("")
    canvas.setSubject("full-size cutting template")
    canvas.setCreator("platewheel")
    # asks the viewer's print dialogue for true size. Source: ISO 32000-1, table 150
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def start_page(canvas: Any, print_scale: float) -> None:
    """What follows is in true millimetres, the origin at the page's lower left corner."""
    points = POINTS_PER_MM / print_scale
    canvas.scale(points, points)
