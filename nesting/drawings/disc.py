"""The user's own hub disc: the job file's [disc] table."""

from __future__ import annotations

from pydantic import Field

from platewheel.nesting.drawings.closed_loops import JOIN_MM
from platewheel.nesting.drawings.drawing_keys import DrawingUnit, FinerThanKerf, JoinTolerance
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
    unit: DrawingUnit = "file"
    join_tolerance_mm: JoinTolerance = JOIN_MM
    finer_than_kerf: FinerThanKerf = False
