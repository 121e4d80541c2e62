"""Round bar for axles: the job file's table."""

from __future__ import annotations

from pydantic import Field

from platewheel.parts.base.spec_model import Spec


class Round(Spec):
    """Round bar, cut to length."""

    diameter_mm: float = Field(gt=0, le=300, examples=[35.0], description="of the bar")
    length_mm: float = Field(gt=0, le=30000, examples=[3000.0], description="of the bar")
    count: int | None = Field(
        None,
        ge=0,
        le=100000,
        examples=[4],
        description="to hand; absent = as many as needed",
        json_schema_extra={"takes": "a whole number"},
    )
    price: float = Field(0.0, ge=0, description="of one length, any currency; 0 = not known")
