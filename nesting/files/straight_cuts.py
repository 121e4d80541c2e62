"""Straight cuts by hand in a sheet's file: lines on a layer of their own, numbered."""

from __future__ import annotations

from typing import Any

from platewheel.nesting.by_hand.straight_cuts import in_steel, parted
from platewheel.nesting.files.dxf_entities import add_text
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout

LAYER, COLOUR = "straight-cut", 1
LETTER_MM = 9.0


def add_straight_cuts(drawing: Any, layout: Layout, cutting: Cutting) -> None:
    """The middle of each kerf where there is steel, and the cut's number beside it."""
    space = drawing.modelspace()
    drawing.layers.add(LAYER, color=COLOUR)
    for cut in parted(layout, cutting).cuts:
        for line in in_steel(cut, layout.sheet):
            space.add_line(line.start, line.end, dxfattribs={"layer": LAYER})
        x, y = cut.line.start
        at, turn = ((x - 3.0, y + 12.0), 90.0) if cut.axis == 0 else ((x + 12.0, y + 3.0), 0.0)
        add_text(space, f"cut {cut.number}", at, LETTER_MM, turn)


def hand_notes(cutting: Cutting) -> str:
    """What the lines are."""
    return (
        "the lines are the finished parts: cut outside them and grind to them; straight cuts "
        f"first, by number, kerf {cutting.kerf_mm:g} mm"
    )
