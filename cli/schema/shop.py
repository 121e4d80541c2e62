"""The schema of report.json for the shop: buying list, time plan, cost, steps to build."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.row import Row

BuyKind = Literal[
    "sheet",
    "bar",
    "pipe",
    "tube",
    "cutting",
    "filler",
    "gas",
    "galvanizing",
    "zinc",
    "paint",
    "round",
    "bearing",
    "bush",
    "spacer",
    "holding",
]


class BuyRow(Row):
    """One line of the buying list, for the whole job."""

    kind: BuyKind = Field(description="of what is bought")
    item: str = Field(description="in words, with its sizes")
    quantity: float = Field(description="in the unit")
    unit: str = Field(description='of the quantity: "off", "kg", "m3", "h", "m2"')
    mass_kg: float | None = Field(description="null where it is no thing with a mass")
    unit_price: float | None = Field(description="of one of the unit; null = not priced")
    price: float | None = Field(description="null = not priced: never counted as nothing")
    wheel_share: float = Field(
        description="of the price that is the wheels'; the rest is the user's own parts and gauges"
    )
    says: str = Field(description="by what it is priced, or which key would price it")
    metres: float | None = Field(
        default=None, description="of bar, pipe, tube or round in all; null where it has no length"
    )
    standard: str = Field(default="", description="grade, and the standard that it is ordered by")
    stock: str = Field(
        default="", description="of pipe and tube: the size that is stocked, and what is cut off it"
    )


class TimeRow(Row):
    """One kind of work, for the whole job."""

    work: str = Field(description="in words")
    quantity: float = Field(description="how much of it, in the unit")
    unit: str = Field(description="of the quantity")
    minutes_each: float = Field(description="for one of the unit")
    hours: float = Field(description="in all")
    wheel_share: float = Field(description="of the hours, as in the buying list")
    labour: bool = Field(description="priced by costs.labour_price_per_h; else in another price")
    rate: str = Field(description="key of the job file that sets it")


class TimePlanRow(Row):
    """Hours of work, kind by kind."""

    works: list[TimeRow] = Field(description="kind by kind")
    hours: float = Field(description="sum of all works")
    hours_per_wheel: float = Field(description="of what is the wheels'")


class CostPartRow(Row):
    """A part of what the wheels cost."""

    part: str = Field(description="of the cost: steel, cutting, welding ...")
    price: float | None = Field(description="of all wheels; null = not priced")
    per_wheel: float | None = Field(description="the same for one; null = not priced")
    says: str = Field(description="what it was worked out from")


class AxleCostRow(Row):
    """A part of what the axles cost, beside their wheels."""

    part: str = Field(description="of the cost: bar, bearings, work ...")
    price: float | None = Field(description="of all axles; null = not priced")
    per_axle: float | None = Field(description="the same for one; null = not priced")
    says: str = Field(description="what it was worked out from")


class CostRow(Row):
    """What a wheel costs, part by part; a part without a price is named, not counted."""

    currency: str = Field(description="of [costs], as written there")
    parts: list[CostPartRow] = Field(description="part by part")
    price: float = Field(description="sum of the parts that are priced, all wheels")
    per_wheel: float = Field(description="price / wheels")
    not_priced: list[str] = Field(description="parts that the sum lacks")
    bought_wheel_price: float | None = Field(
        description="of [costs], to compare with; null without"
    )
    axle_parts: list[AxleCostRow] = Field(
        description="what an axle costs beside its wheels; empty without [axle]"
    )
    per_axle: float = Field(description="sum of those parts that are priced, one axle")
    saving_per_wheel: float | None = Field(
        description="bought less made; null without a bought wheel's price or with parts missing"
    )
    says: str = Field(description="the sum in one sentence")


class FigureRow(Row):
    """One figure of a step, with its limit and where that comes from."""

    name: str = Field(description="of the figure")
    value: float = Field(description="in the unit")
    unit: str = Field(description="of the value")
    limit: str = Field(description="what is allowed, in words; empty where nothing is measured")
    source: str = Field(description="of value and limit")
    fine: bool = Field(default=False, description="for a micrometer: to a thousandth of a mm")


class StepRow(Row):
    """One step to build, in order."""

    id: str = Field(description="the same from version to version")
    title: str = Field(description="in words")
    do: list[str] = Field(description="what to do, in order")
    figures: list[FigureRow] = Field(description="to work to, or to measure")
    order: list[str] = Field(description="sequence of tacks or beads by their names on the picture")
    cautions: list[str] = Field(description="where the step can hurt someone")
    form: list[str] = Field(
        default=[], description="what is read before, under load and after it, to be written down"
    )
    uses: list[str] = Field(default=[], description="files of the job folder that it is done by")
