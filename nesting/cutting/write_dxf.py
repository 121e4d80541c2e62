"""Cutting files: DXF R2000 or R12 in millimetres, true arcs, one layer for each kind of line.

Each cut is one closed polyline (arcs as bulges) or one CIRCLE; an outline with tabs is one open
polyline for each stretch between them. LINE, ARC, POINT and TEXT stand only on lead, mark, text
and skeleton layers. In a sheet a part's holes come before its outline, each cut between its
lead-in and its lead-out; outlines run clockwise, holes counter-clockwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from platewheel.nesting.cutting.dxf_entities import (
    Version,
    add_mark,
    add_path,
    add_segments,
    add_text,
    new_drawing,
    save,
)
from platewheel.nesting.cutting.part_cuts import PartCuts, sheet_cuts
from platewheel.nesting.cutting.part_text import text_place
from platewheel.nesting.offcuts.skeleton import skeleton_lines
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Point,
    contains,
    moved,
    moved_point,
    polygon,
    reversed_loop,
)

NOTE_MM = 5.0  # letters below a blank
LETTER = 0.65  # their width, of their height


def write_blank_dxf(blank: Blank, path: Path, version: Version = "R2000") -> None:
    """One blank, full size, on its own origin; the lines are the part itself, no kerf."""
    drawing = new_drawing(version)
    space = drawing.modelspace()
    for hole in blank.holes:
        add_path(space, hole, "cut-hole")
    add_path(space, reversed_loop(blank.outline), "cut-outline")
    for mark in blank.marks:
        add_mark(space, mark)
    x0, y0, x1, _ = blank.bounds
    notes = [f"{blank.name}, {blank.thickness_mm:g} mm", "lines are the finished part, no kerf"]
    if version == "R12":
        notes.append("all sizes in mm")
    size = min(NOTE_MM, (x1 - x0) / (LETTER * max(map(len, notes))))  # no wider than the part
    for k, note in enumerate(notes):
        add_text(space, note, (x0, y0 - 10 - 1.6 * k * size), size)
    save(drawing, path)


def write_sheet_dxf(
    layout: Layout, cutting: Cutting, path: Path, keep: Sequence[Sequence[Point]] = ()
) -> tuple[str, ...]:
    """One layout as a cutting file; returns what could not be had as wanted, in words.

    `keep` has the outlines of pieces to keep, which the cuts through the grid go round.
    Raises: NestingError where the kerf does not go into a hole or a hollow.
    """
    drawing = new_drawing(cutting.dxf_version)
    space = drawing.modelspace()
    for ring in (layout.sheet.corners, *layout.sheet.holes):
        add_path(space, polygon(ring), "sheet-edge")
    done = sheet_cuts(layout, cutting)
    for part in done.parts:
        for cut in part.cuts:
            if cut.lead_in is not None:
                add_segments(space, (cut.lead_in,), "lead")
            add_path(space, cut.path, cut.layer, closed=cut.closed)
            if cut.lead_out is not None:
                add_segments(space, (cut.lead_out,), "lead")
        for mark in _marks(part, cutting):
            add_mark(space, mark)
    for i, line in enumerate(_notes(layout, cutting)):
        add_text(space, line, (0.0, -30.0 - 25.0 * i), 16.0)
    add_segments(space, skeleton_lines(layout, cutting, keep), "skeleton")
    save(drawing, path)
    return done.warnings


def _marks(part: PartCuts, cutting: Cutting) -> Iterator[Mark]:
    """The blank's marks where they lie on the plate, and its name with the part's number."""
    placement = part.placement
    blank = placement.blank
    label = f"{blank.name} {part.number}"
    place = text_place(blank, len(blank.name) + 4) if cutting.text_marks else None
    for mark in blank.marks:
        if isinstance(mark, MarkPoint) and not contains(blank.outline, mark.at):
            continue  # a centre beside the part would be punched into a neighbour
        if isinstance(mark, MarkText):
            replaced = place is not None and mark.text == blank.name
            if replaced or not cutting.text_marks:
                continue
        yield _placed(mark, placement)
    if place is not None:
        yield _placed(replace(place, text=label), placement)


def _placed(mark: Mark, placement: Placement) -> Mark:
    """A mark turned and moved with its part."""
    turn = placement.rotation_deg

    def at(point: Point) -> Point:
        return moved_point(point, placement.x_mm, placement.y_mm, turn)

    if isinstance(mark, MarkPoint):
        return MarkPoint(at(mark.at))
    if isinstance(mark, MarkText):
        return replace(mark, at=at(mark.at), turn_deg=mark.turn_deg + turn)
    (segment,) = moved((mark,), placement.x_mm, placement.y_mm, turn)  # type: ignore[misc]
    assert isinstance(segment, Line | Arc)
    return segment


def _notes(layout: Layout, cutting: Cutting) -> tuple[str, ...]:
    sheet = layout.sheet
    size = f"{sheet.thickness_mm:g} mm, {sheet.width_mm:g} x {sheet.length_mm:g} mm"
    kerf = (
        f"the lines are the torch path: {cutting.kerf_mm:g} mm kerf is in them, switch offset off"
        if cutting.kerf_in_path
        else "the lines are the finished parts: the controller offsets "
        f"by half its kerf ({cutting.kerf_mm:g} mm reckoned)"
    )
    if cutting.process == "hand" and not cutting.kerf_in_path:
        kerf = f"the lines are the finished parts: cut outside them, kerf {cutting.kerf_mm:g} mm"
    lines = [f"{sheet.name}: {size}, {sheet.steel}; cut {layout.repeat} off", kerf]
    if cutting.tab_count:
        lines.append(
            f"{cutting.tab_count} tabs to a part: the lines are open there by "
            f"{cutting.tab_width_mm:g} mm of steel and the kerf of {cutting.kerf_mm:g} mm"
        )
    if cutting.dxf_version == "R12":
        lines.append("all sizes in mm")
    return tuple(lines)
