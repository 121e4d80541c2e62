"""The finish as numbers: what the wheel must withstand."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.parts.base.spec_model import Spec


class FinishSpec(Spec):
    """What keeps the rust off."""

    coating: Literal["galvanized", "painted", "bare"] = Field(
        "galvanized",
        description="hot-dip galvanized, painted, or left bare (default: the "
        "strictest on vent holes)",
    )
    site: Literal["inland", "coast"] = Field(
        "inland", description="where the wheels live; by the sea zinc goes four times as fast"
    )
    bore: Literal["plugged", "reamed", "unknown"] = Field(
        "unknown",
        description="how the hub bore is cleared of zinc: plugged in the bath, or reamed after it",
    )
    corrosion_mm: float | None = Field(
        None,
        ge=0,
        le=10,
        examples=[0.3],
        description="steel lost on each face over the years, which the load rating leaves off; "
        "absent = 0 under zinc or paint, which you renew, and bare by the site: 0.28 mm inland "
        "and 1.1 mm on the coast in 20 years (ISO 9223 and 9224, upper ends)",
        json_schema_extra={"takes": "a number"},
    )
