"""Rows of a job's gauges: what each measures and how it is used."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class MeasureRow(Row):
    """A size that the gauge is true to."""

    name: str = Field(description="of the size")
    value: float = Field(description="that the gauge has")
    unit: Literal["mm", "deg"] = Field(description="of the value")


class GaugeRow(Row):
    """A gauge that is cut along with the wheels."""

    number: int = Field(description="stamped on it; the same in every job")
    name: str = Field(description="of its blank")
    title: str = Field(description="what it measures, in words")
    count: int = Field(description="for the whole job")
    file: str = Field(description="DXF of its blank, path below the job folder")
    sizes: list[MeasureRow] = Field(description="that it is true to")
    true_mm: float = Field(description="how near to its line an edge is filed")
    use: str = Field(description="how it is held, and what it tells")
