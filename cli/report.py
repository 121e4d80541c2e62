"""report.json: the job as numbers, by the models of `cli.report_model`."""

from __future__ import annotations

from cli.job import Job
from cli.plan import Plan
from cli.report_model import (
    BlankRow,
    BoundRow,
    CheckRow,
    LengthRow,
    LimitRow,
    NestingRow,
    PartRow,
    PlacementRow,
    RatingRow,
    SheetRow,
    UnplacedRow,
    WheelRow,
)
from nesting.cut_lengths import lengths_price
from nesting.cut_order import cut_order
from nesting.layout import Layout
from nesting.scrap import cutting_work, scrap
from parts.checks.result import CheckResult
from parts.hub_tube import tube_words
from parts.rating.assess import Assessment
from parts.rating.rate import Rating
from parts.wheel import Part, weld_mass_kg, wheel_mass_kg


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
        hub_tube=tube_words(spec),
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
        lengths_price=lengths_price(plan.lengths),
        cut_length_mm=work.cut_length_mm,
        pierces=work.pierces,
        cutting_hours=work.hours,
        cutting_price=work.price,
        seconds=round(seconds, 2),
        bounds=[
            BoundRow(
                thickness_mm=bound.thickness_mm,
                sheets_used=bound.used,
                least_sheets=bound.least,
                proved_least=bound.proved,
            )
            for bound in plan.bounds
        ],
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
        limits = rating.biting if rating else ()
        return [
            LimitRow(name=limit.name, load_n=limit.load_n, where=limit.where, by=limit.by)
            for limit in limits
        ]

    governs = found.least.governs
    return RatingRow(
        rated_n=found.least.load_n,
        rated_state="worn" if found.least.worn_mm else "new",
        new_n=found.new.load_n,
        worn_n=found.worn.load_n if found.worn else None,
        governs=governs.name,
        where=governs.where,
        payload_kg_per_wagon=found.payload_kg,
        life_km=found.finite_life_km,
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
