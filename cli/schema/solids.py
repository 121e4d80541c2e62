"""The schema of what `solids --json` tells: every body that is in a file."""

from __future__ import annotations

from pydantic import Field

from platewheel.cli.schema.row import Row


class SolidRow(Row):
    """One solid that is written, of what is made or of what is there for reference."""

    name: str = Field(description="of the part, the assembly or the model")
    count: int = Field(description="how many of it there are")
    within: str = Field(description="in what: a wheel, an axle; empty for what stands alone")
    volume_mm3: float | None = Field(description="of one; null for what is there for reference")
    mass_kg: float | None = Field(
        description="of one, of steel; null for reference, for bushes and for models to print"
    )
    reference: bool = Field(description="true: bought or laid, not made; drawn to be seen")
    file: str = Field(description="path below the job folder")
