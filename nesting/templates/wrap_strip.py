"""Paper strip to wrap round a pipe: its edge marks a square cut, its ends meet at the seam. mm."""

from __future__ import annotations

import math

from platewheel.nesting.templates.note import Note, NoteLine
from platewheel.nesting.templates.pdf import Template
from platewheel.nesting.templates.printed_length import length_line, printed_length
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank, Mark, MarkText
from platewheel.parts.geometry.outline import Line, polygon

PAPER_MM = 0.1  # thickness of office paper of 80 g/m2; common practice, no source
TAB_MM = 25.0  # glued below the other end
MOST_WIDTH_MM = 100.0  # a wider strip is not easier to lay straight
END_STEP_MM = 0.5  # between end lines, of the pipe's diameter
END_LINES = 3  # on each side of the nominal one


def strip_length_mm(outside_mm: float) -> float:
    """Once round on the middle of the paper: pi x (outside diameter + paper thickness)."""
    return math.pi * (outside_mm + PAPER_MM)


def wrap_strip(name: str, outside_mm: float, cut_length_mm: float) -> Blank:
    """The strip as a drawing, its first end on x = 0, the square cut on y = 0.

    As wide as the pipe is to be cut long, so that both edges mark a cut; a longer piece has one
    edge. Beyond the nominal length lie end lines for pipes that are really 0.5 to 1.5 mm larger
    or smaller in diameter, and a tab to glue. Dashed lines at the quarters.
    """
    length = strip_length_mm(outside_mm)
    width = min(cut_length_mm, MOST_WIDTH_MM)
    far = strip_length_mm(outside_mm + END_LINES * END_STEP_MM) + TAB_MM
    edge = polygon([(0.0, 0.0), (far, 0.0), (far, width), (0.0, width)])
    height = min(3.0, width / 12)
    marks: list[Mark] = [Line((length, 0.0), (length, width))]
    for step in range(-END_LINES, END_LINES + 1):
        x = strip_length_mm(outside_mm + step * END_STEP_MM)
        tall = width / (4 if step % 2 else 3)
        if step:
            marks += [Line((x, 0.0), (x, tall)), Line((x, width - tall), (x, width))]
            size = f"{outside_mm + step * END_STEP_MM:g}"
            marks.append(MarkText((x, width / 2), size, min(1.4, height), 90.0))
    for quarter in (1, 2, 3):
        x = quarter * length / 4
        marks.append(Line((x, 0.0), (x, width)))
        marks.append(MarkText((x - 1.5 * height, width / 2), f"{90 * quarter} deg", height, 90.0))
    edges = "both edges: square cuts" if width == cut_length_mm else "this edge: square cut"
    marks += [
        MarkText((1.5 * height, width / 2), "seam", height, 90.0),
        MarkText((length / 8 + height, width * 0.2), edges, min(height, length / 100)),
        MarkText((far - TAB_MM / 2, width / 2), "glue below the other end", height * 0.8, 90.0),
    ]
    sizes = {"outside_diameter_mm": outside_mm, "length_mm": length, "width_mm": width}
    return Blank(name, "extra", PAPER_MM, edge, (), tuple(marks), sizes)


def strip_template(part: str, outside_mm: float, cut_length_mm: float, units: Units) -> Template:
    """Template of a strip for a pipe of the wheel; its notes say how to use it."""
    blank = wrap_strip(f"strip-{part}", outside_mm, cut_length_mm)
    step = length_line(math.pi * END_STEP_MM, units)
    table = [
        NoteLine("outside diameter", *printed_length(outside_mm, units)),
        NoteLine("once round the steel, by tape", *printed_length(math.pi * outside_mm, units)),
        NoteLine(
            "length of the strip, pi x (outside + paper)",
            *printed_length(blank.sizes["length_mm"], units),
        ),
        NoteLine("length to cut", *printed_length(cut_length_mm, units)),
    ]
    use = [
        "Cut the strip out and wrap it tight, edge on edge: the edge is then a square cut.",
        "Its end should meet the long dashed line beside the tab. At a short line instead,",
        f"the pipe is {END_STEP_MM:g} mm a line ({step} of paper) smaller or larger in diameter.",
        "Scribe along the edge, and the seam along the end.",
    ]
    notes = (
        Note(f"{part}: strip round the pipe", tuple(table)),
        Note(f"{part}: how to use the strip", tuple(NoteLine(line) for line in use)),
    )
    return Template(blank.name, blank, f"paper strip to wrap round the {part} pipe", notes)
