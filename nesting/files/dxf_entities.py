"""Entities of a cutting file in either version of the format, all sizes in mm until it is saved.

R2000 has LWPOLYLINE, R12 the old POLYLINE with vertices; both keep arcs as bulges.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, Literal

from platewheel.nesting.files.file_units import INSUNITS, FileUnits, in_units
from platewheel.parts.base.plain_values import without_unseen
from platewheel.parts.geometry.blank import Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    reversed_loop,
    segments,
)

Version = Literal["R2000", "R12"]
LAYERS = {  # name -> colour index of the file format
    "cut-outline": 7,
    "cut-hole": 6,
    "lead": 4,
    "mark": 3,
    "text": 8,
    "sheet-edge": 9,
    "offcut": 5,
    "skeleton": 1,
}


def new_drawing(version: Version) -> Any:
    """Empty drawing with all layers; R12 has no place for the unit, its text must say it."""
    import ezdxf
    from ezdxf import options

    options.write_fixed_meta_data_for_testing = True  # no dates or random ids: same job, same file
    if version == "R12":
        drawing = ezdxf.document.Drawing.new("AC1009")  # `ezdxf.new` sets a unit and warns of it
    else:
        drawing = ezdxf.new(version, units=INSUNITS["mm"])
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    return drawing


def save(
    drawing: Any,
    path: Path,
    units: FileUnits = "mm",
    box: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0),
) -> None:
    """Write the drawing, which is in mm, in these units. Its header tells the `box` about all
    lines, mm, which a controller zooms to. Source: DXF reference, $EXTMIN and $EXTMAX."""
    unit_mm = in_units(drawing, units)
    x0, y0, x1, y1 = (side / unit_mm for side in box)
    ends = (x0, y0, 0.0), (x1, y1, 0.0)
    drawing.modelspace().reset_extents(*ends)
    drawing.header["$EXTMIN"], drawing.header["$EXTMAX"] = ends  # the library passes 0, 0 over
    drawing.saveas(path)


def add_path(space: Any, loop: Loop, layer: str, *, closed: bool = True) -> None:
    """A circle, or one polyline run as the loop runs."""
    attributes = {"layer": layer}
    if isinstance(loop, Circle):
        space.add_circle(loop.centre, loop.radius_mm, dxfattribs=attributes)
        return
    points: list[tuple[float, float, float]] = [(*s.start, s.bulge) for s in loop]
    if not closed:
        points.append((*loop[-1].end, 0.0))
    _add_polyline(space, points, attributes, closed=closed)


def add_cut(space: Any, loop: Loop, layer: str, *, closed: bool = True) -> None:
    """One polyline with a start and a direction, a circle too: two half turns from its right,
    clockwise where it is an outline."""
    ring = segments(loop)
    if isinstance(loop, Circle) and layer == "cut-outline":
        ring = segments(reversed_loop(ring))
    add_path(space, ring, layer, closed=closed)


def add_strokes(space: Any, strokes: Iterable[Sequence[Point]], layer: str) -> None:
    """Each as one open polyline of straight pieces."""
    for stroke in strokes:
        _add_polyline(space, [(*p, 0.0) for p in stroke], {"layer": layer}, closed=False)


def _add_polyline(
    space: Any,
    points: list[tuple[float, float, float]],
    attributes: dict[str, str],
    *,
    closed: bool,
) -> None:
    """Of the kind that the version has; each point with the bulge to the next."""
    if space.doc.dxfversion == "AC1009":
        space.add_polyline2d(points, format="xyb", close=closed, dxfattribs=attributes)
    else:
        space.add_lwpolyline(points, format="xyb", close=closed, dxfattribs=attributes)


def add_segments(space: Any, lines: Sequence[Segment], layer: str) -> None:
    """Each as a LINE or an ARC."""
    for segment in lines:
        if isinstance(segment, Line):
            space.add_line(segment.start, segment.end, dxfattribs={"layer": layer})
        else:
            _add_arc(space, segment, layer)


def _add_arc(space: Any, arc: Arc, layer: str) -> None:
    """An ARC always runs counter-clockwise."""
    low, high = sorted((arc.start_deg, arc.start_deg + arc.sweep_deg))
    space.add_arc(arc.centre, arc.radius_mm, low, high, dxfattribs={"layer": layer})


def add_mark(space: Any, mark: Mark) -> None:
    """A mark where it lies in the drawing."""
    if isinstance(mark, MarkPoint):
        space.add_point(mark.at, dxfattribs={"layer": "mark"})
    elif isinstance(mark, MarkText):
        add_text(space, mark.text, mark.at, mark.height_mm, mark.turn_deg, centred=True)
    else:
        add_segments(space, (mark,), "mark")


def add_text(
    space: Any, text: str, at: Point, height: float, turn: float = 0.0, *, centred: bool = False
) -> None:
    """One line of words, placed by its lower left corner or by its middle."""
    from ezdxf.enums import TextEntityAlignment

    seen = without_unseen(text)  # of a part, an offcut, a plate: whatever a script has named it
    entity = space.add_text(seen, height=height, rotation=turn, dxfattribs={"layer": "text"})
    align = TextEntityAlignment.MIDDLE_CENTER if centred else TextEntityAlignment.LEFT
    entity.set_placement(at, align=align)
