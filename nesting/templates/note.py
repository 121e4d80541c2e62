"""Notes printed on a template: the table to strike it by, straight cuts, holes, the scale. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.by_hand.hole_ways import (
    LEAST_LEFT_MM,
    Chain,
    HoleTools,
    arc_ways,
    hole_ways,
)
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.small_holes import least_hole
from platewheel.nesting.templates.drill import (
    MOST_TWIST_DRILL_MM,
    drill_size,
    least_source,
    round_holes,
)
from platewheel.nesting.templates.ink import BOLD, CAPITALS, FINE, FONT, draw_text
from platewheel.nesting.templates.paper import Paper
from platewheel.nesting.templates.printed_length import length_line, printed_length
from platewheel.nesting.templates.straight_cuts import PROUD_MM, cuts_of_arc, cuts_of_disc
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.marking_out import Row, chord_table, marking_out, sector_of
from platewheel.parts.geometry.outline import Circle

CAPITAL_MM, SMALL_MM, PITCH_MM = 1.9, 1.4, 3.5
GAP_MM = 6.0  # between the longest name and its value


@dataclass(frozen=True)
class NoteLine:
    """What is printed: words alone, or a name at the left and a value, with a small addition."""

    words: str
    value: str = ""
    small: str = ""


@dataclass(frozen=True)
class Note:
    """A block of lines under a heading."""

    heading: str
    lines: tuple[NoteLine, ...]

    @property
    def height_mm(self) -> float:
        """Height of the block, frame and all."""
        return (len(self.lines) + 1) * PITCH_MM + 2.5

    @property
    def width_mm(self) -> float:
        """Width of the block, frame and all."""
        wide = [text_mm(self.heading, CAPITAL_MM, BOLD)]
        for line in self.lines:
            if line.value:
                value = text_mm(line.value, CAPITAL_MM, BOLD) + text_mm(line.small, SMALL_MM)
                wide.append(self.values_at_mm + value + (1.5 if line.small else 0.0))
            else:
                wide.append(text_mm(line.words, CAPITAL_MM))
        return max(wide) + 4

    @property
    def values_at_mm(self) -> float:
        """Where the values begin, from where the names begin."""
        names = (text_mm(line.words, CAPITAL_MM) for line in self.lines if line.value)
        return max(names, default=0.0) + GAP_MM


def text_mm(words: str, capital_mm: float, font: str = FONT) -> float:
    """Width of words in letters whose capitals are so high."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return float(stringWidth(words, font, capital_mm / CAPITALS))


def part_notes(
    blank: Blank, units: Units, cutting: Cutting | None, tools: HoleTools | None = None
) -> tuple[Note, ...]:
    """Every note of a blank; what hangs on the process only where `cutting` tells it, by hand with
    the shop's `tools`."""
    found = [*table_notes(blank, units), _cuts_note(blank, units)]
    if tools is not None:
        found += [_made_note(blank, tools, units), _arcs_note(blank, units)]
    elif cutting is not None:
        found.append(_holes_note(blank, cutting, units))
    return tuple(note for note in found if note)


def table_notes(blank: Blank, units: Units) -> tuple[Note, ...]:
    """The dimensions, to strike the part with compasses, rule and tape; arcs that no compass
    reaches also by their heights over a chord."""
    found = [Note(f"{blank.name}: struck by hand", _row_lines(marking_out(blank), units))]
    heights = chord_table(blank)
    if heights:
        heading = f"{blank.name}: arcs by height over the chord"
        found.append(Note(heading, _row_lines(heights, units)))
    return tuple(found)


def _row_lines(rows: Sequence[Row], units: Units) -> tuple[NoteLine, ...]:
    return tuple(_row_line(row, units) for row in rows)


def _row_line(row: Row, units: Units) -> NoteLine:
    if row.unit == "mm":
        return NoteLine(row.what, *printed_length(row.value, units))
    return NoteLine(row.what, f"{row.value:.2f} {row.unit}".strip())


def _cuts_note(blank: Blank, units: Units) -> Note | None:
    """Straight cuts about the outside of a disc or a ring's segment."""
    proud = length_line(PROUD_MM, units)
    heading = f"{blank.name}: straight cuts by angle grinder, to {proud} of the line"
    if isinstance(blank.outline, Circle):
        cuts = cuts_of_disc(blank.outline.radius_mm)
        lines = [NoteLine("across two opposite cuts", *printed_length(cuts.across_mm, units))]
        first = NoteLine("cuts, each touching the line at its middle", str(cuts.count))
    else:
        sector = sector_of(blank.outline)
        if sector is None or sector.sweep_deg > 350:
            return None
        cuts, lines = cuts_of_arc(sector.outer_mm, sector.sweep_deg), []
        first = NoteLine("cuts along the outer arc, touching it", str(cuts.count))
        end_mm = 2 * cuts.radius_mm * math.sin(cuts.half_turn / 2)
        lines = [NoteLine("from the end to the first touch", *printed_length(end_mm, units))]
    step = "compass step, set until it closes" if cuts.sweep_deg == 360 else "touch to touch"
    lines = [
        first,
        *lines,
        NoteLine(step, *printed_length(cuts.step_mm, units)),
        NoteLine("length of a cut, corner to corner", *printed_length(cuts.length_mm, units)),
        NoteLine("corners then stand proud", *printed_length(cuts.proud_mm, units)),
    ]
    return Note(heading, tuple(lines))


