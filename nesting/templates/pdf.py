"""Full-size paper templates: one PDF for each blank, a page for each tile. mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from platewheel.nesting.by_hand.hole_ways import HoleTools
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.small_holes import least_hole
from platewheel.nesting.templates.blank import draw_blank, with_chains
from platewheel.nesting.templates.canvas import open_canvas, start_page
from platewheel.nesting.templates.free_space import free_places
from platewheel.nesting.templates.ink import draw_registration
from platewheel.nesting.templates.joints import draw_hints, draw_joints
from platewheel.nesting.templates.note import Note, draw_note, part_notes, scale_note
from platewheel.nesting.templates.page_map import draw_page_map
from platewheel.nesting.templates.paper import Page, Paper
from platewheel.nesting.templates.paper_lay import Lay, lay_on_paper
from platewheel.nesting.templates.printed_length import length_line
from platewheel.nesting.templates.strip import Title, draw_strips
from platewheel.nesting.templates.tiles import Tile, cross_arm_mm, registration_points
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.units import Units, inches
from platewheel.parts.geometry.blank import Blank, MarkText


@dataclass(frozen=True)
class Template:
    """What is drawn: a blank under a heading, with notes; `stem` names its file without the end.

    Round holes below `least_hole_mm` are drawn as holes to drill; by hand, with `tools`, each by
    its way, chains hole by hole.
    """

    stem: str
    blank: Blank
    heading: str
    notes: tuple[Note, ...]
    least_hole_mm: float = 0.0
    tools: HoleTools | None = None


def blank_template(
    blank: Blank,
    count: int,
    units: Units,
    cutting: Cutting | None = None,
    stem: str = "",
    tools: HoleTools | None = None,
) -> Template:
    """Template of a blank that the job needs `count` times; `cutting` tells which holes are too
    small to cut, by hand `tools` how each is made. Raises: SpecError for a count below 1."""
    if not count >= 1:
        raise SpecError([Fault("count", count, "a whole number from 1", "count = 1")])
    by_hand = cutting is not None and cutting.process == "hand"
    tools = (tools or HoleTools()) if by_hand else None
    plate = f"{blank.thickness_mm:g} mm"
    if units == "inch":
        plate = f"{inches(blank.thickness_mm)} ({plate})"
    return Template(
        stem or blank.name,
        _in_units(blank, units),
        f"{blank.name}, cut {count} off, {plate} plate",
        part_notes(blank, units, cutting, tools),
        least_hole(cutting, blank.thickness_mm) if cutting else 0.0,
        tools,
    )


def _in_units(blank: Blank, units: Units) -> Blank:
    """The blank with the diameter that it bears as a mark told in the paper's units."""
    diameter = blank.sizes.get("diameter_mm")
    if units == "mm" or diameter is None:
        return blank
    own, told = f"d {diameter:.1f}", f"d {length_line(diameter, units)}"
    marks = tuple(
        replace(mark, text=told, height_mm=0.6 * mark.height_mm)
        if isinstance(mark, MarkText) and mark.text == own
        else mark
        for mark in blank.marks
    )
    return replace(blank, marks=marks)


def write_template(
    blank: Blank,
    count: int,
    paper: Paper,
    path: Path,
    *,
    job_name: str,
    cutting: Cutting | None = None,
    print_scale: float = 1.0,
) -> int:
    """Draw the blank at full size on as many pages as it takes; returns the number of pages.

    Raises: as `blank_template` and `draw_template`.
    """
    template = blank_template(blank, count, paper.units, cutting)
    return draw_template(template, paper, path, job_name=job_name, print_scale=print_scale)


def draw_template(
    template: Template, paper: Paper, path: Path, *, job_name: str, print_scale: float = 1.0
) -> int:
    """Draw a template into a file; returns the number of pages. `print_scale` is what the printer
    makes of a length, measured bar / true bar.

    Notes stand in white places of the drawing, on a page of their own where there is none. The
    same input gives the same bytes. Raises: SpecError for a print scale outside 0.9 to 1.1;
    OSError where the file cannot be written.
    """
    lay = lay_on_paper(template.blank, paper, print_scale)
    told = (*template.notes, scale_note(paper, print_scale))
    inked = with_chains(lay.blank, template.tools)
    places = free_places(inked, lay.tiles, [(n.width_mm, n.height_mm) for n in told])
    canvas = open_canvas(path, lay.page, f"{template.blank.name} - {job_name}", print_scale)
    for tile in lay.tiles.tiles:
        start_page(canvas, print_scale)
        title = Title(template.heading, _place(lay, tile), job_name)
        draw_strips(canvas, lay.page, paper, title, print_scale)
        draw_page_map(canvas, lay.page, lay.tiles, tile, lay.blank)
        draw_hints(canvas, lay.page, lay.tiles, tile.cell)
        _draw_tile(canvas, lay, tile, template)
        left, bottom, _, _ = lay.page.window
        for note, place in zip(told, places, strict=True):
            if place and place.cell == tile.cell:
                x, y, _, top = place.box
                at = (left + x - tile.box[0], bottom + (y if place.turned else top) - tile.box[1])
                draw_note(canvas, note, *at, turned=place.turned)
        canvas.showPage()
    remnant = [note for note, place in zip(told, places, strict=True) if place is None]
    extra = pages_of_notes(lay.page, remnant)
    for page_notes in extra:
        draw_notes_page(
            canvas, lay.page, paper, page_notes, template.heading, job_name, print_scale
        )
    canvas.save()
    return len(lay.tiles.tiles) + len(extra)


def _place(lay: Lay, tile: Tile) -> str:
    tiles, (column, row) = lay.tiles, tile.cell
    place = (
        f"page {tiles.numbers[tile.cell]} of {len(tiles.tiles)}"
        f" - column {column} of {tiles.columns}, row {row} of {tiles.rows}"
    )
    if not tile.has_lines:
        place += " - nothing to cut here: this page holds the others in place"
    return place


def _draw_tile(canvas: Any, lay: Lay, tile: Tile, template: Template) -> None:
    """What lies in the window, in the blank's own coordinates."""
    left, bottom, right, top = lay.page.window
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(left, bottom, right - left, top - bottom)
    canvas.clipPath(window, stroke=0, fill=0)
    canvas.translate(left - tile.box[0], bottom - tile.box[1])
    draw_joints(canvas, lay.tiles, tile.cell)
    arm = cross_arm_mm(lay.tiles)
    for at in registration_points(lay.blank, lay.tiles, tile.cell):
        draw_registration(canvas, at, arm)
    draw_blank(canvas, lay.blank, template.least_hole_mm, template.tools)
    canvas.restoreState()


def pages_of_notes(page: Page, remnant: Sequence[Note]) -> list[list[Note]]:
    """Notes below one another on as few pages as hold them."""
    pages: list[list[Note]] = []
    room = 0.0
    for note in remnant:
        if note.height_mm > room:
            pages.append([])
            room = page.window_size_mm[1]
        pages[-1].append(note)
        room -= note.height_mm + 3
    return pages


def draw_notes_page(
    canvas: Any,
    page: Page,
    paper: Paper,
    page_notes: Sequence[Note],
    heading: str,
    job_name: str,
    print_scale: float,
) -> None:
    """A page of notes alone, from the top of the window down."""
    start_page(canvas, print_scale)
    title = Title(heading, "notes: nothing to cut on this page", job_name)
    draw_strips(canvas, page, paper, title, print_scale)
    left, _, _, top = page.window
    for note in page_notes:
        draw_note(canvas, note, left + 1, top - 1)
        top -= note.height_mm + 3
    canvas.showPage()
