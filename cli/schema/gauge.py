"""Rows of a job's gauges: what each measures and how it is used."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class MeasureRow(Row):
    """A size that the gauge is true to."""

    name: str
    value: float
    unit: Literal["mm", "deg"]


class GaugeRow(Row):
    number: int = Field(description="stamped on it; the same in every job")
    name: str = Field(description="of its blank")
    title: str
    count: int = Field(description="for the whole job")
    file: str
    sizes: list[MeasureRow]
    true_mm: float = Field(description="how near to its line an edge is filed")
    use: str
