"""All templates of a job: large ones in files of their own, small ones together on pages. mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platewheel.nesting.templates.blank import draw_blank
from platewheel.nesting.templates.canvas import open_canvas, start_page
from platewheel.nesting.templates.free_space import clear_boxes
from platewheel.nesting.templates.ink import BOLD, draw_text
from platewheel.nesting.templates.note import Note, draw_note, scale_note, text_mm
from platewheel.nesting.templates.page_map import draw_page_list
from platewheel.nesting.templates.paper import ORIENTATIONS, Box, Page, Paper
from platewheel.nesting.templates.paper_lay import turned_blank
from platewheel.nesting.templates.pdf import (
    Template,
    draw_notes_page,
    draw_template,
    pages_of_notes,
)
from platewheel.nesting.templates.shared_page import pages_of_boxes
from platewheel.nesting.templates.strip import Title, draw_strips
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Point

SMALL_PARTS = "small-parts"  # stem of the file that they share
HEADING_MM = 2.4
ABOVE_MM = 6.0  # heading, above the drawing
RIM_MM = 1.0  # white round everything


@dataclass(frozen=True)
class _NotePlace:
    """Where a note stands on its page; `turned`: a quarter, to be read from the right."""

    note: Note
    box: Box
    turned: bool


@dataclass(frozen=True)
class _SharedPage:
    """Templates on one page, each with its upper left corner, and notes between them."""

    parts: tuple[tuple[Template, Point], ...]
    notes: tuple[_NotePlace, ...]


@dataclass(frozen=True)
class _Shared:
    """The file of small parts: its pages, and pages of notes that found no room on them."""

    page: Page
    pages: tuple[_SharedPage, ...]
    behind: tuple[list[Note], ...]

    @property
    def count(self) -> int:
        return len(self.pages) + len(self.behind)

    @property
    def stems(self) -> set[str]:
        return {template.stem for page in self.pages for template, _ in page.parts}


def write_template_set(
    templates: Sequence[Template],
    paper: Paper,
    folder: Path,
    *,
    job_name: str,
    print_scale: float = 1.0,
) -> list[tuple[str, int]]:
    """Write every template into the folder; returns the files' stems and their pages.

    Small ones that so take fewer pages share them, in a file of small parts. Raises: SpecError
    for a print scale outside 0.9 to 1.1; OSError where a file cannot be written.
    """
    shared = _shared(templates, paper, print_scale)
    made = []
    for one in templates:
        if shared is None or one.stem not in shared.stems:
            path = folder / f"{one.stem}.pdf"
            count = draw_template(one, paper, path, job_name=job_name, print_scale=print_scale)
            made.append((one.stem, count))
    if shared:
        _draw_shared(shared, paper, folder / f"{SMALL_PARTS}.pdf", job_name, print_scale)
        made.append((SMALL_PARTS, shared.count))
    return made


def _shared(templates: Sequence[Template], paper: Paper, print_scale: float) -> _Shared | None:
    """The way to share that saves most pages, upright where that does as well; None: no way.

    What would stand alone on a page is left out: it gets a file of its own.
    """
    best, most = None, 0
    for orientation in ORIENTATIONS:
        page = paper.page(orientation, print_scale)
        width, height = (side - 2 * RIM_MM for side in page.window_size_mm)
        laid = pages_of_boxes([_size(one) for one in templates], width, height)
        pages = []
        waiting: list[Note] = [scale_note(paper, print_scale)]
        for spots in laid:
            if len(spots) > 1:
                left, bottom, _, _ = page.window
                parts = tuple(
                    (
                        templates[spot.number],
                        (left + RIM_MM + spot.at[0], bottom + RIM_MM + spot.at[1]),
                    )
                    for spot in spots
                )
                told = [note for template, _ in parts for note in template.notes]
                notes, waiting = _note_places(page, parts, [*told, *waiting])
                pages.append(_SharedPage(parts, notes))
        shared = _Shared(page, tuple(pages), tuple(pages_of_notes(page, waiting)))
        saved = len(shared.stems) - shared.count
        if pages and saved > most:
            best, most = shared, saved
    return best


def _note_places(
    page: Page, parts: Sequence[tuple[Template, Point]], notes: Sequence[Note]
) -> tuple[tuple[_NotePlace, ...], list[Note]]:
    """Notes in what the parts leave free of a page, and those without room."""
    left, bottom, right, top = page.window
    area = (left + RIM_MM, bottom + RIM_MM, right - RIM_MM, top - RIM_MM)
    taken: list[Box] = []
    for template, (x, y) in parts:
        width, height = _size(template)
        taken.append((x, y - height, x + width, y))
    places, waiting = [], []
    for note in notes:
        wide, tall = note.width_mm, note.height_mm
        upright = next(clear_boxes(area, wide, tall, taken), None)
        box = upright or next(clear_boxes(area, tall, wide, taken), None)
        if box is None:
            waiting.append(note)
        else:
            taken.append(box)
            places.append(_NotePlace(note, box, upright is None))
    return tuple(places), waiting


def _flat(blank: Blank) -> Blank:
    """On its long side: a low row takes more of them."""
    left, bottom, right, top = blank.bounds
    return turned_blank(blank, 90.0) if top - bottom > right - left else blank


def _size(template: Template) -> tuple[float, float]:
    """Width and height of drawing and heading together."""
    left, bottom, right, top = _flat(template.blank).bounds
    heading = text_mm(template.heading, HEADING_MM, BOLD)
    return max(heading, right - left + 2 * RIM_MM), ABOVE_MM + top - bottom + RIM_MM


def _draw_shared(
    shared: _Shared, paper: Paper, path: Path, job_name: str, print_scale: float
) -> None:
    canvas = open_canvas(path, shared.page, f"{SMALL_PARTS} - {job_name}", print_scale)
    for number, page in enumerate(shared.pages, start=1):
        start_page(canvas, print_scale)
        title = Title("small parts", f"page {number} of {len(shared.pages)}", job_name)
        draw_strips(canvas, shared.page, paper, title, print_scale)
        names = [template.blank.name for template, _ in page.parts]
        draw_page_list(canvas, shared.page, names)
        for template, at in page.parts:
            _draw_part(canvas, template, at)
        for place in page.notes:
            x, y, _, top = place.box
            at = (x, y if place.turned else top)
            draw_note(canvas, place.note, *at, turned=place.turned)
        canvas.showPage()
    for notes in shared.behind:
        draw_notes_page(canvas, shared.page, paper, notes, "small parts", job_name, print_scale)
    canvas.save()


def _draw_part(canvas: Any, template: Template, at: Point) -> None:
    """Heading and drawing, their upper left corner at a point."""
    (x, y), blank = at, _flat(template.blank)
    draw_text(canvas, (x, y - HEADING_MM - 1), template.heading, HEADING_MM, font=BOLD)
    canvas.saveState()
    canvas.translate(x + RIM_MM - blank.bounds[0], y - ABOVE_MM - blank.bounds[3])
    draw_blank(canvas, blank, template.least_hole_mm, template.tools)
    canvas.restoreState()
