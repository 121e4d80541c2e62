"""Cutting files: DXF R2000 or R12 in mm or inches, true arcs, one layer for each kind of line.

A sheet stands in the order in which it is made: its edge, all marks, the cuts part by part, the
cuts through the grid; words to read come last. Each cut is one closed polyline (arcs as bulges),
between its lead-in and its lead-out; an outline with tabs is one open polyline for each stretch
between them. A part's holes come before its outline; outlines run clockwise, holes
counter-clockwise. CIRCLE stands in a blank's own file alone; LINE, ARC and POINT on lead, mark
and skeleton layers, TEXT on its own. Words marked on the steel are open polylines. By hand a sheet
has the straight cuts too, LINEs on a layer of their own, each with its number.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from platewheel.nesting.cutting.part_cuts import Cut, sheet_cuts
from platewheel.nesting.cutting.part_marks import sheet_marks
from platewheel.nesting.cutting.part_text import least_marked_mm
from platewheel.nesting.cutting.parting_cuts import PartingCuts, parting_cuts
from platewheel.nesting.cutting.skeleton_cuts import skeleton_cuts
from platewheel.nesting.files.dxf_entities import (
    Version,
    add_cut,
    add_mark,
    add_path,
    add_segments,
    add_strokes,
    add_text,
    new_drawing,
    save,
)
from platewheel.nesting.files.file_layers import FileLayer, names_of, rename_layers
from platewheel.nesting.files.file_units import UNIT_WORDS, FileUnits
from platewheel.nesting.files.straight_cuts import add_straight_cuts, hand_notes
from platewheel.nesting.geometry.stroke_words import word_strokes
from platewheel.nesting.offcuts.names_on_plate import names_on_plate
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import bounds, polygon, reversed_loop

NOTE_MM = 5.0  # letters below a blank
LETTER = 0.65  # their width, of their height


def write_blank_dxf(
    blank: Blank,
    path: Path,
    version: Version = "R2000",
    units: FileUnits = "mm",
    layers: Sequence[FileLayer] = (),
) -> None:
    """One blank, full size, on its own origin; the lines are the part itself, no kerf."""
    drawing = new_drawing(version)
    space = drawing.modelspace()
    for hole in blank.holes:
        add_path(space, hole, "cut-hole")
    add_path(space, reversed_loop(blank.outline), "cut-outline")
    for mark in blank.marks:
        add_mark(space, mark)
    x0, y0, x1, y1 = blank.bounds
    notes = [f"{blank.name}, {blank.thickness_mm:g} mm", "lines are the finished part, no kerf"]
    notes += _unit_words(version, units)
    size = min(NOTE_MM, (x1 - x0) / (LETTER * max(map(len, notes))))  # no wider than the part
    for k, note in enumerate(notes):
        add_text(space, note, (x0, y0 - 10 - 1.6 * k * size), size)
    rename_layers(drawing, names_of(layers))
    save(drawing, path, units, (x0, y0, x1, y1))


def write_sheet_dxf(
    layout: Layout,
    cutting: Cutting,
    path: Path,
    kept: Sequence[Remnant] = (),
    names: Sequence[tuple[str, ...]] = (),
    layers: Sequence[FileLayer] = (),
) -> tuple[str, ...]:
    """One layout as a cutting file; returns what could not be had as wanted, in words.

    Pieces that are `kept` are parted from plate and grid after all parts, and bear their `names`
    where these are told (`offcut_names`); `layers` say what layers are called.
    Raises: NestingError where the kerf does not go into a hole or a hollow, or a piece to keep
    would not come free.
    """
    drawing = new_drawing(cutting.dxf_version)
    space = drawing.modelspace()
    for ring in (layout.sheet.corners, *layout.sheet.holes):
        add_path(space, polygon(ring), "sheet-edge")
    done = sheet_cuts(layout, cutting)
    if cutting.process == "hand":  # nothing marks by machine: names are words to read
        cutting = unchecked(cutting, {"mark_names": False})
    marked = sheet_marks(done.parts, cutting)
    for part in marked.parts:
        for mark in part.marks:
            add_mark(space, mark)
        add_strokes(space, part.strokes, "mark")
    for name in names_on_plate(layout, kept, names, marked=True) if names else ():
        if cutting.mark_names and name.height_mm >= least_marked_mm(cutting):
            strokes = word_strokes(name.word, name.at, name.height_mm, name.turn_deg)
            add_strokes(space, strokes, "mark")
    by_hand = cutting.process == "hand"
    parted = PartingCuts(()) if by_hand else parting_cuts(layout, cutting, tuple(kept))
    _add_cuts(space, [*(cut for part in done.parts for cut in part.cuts), *parted.cuts])
    if by_hand:
        add_straight_cuts(drawing, layout, cutting)
    add_segments(space, skeleton_cuts(layout, cutting, tuple(kept)), "skeleton")
    for words in (words for part in marked.parts for words in part.words):
        add_mark(space, words)
    for name in names_on_plate(layout, kept, names, marked=False) if names else ():
        add_text(space, name.word, name.at, name.height_mm, name.turn_deg, centred=True)
    for i, line in enumerate(_notes(layout, cutting)):
        add_text(space, line, (0.0, -30.0 - 25.0 * i), 16.0)
    rename_layers(drawing, names_of(layers))
    save(drawing, path, cutting.file_units, bounds(polygon(layout.sheet.corners)))
    return (*done.warnings, *marked.warnings, *parted.warnings)


def _add_cuts(space: Any, cuts: Sequence[Cut]) -> None:
    """One by one, each between its leads."""
    for cut in cuts:
        if cut.lead_in is not None:
            add_segments(space, (cut.lead_in,), "lead")
        add_cut(space, cut.path, cut.layer, closed=cut.closed)
        if cut.lead_out is not None:
            add_segments(space, (cut.lead_out,), "lead")


def _notes(layout: Layout, cutting: Cutting) -> tuple[str, ...]:
    sheet = layout.sheet
    size = f"{sheet.thickness_mm:g} mm, {sheet.width_mm:g} x {sheet.length_mm:g} mm"
    kerf = (
        f"the lines are the torch path: {cutting.kerf_mm:g} mm kerf is in them, switch offset off"
        if cutting.kerf_in_path
        else "the lines are the finished parts: the controller offsets "
        f"by half its kerf ({cutting.kerf_mm:g} mm reckoned)"
    )
    if cutting.process == "hand":
        kerf = hand_notes(cutting)
    lines = [f"{sheet.name}: {size}, {sheet.steel}; cut {layout.repeat} off", kerf]
    if cutting.tab_count:
        lines.append(
            f"{so_many(cutting.tab_count, 'tab')} to a part: the lines are open there by "
            f"{cutting.tab_width_mm:g} mm of steel and the kerf of {cutting.kerf_mm:g} mm"
        )
    return (*lines, *_unit_words(cutting.dxf_version, cutting.file_units))


def _unit_words(version: Version, units: FileUnits) -> list[str]:
    """The unit, where the version has no other place for it or it is not the usual one."""
    return [UNIT_WORDS[units]] if version == "R12" or units == "in" else []
