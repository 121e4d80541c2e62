"""Rows of report.json for the load rating: its limits, and the loads that it rests on."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row


class LimitRow(Row):
    """A limit of the load rating."""

    name: str = Field(description="of the limit")
    load_n: float = Field(description="design wheel load that this limit allows")
    where: str = Field(description="the place in the wheel")
    by: str = Field(description="what sets it: class, clause or strength, in words")
    judged: bool = Field(description="false: told beside, the rating is not judged by it")


class LoadRow(Row):
    """A load or factor that the verdict rests on, what it was worked out from, and its source."""

    name: str = Field(description="of the load or factor")
    value: float = Field(description="as the verdict takes it")
    unit: str = Field(description="of the value; empty for a factor")
    how: str = Field(description="worked out from which keys, or measured")
    source: str = Field(description="of the formula")


class BlockRow(Row):
    """Turns of one kind in the life, and the damage that they do where the first crack comes."""

    where: str = Field(description="piece of the way")
    state: Literal["loaded", "empty"] = Field(description="of the wagon")
    turns: float = Field(description="of the wheel in its life")
    load_n: float = Field(description="of the wheel when twist makes it heavy, between joints")
    push_n: float = Field(description="sideways, when it leads on the outer rail")
    damage: float = Field(description="Miner's sum, between joints")
    joints: float = Field(description="Miner's sum, of the turns with a joint in them")


class RatingRow(Row):
    """Load rating by stress analysis; loads are those of one wheel at a joint."""

    rated_n: float = Field(description="the lower of new and worn; new alone if worn is null")
    rated_state: Literal["new", "worn"] = Field(description="of which the lower rating is")
    new_n: float = Field(description="rating of the wheel as built")
    worn_n: float | None = Field(description="null where the wear leaves too little wall")
    governs: str = Field(description="limit that sets the lower of the two")
    where: str = Field(description="place in the wheel of the limit that governs")
    payload_kg_per_wagon: float = Field(description="that the lower rating allows")
    life_km: float | None = Field(description="at the stated load; null = no fatigue")
    turns_in_life: float = Field(description="of the wheel in the stated life")
    limits_new: list[LimitRow] = Field(description="of the wheel as built")
    limits_worn: list[LimitRow] = Field(
        description="with the wear allowance worn off; empty without"
    )
    loads: list[LoadRow] = Field(description="that the design load was worked out from")
    blocks: list[BlockRow] = Field(description="of Miner's sum")
