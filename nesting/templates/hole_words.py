"""How a hole is made by hand, in words: hole saw with pilot and speed, drill, chain of holes."""

from __future__ import annotations

from platewheel.nesting.by_hand.cut_outs import CutOut
from platewheel.nesting.by_hand.hole_ways import (
    LAND_MM,
    LEAST_LEFT_MM,
    PILOT_MM,
    SAW_RPM_MM,
    ArcWay,
    Chain,
    HoleTools,
    HoleWay,
)
from platewheel.nesting.templates.printed_length import length_line
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.outline import Arc


def way_words(way: HoleWay, units: Units) -> str:
    """Tool and figures of one size of hole."""
    if way.chain:
        return chain_words(way.chain, units, closed=True)
    tool = length_line(way.tool_mm, units)
    left = ""
    if way.left_mm > LEAST_LEFT_MM:
        left = f", then grind {length_line(way.left_mm, units)} off all round"
    if way.how == "hole saw":
        speed = round(SAW_RPM_MM / way.tool_mm, -1)
        pilot = length_line(PILOT_MM, units)
        return f"hole saw {tool}, pilot {pilot}, about {speed:.0f} rpm or less, oil{left}"
    return f"drill {tool}, pilot first{left}"


def chain_words(chain: Chain, units: Units, *, closed: bool) -> str:
    """The figures of a chain, round a hole or along an arc from end to end."""
    drill = length_line(chain.drill_mm, units)
    if closed:
        where = f"on a circle of {length_line(chain.circle_mm, units)}"
    else:
        where = f"on the radius {length_line(chain.radius_mm, units)}, one on each end"
    return (
        f"chain of {so_many(chain.count, 'hole')}, drill {drill}, {where}, dividers "
        f"{length_line(chain.pitch_mm, units)}; break out, grind up to "
        f"{length_line(chain.most_land_mm, units)} off to the line"
    )


def cut_out_words(one: CutOut, units: Units) -> str:
    """The chain inside a cut-out that is not round."""
    drill = length_line(one.drill_mm, units)
    if not one.drilled_centres:
        return f"too narrow for a chain: drill {drill} at its ends, saw and file between"
    inside = length_line(one.drill_mm / 2 + LAND_MM, units)
    pitch = length_line(one.pitch_mm, units)
    return (
        f"chain of {so_many(len(one.drilled_centres), 'hole')}, drill {drill}, centres {inside} "
        f"inside the line, {pitch} apart; break out, saw the corners, file to the line"
    )


def hollow_words(arc: Arc, tools: HoleTools, units: Units) -> str:
    """A hollow too small for a chain."""
    size = 2 * arc.radius_mm
    if size <= tools.most_drill_mm:
        return f"drill {length_line(size, units)} at its centre before the edges are cut"
    return "saw beside it, file to the line"


def arc_words(way: ArcWay, units: Units) -> str:
    """The chain along an inner arc."""
    return chain_words(way.chain, units, closed=False)
