"""The schema of a wheelset in report.json."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class AxleStepRow(Row):
    """A stretch of the axle of one diameter."""

    from_mm: float = Field(description="along the axle, 0 in the middle of the track")
    to_mm: float = Field(description="the same, its far end")
    diameter_mm: float = Field(description="between the two")


class SpacerRow(Row):
    """A spacer tube on the axle."""

    name: str = Field(description="of the spacer")
    inside_mm: float = Field(description="diameter")
    outside_mm: float = Field(description="diameter")
    length_mm: float = Field(description="along the axle")
    middle_mm: float = Field(description="along the axle")


class FitRow(Row):
    """A fit, its zones and its sizes."""

    place: str = Field(description="of the fit: seat, journal, bearing")
    size_mm: float = Field(description="nominal diameter")
    hole: str = Field(description="tolerance of ISO 286")
    shaft: str = Field(description="tolerance of ISO 286")
    hole_mm: tuple[float, float] = Field(description="least and greatest size of the hole")
    shaft_mm: tuple[float, float] = Field(description="the same of the shaft")


class AxleCutRow(Row):
    """A round bar, or several sawn alike, and the axles from it."""

    stock: str = Field(description="the round bar")
    repeat: int = Field(description="how many bars are sawn so")
    pieces: int = Field(description="axles from each bar")
    rest_mm: float = Field(description="of each bar")


class WheelsetRow(Row):
    """Two wheels on their axle, and the axles of the whole job."""

    axles: int = Field(description="for all wheels of the job")
    wheels: Literal["turn with the axle", "turn on the axle"] = Field(description="fixed or loose")
    frames: str = Field(description="inside or outside of the wheels")
    axle_length_mm: float = Field(description="finished")
    axle_kg: float = Field(description="one axle as made: keyways, dimples and centres taken off")
    steel: str = Field(description="grade of the axle")
    seat_diameter_mm: float = Field(description="where the wheel sits")
    journal_diameter_mm: float = Field(description="in the bearing")
    body_diameter_mm: float = Field(description="between the seats")
    back_to_back_mm: float = Field(description="between the flanges' inner faces")
    play_mm: float = Field(description="total, in the nominal gauge")
    bearing_centres_mm: float = Field(description="from bearing to bearing")
    bearing: str | None = Field(description="its name; null with bushes")
    bush: str | None = Field(description="its sizes; null with bearings")
    bearings_each: int = Field(description="bearings or bushes on one axle")
    retention: str = Field(description="how the wheels are held")
    held_by: list[str] = Field(description="what holds the two wheels of an axle: keys, screws")
    steps: list[AxleStepRow] = Field(description="from end to end of the axle")
    spacers: list[SpacerRow] = Field(description="on one axle")
    fits: list[FitRow] = Field(description="of wheels and bearings")
    piece_mm: float = Field(description="sawn length of an axle, room to face its ends")
    least_bar_mm: float = Field(description="thinnest round bar that it can be made from")
    cuts: list[AxleCutRow] = Field(description="from [[round]]; empty without any")
    missing: int = Field(description="axles for which there is no bar")
