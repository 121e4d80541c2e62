"""Rows of report.json for plates cut by hand."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class StraightCutRow(Row):
    """One straight cut, in the order to make them."""

    number: int = Field(description="in the order to make them")
    measured_from: Literal["left", "lower edge"] = Field(description="edge of the whole plate")
    line_mm: float = Field(description="from that edge to the line that is scribed")
    start_mm: float = Field(description="where it begins, along the other way")
    end_mm: float = Field(description="where it ends, the same way")
    through: bool = Field(description="from edge to edge of the plate")
    kerf: Literal["on it", "beyond it", "before it"] = Field(
        description="where the kerf lies: on the line, or beside it, seen from the edge measured "
        "from; beside it the line is a finished edge"
    )


class HandHolesRow(Row):
    """Round holes made one way with one tool."""

    how: Literal["hole saw", "drill", "chain"] = Field(description="way in which they are made")
    diameter_mm: float = Field(description="of the finished hole")
    tool_mm: float = Field(description="hole saw, drill, or drill of the chain")
    count: int = Field(description="of such holes")
    chain_holes: int = Field(description="drilled for them in all; 0 for other ways")


class HandRow(Row):
    """What cutting by hand takes."""

    straight_mm: float = Field(description="straight cuts and straight edges, by grinder or saw")
    curved_mm: float = Field(description="round edges, cut in chords beside the line and ground")
    holes: list[HandHolesRow] = Field(description="by diameter and way")
    arc_chain_holes: int = Field(
        description="drilled along hollow arcs of outlines and inside cut-outs that are not round"
    )
    discs: int = Field(description="grinder discs worn, of 125 x 1 mm; 8000 mm2 each")
    straight_cuts: list[StraightCutRow] = Field(description="of one plate; none in the sum of all")
