"""Marking out by hand as lines of words: compass and grinder figures, holes, arcs by ordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from platewheel.nesting.by_hand.cut_outs import cut_outs, small_hollows
from platewheel.nesting.by_hand.hole_ways import HoleTools, arc_ways, hole_ways
from platewheel.nesting.templates.hole_words import (
    arc_words,
    cut_out_words,
    hollow_words,
    way_words,
)
from platewheel.nesting.templates.printed_length import length_line
from platewheel.nesting.templates.straight_cuts import cuts_of_arc, cuts_of_disc
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.marking_out import Row, marking_out, sector_of
from platewheel.parts.geometry.ordinates import ordinates
from platewheel.parts.geometry.outline import Circle

Lines = Sequence[Sequence[str]]
OrdinateTable = tuple[str, tuple[str, ...], Lines]


def compass_lines(blank: Blank, units: Units) -> Iterator[tuple[str, str]]:
    """Each figure to strike the blank by; then the straight cuts beside its round line."""
    for row in marking_out(blank):
        yield row.what, length_line(row.value, units) if row.unit == "mm" else _plain(row)
    sector = sector_of(blank.outline)
    if isinstance(blank.outline, Circle):
        cuts = cuts_of_disc(blank.outline.radius_mm)
    elif sector and sector.sweep_deg <= 350:
        cuts = cuts_of_arc(sector.outer_mm, sector.sweep_deg)
    else:
        return
    yield "grinder: straight cuts that touch the outer line", f"{cuts.count}"
    yield "one from the next, by dividers along the line", length_line(cuts.step_mm, units)
    yield "length of one, corner to corner", length_line(cuts.length_mm, units)
    yield "corners then stand proud, to be ground off", length_line(cuts.proud_mm, units)


def _plain(row: Row) -> str:
    return f"{row.value:.2f} {row.unit}".strip()


def hole_lines(blank: Blank, tools: HoleTools, units: Units) -> Iterator[tuple[str, str]]:
    """Each size of hole and each inner arc, by how it is made."""
    for way in hole_ways(blank, tools):
        yield f"{way.count} x {length_line(way.diameter_mm, units)}", way_words(way, units)
    for arc in arc_ways(blank):
        yield f"inner arc, radius {length_line(arc.arc.radius_mm, units)}", arc_words(arc, units)


def small_lines(blank: Blank, tools: HoleTools, units: Units) -> Iterator[tuple[str, str]]:
    """Cut-outs that are not round, and hollows too small for a chain."""
    for one in cut_outs(blank):
        size = f"{length_line(one.width_mm, units)} x {length_line(one.length_mm, units)}"
        yield f"cut-out, {size}", cut_out_words(one, units)
    hollows = small_hollows(blank)
    for radius in sorted({round(one.radius_mm, 6) for one in hollows}):
        own = [one for one in hollows if round(one.radius_mm, 6) == radius]
        told = length_line(radius, units)
        yield f"{len(own)} x inner arc, radius {told}", hollow_words(own[0], tools, units)


def ordinate_lines(blank: Blank, units: Units) -> Iterator[OrdinateTable]:
    """Both arcs of a sector by heights over their chords: to strike them without the centre."""
    sector = sector_of(blank.outline)
    if sector is None:
        return
    for name, radius in (("Outer", sector.outer_mm), ("Inner", sector.inner_mm)):
        found = ordinates(radius, sector.sweep_deg, units)
        many = "" if found.parts == 1 else f", each of {found.parts} equal parts"
        title = f"{name} arc without its centre{many}: chord {length_line(found.chord_mm, units)}"
        rows = [(length_line(x, units), length_line(y, units)) for x, y in found.stations]
        yield title, ("from the chord's middle, both ways", "height over the chord"), rows