def _holes_note(blank: Blank, cutting: Cutting, units: Units) -> Note | None:
    """Each size of hole: cut, or too small and drilled; the rule with its source."""
    holes = round_holes(blank, cutting)
    if not holes:
        return None
    lines = []
    for hole in holes:
        name = f"{hole.count} x {length_line(hole.diameter_mm, units)}"
        how = drill_size(hole.diameter_mm, units)
        told = f"too small to cut: {how}" if hole.drilled else "cut"
        if not hole.drilled and hole.diameter_mm <= MOST_TWIST_DRILL_MM:
            told += f", or {how}"
        lines.append(NoteLine(name, told))
    least = length_line(least_hole(cutting, blank.thickness_mm), units)
    lines.append(NoteLine(f"least hole cut by {cutting.process} in this plate: {least}"))
    lines.append(NoteLine(f"({least_source(cutting)})"))
    return Note(f"{blank.name}: holes", tuple(lines))


def _made_note(blank: Blank, tools: HoleTools, units: Units) -> Note | None:
    """Each size of hole by its way."""
    lines: list[NoteLine] = []
    for way in hole_ways(blank, tools):
        name = f"{way.count} x {length_line(way.diameter_mm, units)}"
        if way.chain:
            lines += [NoteLine(name, "chain drilled"), *_chain_lines(way.chain, units)]
            continue
        tool = length_line(way.tool_mm, units)
        lines.append(NoteLine(name, f"{way.how} {tool}, pilot first"))
        if way.left_mm > LEAST_LEFT_MM:
            lines.append(NoteLine("    to grind all round", *printed_length(way.left_mm, units)))
    return Note(f"{blank.name}: holes by hand", tuple(lines)) if lines else None


def _arcs_note(blank: Blank, units: Units) -> Note | None:
    """Chains along hollow arcs."""
    lines: list[NoteLine] = []
    for way in arc_ways(blank):
        told = length_line(way.arc.radius_mm, units)
        lines += [NoteLine(f"arc of radius {told}", "chain drilled")]
        lines += _chain_lines(way.chain, units, closed=False)
    return Note(f"{blank.name}: inner arcs by hand", tuple(lines)) if lines else None


def _chain_lines(chain: Chain, units: Units, *, closed: bool = True) -> list[NoteLine]:
    where = "circle through their centres" if closed else "radius through their centres"
    centres = chain.circle_mm if closed else chain.radius_mm
    return [
        NoteLine(
            f"    {so_many(chain.count, 'hole')}, drill", *printed_length(chain.drill_mm, units)
        ),
        NoteLine(f"    {where}", *printed_length(centres, units)),
        NoteLine("    dividers, centre to centre", *printed_length(chain.pitch_mm, units)),
        NoteLine("    then to grind, at most", *printed_length(chain.most_land_mm, units)),
    ]


def scale_note(paper: Paper, print_scale: float) -> Note:
    """How the scale is checked, and what to do when it is off."""
    bar = "4 in" if paper.units == "inch" else "100 mm"
    near, apart = ("1/128 in", "1/64 in") if paper.units == "inch" else ("0.2 mm", "0.3 mm")
    shown = "3 59/64 in: 3.922 / 4 = 0.980" if paper.units == "inch" else "98 mm: 98 / 100 = 0.98"
    lines = [
        f"Measure both bars of a page with a steel rule. Each must be {bar}.",
        f"Within {near}: good.",
        "Off, both alike: print again from  platewheel templates JOB --print-scale FACTOR",
        f"FACTOR = measured bar / true bar ({shown}).",
        f"The two differ by more than {apart}: another printer, or strike it by the table.",
    ]
    if print_scale != 1:
        lines += [
            f"These pages are made for a printer that prints {print_scale:g} of the true length.",
            f"Bars still off: new FACTOR = {print_scale:g} x measured bar / true bar.",
        ]
    return Note("Is the scale right?", tuple(NoteLine(line) for line in lines))


def draw_note(canvas: Any, note: Note, x: float, y: float, *, turned: bool = False) -> None:
    """The block with its upper left corner at a point; a quarter turned, to be read from the
    right, that corner lies at the lower left."""
    canvas.saveState()
    canvas.translate(x, y)
    canvas.rotate(90 if turned else 0)
    FINE.use(canvas)
    canvas.rect(0, -note.height_mm, note.width_mm, note.height_mm)
    line_y = -PITCH_MM
    draw_text(canvas, (2, line_y), note.heading, CAPITAL_MM, font=BOLD)
    at = 2 + note.values_at_mm
    for line in note.lines:
        line_y -= PITCH_MM
        draw_text(canvas, (2, line_y), line.words, CAPITAL_MM)
        draw_text(canvas, (at, line_y), line.value, CAPITAL_MM, font=BOLD)
        wide = text_mm(line.value, CAPITAL_MM, BOLD)
        draw_text(canvas, (at + wide + 1.5, line_y), line.small, SMALL_MM)
    canvas.restoreState()
