"""The schema of report.json, as models; `platewheel schema` prints it as JSON Schema."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, JsonValue

from platewheel.cli.schema.by_hand import HandRow
from platewheel.cli.schema.gauge import GaugeRow
from platewheel.cli.schema.row import Row
from platewheel.cli.schema.shop import BuyRow, CostRow, StepRow, TimePlanRow
from platewheel.cli.schema.wheelset import WheelsetRow
from platewheel.parts.wheel.kinds import KINDS


class JobRow(Row):
    name: str
    wheels: int = Field(description="that all else here is of")
    asked: int = Field(description="by the job file; more where its stock does not hold all")


class WheelRow(Row):
    mass_kg: float = Field(description="one wheel with its weld beads, uncoated")
    weld_mass_kg: float
    tread_diameter_mm: float
    tread_width_mm: float
    flange_depth_mm: float
    flange_angle_deg: float
    over_flange_diameter_mm: float = Field(description="tread diameter + 2 x flange depth")
    hub_bore_mm: float
    hub_tube: str = Field(description="outside x wall x length, mm; empty without a tube")


class PartRow(Row):
    name: str
    count_per_wheel: int
    volume_mm3: float = Field(description="of one")
    mass_kg: float = Field(description="of one")
    step: str = Field(description="path below the job folder")


BLANK_KINDS: list[JsonValue] = [*(kind.name for kind in KINDS if kind.cut), "extra", "gauge"]


class BlankRow(Row):
    name: str
    kind: str = Field(
        description="extra: a part of the user's own, gauge: of the shop; not of the wheel",
        json_schema_extra={"enum": BLANK_KINDS},
    )
    thickness_mm: float
    count: int = Field(description="for the whole job")
    area_mm2: float
    cut_length_mm: float
    steel: str
    drawing: str | None = Field(description="DXF file that an extra was read from")
    file: str
    length_mm: float | None = None
    width_mm: float | None = None
    diameter_mm: float | None = None
    hub_hole_diameter_mm: float | None = None
    vent_diameter_mm: float | None = None
    vent_circle_mm: float | None = None
    vent_count: int | None = None
    inner_radius_mm: float | None = None
    outer_radius_mm: float | None = None
    sweep_deg: float | None = None


class PlacementRow(Row):
    blank: str
    x_mm: float
    y_mm: float
    rotation_deg: float


class OffcutRow(Row):
    """A piece of one plate that is kept for the next job, as offcuts.toml has it."""

    name: str = Field(description="to be chalked on it")
    width_mm: float = Field(description="greatest, along y of the layout")
    length_mm: float = Field(description="greatest, along x of the layout")
    area_mm2: float
    outline: list[tuple[float, float]] = Field(description="corners where it lies on the plate")
    holes: list[list[tuple[float, float]]]


class SheetRow(Row):
    file: str
    stock: str = Field(description="width x length of the sheet, or the offcut's name")
    offcut: bool
    thickness_mm: float
    repeat: int = Field(description="how many plates are cut so")
    width_mm: float = Field(description="along y of the layout")
    length_mm: float = Field(description="along x of the layout")
    area_mm2: float
    parts_area_mm2: float
    scrap_percent: float
    cut_length_mm: float = Field(
        description="on one plate: edges, leads, cuts that part what is kept or go through the rest"
    )
    pierces: int | None = Field(description="on one plate; null by hand")
    rapid_length_mm: float | None = Field(
        description="travel between cuts on one plate; null by hand"
    )
    travels_over_cut_parts: int = Field(
        description="on one plate: travels that cross a part cut before, which no tab holds"
    )
    cutting_minutes: float = Field(description="of one plate")
    pierce_minutes: float = Field(description="of these")
    travel_minutes: float = Field(description="of these")
    rack: list[str] = Field(
        description="names of the pieces in the ledger that are cut so; the others are to buy"
    )
    by_hand: HandRow | None = Field(description="null where a machine cuts")
    placements: list[PlacementRow] = Field(description="in cutting order")
    offcuts: list[OffcutRow] = Field(description="kept, plate by plate; none is scrap")


class UnplacedRow(Row):
    blank: str
    count: int


class BoundRow(Row):
    """Plates of one thickness: used, and the least that any nest needs, by area."""

    thickness_mm: float
    sheets_used: int
    least_sheets: int
    proved_least: bool


class MarkedRow(Row):
    """Round holes of a blank too small to cut: centres on the sheets, to be drilled."""

    blank: str
    diameter_mm: float
    count: int = Field(description="in one blank")
    least_mm: float = Field(description="smallest hole that is cut in this thickness")


class NestingRow(Row):
    sheets_used: int
    stock_area_mm2: float
    parts_area_mm2: float
    scrap_percent: float = Field(description="of the stock area: all that is not part")
    scrap_percent_after_offcuts: float = Field(
        description="of the stock area: neither part nor kept in offcuts.toml"
    )
    price: float | None = Field(description="of the sheets used; null where a price is missing")
    lengths_price: float | None = Field(description="of bars or pipes; null where one is missing")
    cut_length_mm: float = Field(description="of all plates, leads and tabs counted")
    pierces: int | None = Field(description="null by hand")
    rapid_length_mm: float | None = Field(
        description="travel between cuts, from each plate's corner on; null by hand"
    )
    cutting_hours: float
    by_hand: HandRow | None = Field(description="of all plates; null where a machine cuts")
    setup_hours: float = Field(description="to lay the plates on the table, one by one")
    cutting_price: float = Field(description="of cutting and setting up")
    web_mm: float = Field(
        description="steel between the kerfs of two neighbours: part spacing - 2 x kerf; "
        "nothing or less: the kerfs run into one"
    )
    edge_web_mm: float = Field(description="steel between a kerf and the sheet's edge")
    centre_marked_holes: list[MarkedRow]
    seconds: float = Field(description="time the search took; the only figure that changes")
    bounds: list[BoundRow]
    unplaced: list[UnplacedRow]


class LengthRow(Row):
    stock: str
    stock_length_mm: float
    repeat: int
    pieces: dict[str, int]
    piece_length_mm: float
    rest_mm: float
    rack: list[str] = Field(description="names of those in the ledger; the others are to buy")


class CheckRow(Row):
    id: str
    title: str
    value: float | None
    limit: float | None
    unit: str
    margin: float | None = Field(description="relative to the limit, positive is good")
    at_most: bool | None = Field(
        description="true: the value may be at most the limit; false: it must be at least; null: "
        "nothing to be held against a limit"
    )
    verdict: Literal["pass", "warn", "fail", "not-assessed"]
    says: str
    source: str


class LimitRow(Row):
    name: str
    load_n: float = Field(description="design wheel load that this limit allows")
    where: str
    by: str
    judged: bool = Field(description="false: told beside, the rating is not judged by it")


class LoadRow(Row):
    """A load or factor that the verdict rests on, what it was worked out from, and its source."""

    name: str
    value: float
    unit: str
    how: str
    source: str


class BlockRow(Row):
    """Turns of one kind in the life, and the damage that they do where the first crack comes."""

    where: str
    state: Literal["loaded", "empty"]
    turns: float
    load_n: float = Field(description="of the wheel when twist makes it heavy, between joints")
    push_n: float = Field(description="sideways, when it leads on the outer rail")
    damage: float = Field(description="Miner's sum, between joints")
    joints: float = Field(description="Miner's sum, of the turns with a joint in them")


class RatingRow(Row):
    """Load rating by stress analysis; loads are those of one wheel at a joint."""

    rated_n: float = Field(description="the lower of new and worn; new alone if worn is null")
    rated_state: Literal["new", "worn"]
    new_n: float
    worn_n: float | None = Field(description="null where the wear leaves too little wall")
    governs: str = Field(description="limit that sets the lower of the two")
    where: str
    payload_kg_per_wagon: float = Field(description="that the lower rating allows")
    life_km: float | None = Field(description="at the stated load; null = no fatigue")
    turns_in_life: float
    limits_new: list[LimitRow]
    limits_worn: list[LimitRow]
    loads: list[LoadRow]
    blocks: list[BlockRow]


class TemplateRow(Row):
    file: str
    pages: int


class Report(Row):
    """Everything of a job as numbers; lengths mm, areas mm2, volumes mm3, masses kg."""

    job: JobRow
    wheel: WheelRow
    parts: list[PartRow]
    blanks: list[BlankRow]
    gauges: list[GaugeRow] = Field(description="by number; empty without [gauges]")
    sheets: list[SheetRow]
    nesting: NestingRow
    cutting_lists: list[LengthRow]
    buying: list[BuyRow]
    time_plan: TimePlanRow
    cost: CostRow
    steps: list[StepRow] = Field(description="to build, in order")
    wheelset: WheelsetRow | None = Field(description="null without [axle] in the job file")
    templates: list[TemplateRow]
    rating: RatingRow | None = Field(description="null where the wheel cannot be rated")
    checks: list[CheckRow]
    warnings: list[str]
