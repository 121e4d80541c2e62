"""The user's own hub disc: the job file's [disc] table."""

from __future__ import annotations

from pydantic import Field

from platewheel.nesting.drawings.closed_loops import JOIN_MM
from platewheel.nesting.drawings.read import Unit
from platewheel.nesting.stock.cutting import LEAST_WEB_MM
from platewheel.parts.base.spec_model import Spec


class DiscDrawing(Spec):
    """A hub disc of the user's own, drawn full size in a DXF file; both discs are cut so."""

    file: str = Field(
        min_length=1,
        max_length=1000,
        examples=["my-disc.dxf"],
        description="DXF drawing of the disc, its path seen from the job file's folder: a round "
        "rim, a round hub hole in its middle, openings of any outline clear of the beads; the "
        "drawing's x lies over the keyway. No strength or zinc check knows it",
    )
    unit: Unit = Field(
        "file", description="of the drawing; file = as the drawing itself says, or else mm"
    )
    join_tolerance_mm: float = Field(
        JOIN_MM,
        ge=0.001,
        le=1,
        description="ends of the drawing's lines that lie this close are joined (default: as of "
        "an [[extra]])",
    )
    finer_than_kerf: bool = Field(
        False,
        description="true: what the kerf cannot follow is left out, webs of less than "
        f"{LEAST_WEB_MM:g} mm stay, and the report says what is lost; false: it is refused",
    )
