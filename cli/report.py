"""report.json: the job as numbers. The models below are its schema; `platewheel schema` prints
it as JSON Schema."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from cli.job import Job
from cli.plan import Plan
from nesting.cut_order import cut_order
from nesting.layout import Layout
from nesting.scrap import cutting_work, scrap
from parts.checks.result import CheckResult
from parts.rating.assess import Assessment
from parts.rating.rate import Rating
from parts.wheel import Part, weld_mass_kg, wheel_mass_kg


class Row(BaseModel):
    """Base of the report's tables: nothing beyond the named keys."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class JobRow(Row):
    name: str
    wheels: int


class WheelRow(Row):
    mass_kg: float = Field(description="one wheel with its weld beads, uncoated")
    weld_mass_kg: float
    tread_diameter_mm: float
    tread_width_mm: float
    flange_depth_mm: float
    flange_angle_deg: float
    over_flange_diameter_mm: float = Field(description="tread diameter + 2 x flange depth")
    hub_bore_mm: float


class PartRow(Row):
    name: str
    count_per_wheel: int
    volume_mm3: float = Field(description="of one")
    mass_kg: float = Field(description="of one")
    step: str = Field(description="path below the job folder")


class BlankRow(Row):
    name: str
    kind: Literal["tread", "disc", "flange"]
    thickness_mm: float
    count: int = Field(description="for the whole job")
    area_mm2: float
    cut_length_mm: float
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
    placements: list[PlacementRow] = Field(description="in cutting order")


class UnplacedRow(Row):
    blank: str
    count: int


class NestingRow(Row):
    sheets_used: int
    stock_area_mm2: float
    parts_area_mm2: float
    scrap_percent: float = Field(description="of the stock area: all that is not part")
    scrap_percent_after_offcuts: float = Field(
        description="of the stock area: neither part nor kept in offcuts.toml"
    )
    price: float | None = Field(description="of the sheets used; null where a price is missing")
    cut_length_mm: float
    pierces: int
    cutting_hours: float
    cutting_price: float
    seconds: float = Field(description="time the search took; the only figure that changes")
    unplaced: list[UnplacedRow]


class LengthRow(Row):
    stock: str
    stock_length_mm: float
    repeat: int
    pieces: dict[str, int]
    piece_length_mm: float
    rest_mm: float


class CheckRow(Row):
    id: str
    title: str
    value: float | None
    limit: float | None
    unit: str
    margin: float | None = Field(description="relative to the limit, positive is good")
    verdict: Literal["pass", "warn", "fail", "not-assessed"]
    says: str
    source: str


class LimitRow(Row):
    name: str
    load_n: float = Field(description="design wheel load that this limit allows")
    where: str
    by: str


class RatingRow(Row):
    """Load rating by stress analysis; loads are static x unevenness x shock, one wheel."""

    new_n: float
    worn_n: float | None = Field(description="null where the wear leaves too little wall")
    governs: str = Field(description="limit that sets the lower of the two")
    where: str
    payload_kg_per_wagon: float = Field(description="that the lower rating allows")
    life_km: float | None = Field(description="at the stated load; null = no fatigue")
    turns_in_life: float
    limits_new: list[LimitRow]
    limits_worn: list[LimitRow]


class TemplateRow(Row):
    file: str
    pages: int


class Report(Row):
    """Everything of a job as numbers; lengths mm, areas mm2, volumes mm3, masses kg."""

    job: JobRow
    wheel: WheelRow
    parts: list[PartRow]
    blanks: list[BlankRow]
    sheets: list[SheetRow]
    nesting: NestingRow
    cutting_lists: list[LengthRow]
    templates: list[TemplateRow]
    rating: RatingRow
    checks: list[CheckRow]
    warnings: list[str]


def wheel_row(job: Job) -> WheelRow:
    spec = job.wheel
    return WheelRow(
        mass_kg=wheel_mass_kg(spec),
        weld_mass_kg=weld_mass_kg(spec),
        tread_diameter_mm=spec.tread_diameter_mm,
        tread_width_mm=spec.tread_width_mm,
        flange_depth_mm=spec.flange_depth_mm,
        flange_angle_deg=spec.flange_angle_deg,
        over_flange_diameter_mm=spec.over_flange_diameter_mm,
        hub_bore_mm=spec.hub_bore_mm,
    )


