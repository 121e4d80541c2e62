"""Cutting files: DXF R2000 in millimetres, true arcs, one layer for each kind of line.

Each cut is one closed LWPOLYLINE (arcs as bulges) or one CIRCLE; LINE, ARC, POINT and TEXT
stand only on mark, lead and text layers. In a sheet, a part's holes come before its outline.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from nesting.cut_order import cut_order
from nesting.kerf import torch_path
from nesting.layout import Layout, Placement
from nesting.lead import Start, hole_start, outline_start
from nesting.stock import Cutting
from parts.blank import Blank, Mark, MarkPoint, MarkText
from parts.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    contains,
    moved_point,
    polygon,
    reversed_loop,
)

LAYERS = {  # name -> colour index of the file format
    "cut-outline": 7,
    "cut-hole": 6,
    "lead": 4,
    "mark": 3,
    "text": 8,
    "sheet-edge": 9,
}
MILLIMETRES = 4  # $INSUNITS


@dataclass(frozen=True)
class _Spot:
    """Where a blank's own coordinates lie in the drawing."""

    x_mm: float = 0.0
    y_mm: float = 0.0
    rotation_deg: float = 0.0

    def at(self, point: Point) -> Point:
        return moved_point(point, self.x_mm, self.y_mm, self.rotation_deg)


def write_blank_dxf(blank: Blank, path: Path) -> None:
    """One blank, full size, on its own origin; the lines are the part itself, no kerf."""
    drawing = _new_drawing()
    space = drawing.modelspace()
    for hole in blank.holes:
        _add_cut(space, hole, "cut-hole")
    _add_cut(space, reversed_loop(blank.outline), "cut-outline")
    for mark in blank.marks:
        _add_mark(space, mark, _Spot())
    x0, y0, _, _ = blank.bounds
    note = f"{blank.name}, {blank.thickness_mm:g} mm; lines are the finished part, no kerf"
    _add_text(space, note, (x0, y0 - 15), 5.0)
    _save(drawing, path)


def write_sheet_dxf(layout: Layout, cutting: Cutting, path: Path) -> tuple[Placement, ...]:
    """One layout as a cutting file; returns the placements that found no room for a lead-in.

    Raises: NestingError where the kerf does not go into a hole.
    """
    drawing = _new_drawing()
    space = drawing.modelspace()
    for ring in (layout.sheet.corners, *layout.sheet.holes):
        _add_cut(space, polygon(ring), "sheet-edge")
    kerf = cutting.kerf_mm if cutting.kerf_in_path else 0.0
    without_lead = []
    for placement in cut_order(layout.placements):
        for hole in placement.holes:
            offset = torch_path(hole, kerf, hole=True)
            start = Start(offset, None)
            if isinstance(offset, Circle):
                start = hole_start(offset, cutting.lead_in_mm)
            _add_start(space, start, "cut-hole", reverse=False)
        offset = torch_path(placement.outline, kerf, hole=False)
        start = outline_start(placement, offset, layout, cutting.kerf_mm, cutting.lead_in_mm)
        if cutting.lead_in_mm and start.lead is None:
            without_lead.append(placement)
        _add_start(space, start, "cut-outline", reverse=True)
        spot = _Spot(placement.x_mm, placement.y_mm, placement.rotation_deg)
        for mark in placement.blank.marks:
            if _on_part(mark, placement.blank):
                _add_mark(space, mark, spot)
    for i, line in enumerate(_notes(layout, cutting)):
        _add_text(space, line, (0.0, -30.0 - 25.0 * i), 16.0)
    _save(drawing, path)
    return tuple(without_lead)


def _on_part(mark: Mark, blank: Blank) -> bool:
    """False for a centre beside the part: on a sheet it would be punched into a neighbour."""
    return not isinstance(mark, MarkPoint) or contains(blank.outline, mark.at)


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
    return (f"{sheet.name}: {size}, {sheet.steel}; cut {layout.repeat} off", kerf)


def _new_drawing() -> Any:
    import ezdxf
    from ezdxf import options

    options.write_fixed_meta_data_for_testing = True  # no dates or random ids: same job, same file
    drawing = ezdxf.new("R2000", units=MILLIMETRES)
    drawing.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    return drawing


def _save(drawing: Any, path: Path) -> None:
    drawing.saveas(path)


def _add_start(space: Any, start: Start, layer: str, *, reverse: bool) -> None:
    if start.lead is not None:
        space.add_line(start.lead.start, start.lead.end, dxfattribs={"layer": "lead"})
    _add_cut(space, reversed_loop(start.path) if reverse else start.path, layer)


def _add_cut(space: Any, loop: Loop, layer: str) -> None:
    attributes = {"layer": layer}
    if isinstance(loop, Circle):
        space.add_circle(loop.centre, loop.radius_mm, dxfattribs=attributes)
        return
    points = [(*segment.start, segment.bulge) for segment in loop]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs=attributes)


def _add_mark(space: Any, mark: Mark, spot: _Spot) -> None:
    attributes = {"layer": "mark"}
    if isinstance(mark, MarkPoint):
        space.add_point(spot.at(mark.at), dxfattribs=attributes)
    elif isinstance(mark, MarkText):
        turn = mark.turn_deg + spot.rotation_deg
        _add_text(space, mark.text, spot.at(mark.at), mark.height_mm, turn, centred=True)
    elif isinstance(mark, Line):
        space.add_line(spot.at(mark.start), spot.at(mark.end), dxfattribs=attributes)
    elif isinstance(mark, Arc):
        first, last = mark.start_deg, mark.start_deg + mark.sweep_deg
        low, high = min(first, last) + spot.rotation_deg, max(first, last) + spot.rotation_deg
        space.add_arc(spot.at(mark.centre), mark.radius_mm, low, high, dxfattribs=attributes)


def _add_text(
    space: Any, text: str, at: Point, height: float, turn: float = 0.0, *, centred: bool = False
) -> None:
    from ezdxf.enums import TextEntityAlignment

    entity = space.add_text(text, height=height, rotation=turn, dxfattribs={"layer": "text"})
    align = TextEntityAlignment.MIDDLE_CENTER if centred else TextEntityAlignment.LEFT
    entity.set_placement(at, align=align)
