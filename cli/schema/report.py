"""The schema of report.json, as models; `platewheel schema` prints it as JSON Schema."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, JsonValue

from platewheel.cli.schema.by_hand import HandRow
from platewheel.cli.schema.gauge import GaugeRow
from platewheel.cli.schema.rating import RatingRow
from platewheel.cli.schema.row import Row, Versioned
from platewheel.cli.schema.shop import BuyRow, CostRow, StepRow, TimePlanRow
from platewheel.cli.schema.wheelset import WheelsetRow
from platewheel.parts.wheel.kinds import KINDS


class JobRow(Row):
    """Which job the report is of."""

    name: str = Field(description="of the job file")
    wheels: int = Field(description="that all else here is of")
    asked: int = Field(description="by the job file; more where its stock does not hold all")


class WheelRow(Row):
    """One wheel: its masses and main sizes."""

    mass_kg: float = Field(description="one wheel with its weld beads, uncoated")
    weld_mass_kg: float = Field(description="its weld beads alone")
    tread_diameter_mm: float = Field(description="where it runs, at the gauge edge")
    tread_width_mm: float = Field(description="of the tread ring, along the axis")
    flange_depth_mm: float = Field(description="beyond the tread, radially")
    flange_angle_deg: float = Field(description="rail-side face to axle axis")
    over_flange_diameter_mm: float = Field(description="tread diameter + 2 x flange depth")
    hub_bore_mm: float = Field(description="for axle or bush")
    hub_tube: str = Field(description="outside x wall x length, mm; empty without a tube")


class PartRow(Row):
    """A part of the wheel, as its solid is."""

    name: str = Field(description="of the part")
    count_per_wheel: int = Field(description="pieces in one wheel")
    volume_mm3: float = Field(description="of one")
    mass_kg: float = Field(description="of one")
    step: str = Field(description="path below the job folder")


BLANK_KINDS: list[JsonValue] = [*(kind.name for kind in KINDS if kind.cut), "extra", "gauge"]


class BlankRow(Row):
    """A blank that is cut, and how many of it the job needs."""

    name: str = Field(description="of the blank, as in placements")
    kind: str = Field(
        description="extra: a part of the user's own, gauge: of the shop; not of the wheel",
        json_schema_extra={"enum": BLANK_KINDS},
    )
    thickness_mm: float = Field(description="of the plate")
    count: int = Field(description="for the whole job")
    area_mm2: float = Field(description="of one, holes taken off")
    cut_length_mm: float = Field(description="of one, outline and holes")
    steel: str = Field(description="grade of EN 10025-2")
    drawing: str | None = Field(
        description="DXF file that an extra, or the disc of [disc], was read from"
    )
    file: str = Field(description="DXF of the blank, path below the job folder")
    length_mm: float | None = Field(None, description="of a straight blank, or of its bounds")
    width_mm: float | None = Field(None, description="of a straight blank, or of its bounds")
    diameter_mm: float | None = Field(None, description="of a round blank")
    hub_hole_diameter_mm: float | None = Field(None, description="of a hub disc")
    vent_diameter_mm: float | None = Field(None, description="of each vent of a hub disc")
    vent_circle_mm: float | None = Field(
        None, description="diameter of the circle that the vents lie on"
    )
    vent_count: int | None = Field(None, description="in one disc")
    inner_radius_mm: float | None = Field(None, description="of a sector: flange or tapered tread")
    outer_radius_mm: float | None = Field(None, description="of a sector: flange or tapered tread")
    sweep_deg: float | None = Field(None, description="of a sector: flange or tapered tread")


class PlacementRow(Row):
    """Where one blank lies on its plate."""

    blank: str = Field(description="its name")
    x_mm: float = Field(description="of the blank's own origin, along the sheet's length")
    y_mm: float = Field(description="of the blank's own origin, along the sheet's width")
    rotation_deg: float = Field(description="about the blank's own origin, counter-clockwise")


class OffcutRow(Row):
    """A piece of one plate that is kept for the next job, as offcuts.toml has it."""

    name: str = Field(description="to be chalked on it")
    width_mm: float = Field(description="greatest, along y of the layout")
    length_mm: float = Field(description="greatest, along x of the layout")
    area_mm2: float = Field(description="of its steel, holes taken off")
    outline: list[tuple[float, float]] = Field(description="corners where it lies on the plate")
    holes: list[list[tuple[float, float]]] = Field(description="corners of each")


class SheetRow(Row):
    """A plate, or several cut alike: its file, its work, what lies on it."""

    file: str = Field(description="DXF to cut by, path below the job folder")
    stock: str = Field(description="width x length of the sheet, or the offcut's name")
    offcut: bool = Field(description="true: an offcut of the job file; false: a whole sheet")
    thickness_mm: float = Field(description="of the plate")
    repeat: int = Field(description="how many plates are cut so")
    width_mm: float = Field(description="along y of the layout")
    length_mm: float = Field(description="along x of the layout")
    area_mm2: float = Field(description="of one plate")
    parts_area_mm2: float = Field(description="of the parts on one plate")
    scrap_percent: float = Field(description="of the plate: all that is not part")
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
    """Blanks that found no room."""

    blank: str = Field(description="its name")
    count: int = Field(description="pieces for which there is no room")


class BoundRow(Row):
    """Plates of one thickness: used, and the least that any nest needs, by area."""

    thickness_mm: float = Field(description="of the plates")
    sheets_used: int = Field(description="by this plan")
    least_sheets: int = Field(description="that any plan needs")
    proved_least: bool = Field(description="true: no plan uses fewer")


class MarkedRow(Row):
    """Round holes of a blank too small to cut: centres on the sheets, to be drilled."""

    blank: str = Field(description="its name")
    diameter_mm: float = Field(description="of the hole")
    count: int = Field(description="in one blank")
    least_mm: float = Field(description="smallest hole that is cut in this thickness")


class NestingRow(Row):
    """All plates together: steel, cuts, time, and what found no room."""

    sheets_used: int = Field(description="plates of all layouts")
    stock_area_mm2: float = Field(description="of those plates")
    parts_area_mm2: float = Field(description="of all parts on them")
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
    cutting_hours: float = Field(description="of all plates, without laying them on the table")
    by_hand: HandRow | None = Field(description="of all plates; null where a machine cuts")
    setup_hours: float = Field(description="to lay the plates on the table, one by one")
    cutting_price: float = Field(description="of cutting and setting up")
    web_mm: float = Field(
        description="steel between the kerfs of two neighbours: part spacing - 2 x kerf; "
        "nothing or less: the kerfs run into one"
    )
    edge_web_mm: float = Field(description="steel between a kerf and the sheet's edge")
    centre_marked_holes: list[MarkedRow] = Field(
        description="to be drilled, for they are too small to cut"
    )
    bounds: list[BoundRow] = Field(description="by thickness of plate")
    unplaced: list[UnplacedRow] = Field(description="what finds no room; empty where all is laid")


class LengthRow(Row):
    """A bar or pipe, or several sawn alike."""

    stock: str = Field(description="bar or pipe, or a name of the rack")
    stock_length_mm: float = Field(description="of one")
    repeat: int = Field(description="how many are sawn so")
    pieces: dict[str, int] = Field(description="name of the blank: pieces from one")
    piece_length_mm: float = Field(description="of one piece")
    rest_mm: float = Field(description="left of one")
    rack: list[str] = Field(description="names of those in the ledger; the others are to buy")


class CheckRow(Row):
    """A check: what was found, held against what, and the verdict."""

    id: str = Field(description="the same from version to version")
    title: str = Field(description="in words")
    value: float | None = Field(description="found; null where there is no single number")
    limit: float | None = Field(description="that the value is held against; null without one")
    unit: str = Field(description="of value and limit; empty for a plain number")
    margin: float | None = Field(description="relative to the limit, positive is good")
    at_most: bool | None = Field(
        description="true: the value may be at most the limit; false: it must be at least; null: "
        "nothing to be held against a limit"
    )
    verdict: Literal["pass", "warn", "fail", "not-assessed"] = Field(
        description="fail: not to be built so; warn: to be thought about"
    )
    says: str = Field(description="what was found, and what to change")
    source: str = Field(description="of the limit")


class TemplateRow(Row):
    """A PDF of paper templates."""

    file: str = Field(description="PDF, path below the job folder")
    pages: int = Field(description="of that file")


class Report(Versioned):
    """Everything of a job as numbers; lengths mm, areas mm2, volumes mm3, masses kg.

    >>> Report.model_fields["schema_version"].default
    1
    """

    job: JobRow = Field(description="what was asked for")
    wheel: WheelRow = Field(description="one of them")
    parts: list[PartRow] = Field(description="kinds of part of one wheel")
    blanks: list[BlankRow] = Field(description="kinds of flat piece of the whole job")
    gauges: list[GaugeRow] = Field(description="by number; empty without [gauges]")
    sheets: list[SheetRow] = Field(description="distinct layouts, each with its file")
    nesting: NestingRow = Field(description="all plates together")
    cutting_lists: list[LengthRow] = Field(description="bars and pipes sawn to length")
    buying: list[BuyRow] = Field(description="for the whole job")
    time_plan: TimePlanRow = Field(description="hours of work")
    cost: CostRow = Field(description="of a wheel, and of an axle")
    steps: list[StepRow] = Field(description="to build, in order")
    wheelset: WheelsetRow | None = Field(description="null without [axle] in the job file")
    templates: list[TemplateRow] = Field(description="at full size, to print")
    rating: RatingRow | None = Field(description="null where the wheel cannot be rated")
    checks: list[CheckRow] = Field(description="worst first")
    warnings: list[str] = Field(description="to be read before anything is cut")