def part_rows(parts: tuple[Part, ...]) -> list[PartRow]:
    return [
        PartRow(
            name=part.name,
            count_per_wheel=part.count_per_wheel,
            volume_mm3=part.volume_mm3,
            mass_kg=part.mass_kg,
            step=f"solids/{part.name}.step",
        )
        for part in parts
    ]


def blank_rows(job: Job, parts: tuple[Part, ...]) -> list[BlankRow]:
    return [
        BlankRow(
            name=part.name,
            kind=part.blank.kind,
            thickness_mm=part.blank.thickness_mm,
            count=part.count_per_wheel * job.head.wheels,
            area_mm2=part.blank.area_mm2,
            cut_length_mm=part.blank.cut_length_mm,
            file=f"blanks/{part.name}.dxf",
            **dict(part.blank.sizes),
        )
        for part in parts
        if part.blank
    ]


def sheet_rows(layouts: tuple[Layout, ...], files: list[str]) -> list[SheetRow]:
    rows = []
    for layout, file in zip(layouts, files, strict=True):
        sheet = layout.sheet
        placements = [
            PlacementRow(blank=p.blank.name, x_mm=p.x_mm, y_mm=p.y_mm, rotation_deg=p.rotation_deg)
            for p in cut_order(layout.placements)
        ]
        rows.append(
            SheetRow(
                file=file,
                stock=sheet.name,
                offcut=sheet.is_offcut,
                thickness_mm=sheet.thickness_mm,
                repeat=layout.repeat,
                width_mm=sheet.width_mm,
                length_mm=sheet.length_mm,
                area_mm2=sheet.area_mm2,
                parts_area_mm2=layout.parts_area_mm2,
                scrap_percent=layout.scrap_percent,
                placements=placements,
            )
        )
    return rows


def nesting_row(job: Job, plan: Plan, seconds: float) -> NestingRow:
    total, work = scrap(plan.layouts, plan.kept), cutting_work(plan.layouts, job.cutting)
    left = [(w.blank.name, w.count) for w in plan.nest.unplaced]
    left += [(piece.name, piece.count) for piece in plan.short]
    return NestingRow(
        sheets_used=total.sheets_used,
        stock_area_mm2=total.stock_area_mm2,
        parts_area_mm2=total.parts_area_mm2,
        scrap_percent=total.scrap_percent,
        scrap_percent_after_offcuts=total.scrap_percent_after_offcuts,
        price=total.price,
        cut_length_mm=work.cut_length_mm,
        pierces=work.pierces,
        cutting_hours=work.hours,
        cutting_price=work.price,
        seconds=round(seconds, 2),
        unplaced=[UnplacedRow(blank=name, count=count) for name, count in left],
    )


def length_rows(plan: Plan) -> list[LengthRow]:
    return [
        LengthRow(
            stock=cut.stock.name,
            stock_length_mm=cut.stock.length_mm,
            repeat=cut.repeat,
            pieces=dict(cut.pieces),
            piece_length_mm=plan.tread_length_mm,
            rest_mm=cut.rest_mm,
        )
        for cut in plan.lengths
    ]


def rating_row(found: Assessment) -> RatingRow:
    def rows(rating: Rating | None) -> list[LimitRow]:
        limits = rating.limits if rating else ()
        return [
            LimitRow(name=limit.name, load_n=limit.load_n, where=limit.where, by=limit.by)
            for limit in limits
            if math.isfinite(limit.load_n)
        ]

    governs = found.least.governs
    return RatingRow(
        new_n=found.new.load_n,
        worn_n=found.worn.load_n if found.worn else None,
        governs=governs.name,
        where=governs.where,
        payload_kg_per_wagon=found.payload_kg,
        life_km=found.life_km if math.isfinite(found.life_km) else None,
        turns_in_life=found.new.cycles,
        limits_new=rows(found.new),
        limits_worn=rows(found.worn),
    )


def check_rows(results: list[CheckResult]) -> list[CheckRow]:
    return [
        CheckRow(
            id=r.id,
            title=r.title,
            value=r.value,
            limit=r.limit,
            unit=r.unit,
            margin=r.margin,
            verdict=r.verdict,
            says=r.says,
            source=r.source,
        )
        for r in results
    ]
