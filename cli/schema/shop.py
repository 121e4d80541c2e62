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

    kind: BuyKind
    item: str
    quantity: float
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

    work: str
    quantity: float
    unit: str
    minutes_each: float
    hours: float
    wheel_share: float = Field(description="of the hours, as in the buying list")
    labour: bool = Field(description="priced by costs.labour_price_per_h; else in another price")
    rate: str = Field(description="key of the job file that sets it")


class TimePlanRow(Row):
    works: list[TimeRow]
    hours: float = Field(description="sum of all works")
    hours_per_wheel: float


class CostPartRow(Row):
    part: str
    price: float | None = Field(description="of all wheels; null = not priced")
    per_wheel: float | None
    says: str


class AxleCostRow(Row):
    part: str
    price: float | None = Field(description="of all axles; null = not priced")
    per_axle: float | None
    says: str


class CostRow(Row):
    """What a wheel costs, part by part; a part without a price is named, not counted."""

    currency: str
    parts: list[CostPartRow]
    price: float = Field(description="sum of the parts that are priced, all wheels")
    per_wheel: float
    not_priced: list[str] = Field(description="parts that the sum lacks")
    bought_wheel_price: float | None
    axle_parts: list[AxleCostRow] = Field(
        description="what an axle costs beside its wheels; empty without [axle]"
    )
    per_axle: float = Field(description="sum of those parts that are priced, one axle")
    saving_per_wheel: float | None = Field(
        description="bought less made; null without a bought wheel's price or with parts missing"
    )
    says: str


class FigureRow(Row):
    """One figure of a step, with its limit and where that comes from."""

    name: str
    value: float
    unit: str
    limit: str = Field(description="what is allowed, in words; empty where nothing is measured")
    source: str
    fine: bool = Field(default=False, description="for a micrometer: to a thousandth of a mm")


class StepRow(Row):
    """One step to build, in order."""

    id: str
    title: str
    do: list[str] = Field(description="what to do, in order")
    figures: list[FigureRow]
    order: list[str] = Field(description="sequence of tacks or beads by their names on the picture")
    cautions: list[str]
    form: list[str] = Field(
        default=[], description="what is read before, under load and after it, to be written down"
    )
    uses: list[str] = Field(default=[], description="files of the job folder that it is done by")
