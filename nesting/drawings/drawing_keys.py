"""Keys that every drawing of the user's own has in the job file: a part's, a disc's."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from platewheel.nesting.drawings.opened import Unit
from platewheel.nesting.stock.cutting import LEAST_WEB_MM

DrawingUnit = Annotated[
    Unit, Field(description="of the drawing; file = as the drawing itself says, or else mm")
]
JoinTolerance = Annotated[
    float,
    Field(
        ge=0.001,
        le=1,
        description="ends of the drawing's lines that lie this close are joined (default: half "
        "the narrowest kerf of common use, a laser's 0.1 mm; no source)",
    ),
]
FinerThanKerf = Annotated[
    bool,
    Field(
        description="true: what the kerf cannot follow is left out, webs of less than "
        f"{LEAST_WEB_MM:g} mm stay, and the report says what is lost; false: it is refused",
    ),
]
