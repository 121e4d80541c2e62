"""The schema of a wheelset in report.json."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class AxleStepRow(Row):
    from_mm: float = Field(description="along the axle, 0 in the middle of the track")
    to_mm: float
    diameter_mm: float


class SpacerRow(Row):
    name: str
    inside_mm: float
    outside_mm: float
    length_mm: float
    middle_mm: float = Field(description="along the axle")


class FitRow(Row):
    place: str
    size_mm: float
    hole: str = Field(description="tolerance of ISO 286")
    shaft: str
    hole_mm: tuple[float, float] = Field(description="least and greatest size of the hole")
    shaft_mm: tuple[float, float] = Field(description="the same of the shaft")


class AxleCutRow(Row):
    stock: str
    repeat: int
    pieces: int = Field(description="axles from each bar")
    rest_mm: float = Field(description="of each bar")


class WheelsetRow(Row):
    """Two wheels on their axle, and the axles of the whole job."""

    axles: int = Field(description="for all wheels of the job")
    wheels: Literal["turn with the axle", "turn on the axle"]
    frames: str
    axle_length_mm: float
    steel: str
    seat_diameter_mm: float
    journal_diameter_mm: float
    body_diameter_mm: float
    back_to_back_mm: float
    play_mm: float
    bearing_centres_mm: float
    bearing: str | None
    bush: str | None
    bearings_each: int = Field(description="bearings or bushes on one axle")
    retention: str
    held_by: list[str] = Field(description="what holds the two wheels of an axle: keys, screws")
    steps: list[AxleStepRow]
    spacers: list[SpacerRow]
    fits: list[FitRow]
    piece_mm: float = Field(description="sawn length of an axle, room to face its ends")
    least_bar_mm: float = Field(description="thinnest round bar that it can be made from")
    cuts: list[AxleCutRow] = Field(description="from [[round]]; empty without any")
    missing: int = Field(description="axles for which there is no bar")
