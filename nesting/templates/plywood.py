"""Template of a plywood gauge: its curve, how to prove the paper, how to cut it. mm."""

from __future__ import annotations

from platewheel.nesting.templates.note import Note, NoteLine
from platewheel.nesting.templates.pdf import Template
from platewheel.nesting.templates.printed_length import length_line, printed_length
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank


def plywood_template(gauge: Blank, title: str, use: str, units: Units) -> Template:
    """One gauge of plywood, `sizes` of its curve as radius, chord and rise, with
    those to measure on the paper."""
    left, low, right, top = gauge.bounds
    rows = (
        ("radius of the curve", gauge.sizes["radius_mm"]),
        ("its ends, straight across", gauge.sizes["chord_mm"]),
        ("its rise over that line", gauge.sizes["rise_mm"]),
        ("board, long", max(right - left, top - low)),
        ("board, wide", min(right - left, top - low)),
        ("board, thick at least", gauge.thickness_mm),
    )
    table = tuple(NoteLine(words, *printed_length(mm, units)) for words, mm in rows)
    ways = (
        NoteLine("Glue the paper on plywood, saw outside of the line, plane and sand to it."),
        NoteLine(f"Then measure the ends: {length_line(gauge.sizes['chord_mm'], units)}."),
        NoteLine(use),
    )
    notes = (Note(f"{gauge.name}: its sizes", table), Note(f"{gauge.name}: how to use it", ways))
    return Template(gauge.name, gauge, f"{gauge.name}, {title}", notes)
