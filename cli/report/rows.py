"""report.json: the job as numbers, by the models of `cli.schema.report`."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.hole_tools import hole_tools
from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import rack_by_layout, rack_by_length
from platewheel.cli.job.plan import Plan
from platewheel.cli.report.by_hand import hand_row, hand_sum
from platewheel.cli.schema.report import (
    BlankRow,
    BoundRow,
    LengthRow,
    MarkedRow,
    NestingRow,
    OffcutRow,
    PartRow,
    PlacementRow,
    SheetRow,
    UnplacedRow,
    WheelRow,
)
from platewheel.cli.words.figures import web_words
from platewheel.nesting.cutting.cut_time import cutting_work, plate_work
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.cutting.scrap import scrap
from platewheel.nesting.offcuts.file import offcut_names
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.quick.plainer import few_turns_words, plainer_words
from platewheel.nesting.sawing.cut_lengths import lengths_price
from platewheel.nesting.stock.cutting import LEAST_WEB_MM
from platewheel.nesting.stock.pierce_clear import laid_for_leads, spacing_words
from platewheel.nesting.stock.shared_lines import lines_saved
from platewheel.nesting.stock.small_holes import MarkedHoles, marked_holes, narrow_holes
from platewheel.parts.wheel.assembly import weld_mass_kg, wheel_mass_kg
from platewheel.parts.wheel.hub_tube import tube_words
from platewheel.parts.wheel.part import Part


def wheel_row(job: Job) -> WheelRow:
    """One wheel, its masses and main sizes."""
    spec = job.wheel
    return WheelRow.of(
        spec,
        mass_kg=wheel_mass_kg(spec, disc=job.own_disc),
        weld_mass_kg=weld_mass_kg(spec),
        hub_tube=tube_words(spec),
    )


def part_rows(parts: tuple[Part, ...]) -> list[PartRow]:
    """The parts of one wheel, each with its solid."""
    return [PartRow.of(part, step=f"solids/{part.name}.step") for part in parts]


def blank_rows(job: Job, parts: tuple[Part, ...]) -> list[BlankRow]:
    """All blanks of the job, the user's own and the gauges among them."""
    return [
        BlankRow(
            name=one.blank.name,
            kind=one.blank.kind,
            thickness_mm=one.blank.thickness_mm,
            count=one.count,
            area_mm2=one.blank.area_mm2,
            cut_length_mm=one.blank.cut_length_mm,
            steel=one.steel,
            drawing=one.drawing,
            file=f"blanks/{one.stem}.dxf",
            **dict(one.blank.sizes),
        )
        for one in job_blanks(job, parts)
    ]


def sheet_rows(job: Job, plan: Plan, files: Sequence[str]) -> list[SheetRow]:
    """Each layout with its file, its work and what is kept of it."""
    rows, names = [], offcut_names(plan.kept, job.head.name)
    racks = rack_by_layout(job, plan)
    for layout, file, rack in zip(plan.layouts, files, racks, strict=True):
        sheet = layout.sheet
        work = plate_work(layout, job.cutting, job.cut_speeds, plan.kept, hole_tools(job))
        by_hand = hand_row(job, layout)
        cuts = sheet_cuts(layout, job.cutting)
        placements = [
            PlacementRow(blank=p.blank.name, x_mm=p.x_mm, y_mm=p.y_mm, rotation_deg=p.rotation_deg)
            for p in (part.placement for part in cuts.parts)
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
                cut_length_mm=work.cut_length_mm,
                pierces=None if by_hand else work.pierces,
                rapid_length_mm=None if by_hand else work.rapid_length_mm,
                travels_over_cut_parts=0 if by_hand else cuts.travels_over,
                by_hand=by_hand,
                cutting_minutes=60 * work.hours,
                pierce_minutes=60 * work.pierce_hours,
                travel_minutes=60 * work.travel_hours,
                rack=list(rack),
                placements=placements,
                offcuts=[
                    row
                    for piece, called in zip(plan.kept, names, strict=True)
                    if piece.layout == layout
                    for row in _offcut_rows(piece, called)
                ],
            )
        )
    return rows


def _offcut_rows(piece: Remnant, names: tuple[str, ...]) -> list[OffcutRow]:
    return [
        OffcutRow(
            name=name,
            width_mm=piece.width_mm,
            length_mm=piece.length_mm,
            area_mm2=piece.area_mm2,
            outline=list(piece.corners),
            holes=[list(ring) for ring in piece.holes],
        )
        for name in names
    ]


def nesting_row(job: Job, plan: Plan) -> NestingRow:
    """Sums over all plates: steel, cuts, time, and what found no room."""
    total = scrap(plan.layouts, plan.kept)
    work = cutting_work(plan.layouts, job.cutting, job.cut_speeds, plan.kept, hole_tools(job))
    by_hand = hand_sum(job, plan.layouts)
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
        pierces=None if by_hand else work.pierces,
        rapid_length_mm=None if by_hand else work.rapid_length_mm,
        by_hand=by_hand,
        cutting_hours=work.hours,
        setup_hours=work.setup_hours,
        cutting_price=work.price,
        web_mm=_web_mm(job, plan),
        edge_web_mm=job.cutting.edge_web_mm,
        centre_marked_holes=[MarkedRow.of(holes) for holes in _marked(job, plan)],
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


def _marked(job: Job, plan: Plan) -> tuple[MarkedHoles, ...]:
    """Holes that the laid blanks have as centres alone."""
    laid = {p.blank.name: p.blank for layout in plan.layouts for p in layout.placements}
    drawn = [row.blank for row in job_blanks(job, plan.parts) if row.blank.name in laid]
    changed = [blank for blank in drawn if len(laid[blank.name].holes) < len(blank.holes)]
    return marked_holes(changed, job.cutting)


def _web_mm(job: Job, plan: Plan) -> float:
    """Steel between the kerfs of two neighbours, laid as far apart as their pierces need."""
    thick = {layout.sheet.thickness_mm for layout in plan.layouts}
    each = (laid_for_leads(job.cutting, one).web_mm for one in thick)
    return min(each, default=job.cutting.web_mm)


def cutting_warnings(job: Job, plan: Plan) -> list[str]:
    """What the cutter must know of small holes and narrow webs."""
    laid = {p.blank.name: p.blank for layout in plan.layouts for p in layout.placements}
    lines = [str(holes) for holes in _marked(job, plan)]
    lines += narrow_holes(laid.values(), job.cutting)
    lines += plainer_words(laid.values())
    for thickness in sorted({blank.thickness_mm for blank in laid.values()}):
        names = sorted(name for name, blank in laid.items() if blank.thickness_mm == thickness)
        lines += spacing_words(job.cutting, thickness, names)
        lines += few_turns_words(thickness, len(names))
    count, saved = lines_saved(plan.layouts)
    if count:
        lines.append(
            f"common lines: {count} shared by two parts, {saved / 1000:.1f} m of cut saved"
        )
    web = _web_mm(job, plan)
    torch = job.cutting.process != "hand"
    if laid and torch and web < LEAST_WEB_MM:
        lines.append(
            f"{web_words(web, job.cutting.edge_web_mm)} Less than "
            f"{LEAST_WEB_MM:g} mm burns away; "
            f"part_spacing_mm = {2 * job.cutting.kerf_mm + LEAST_WEB_MM:g} or more lets it stand."
        )
    return lines


def length_rows(job: Job, plan: Plan) -> list[LengthRow]:
    """What is sawn of each bar or pipe."""
    return [
        LengthRow(
            stock=cut.stock.name,
            stock_length_mm=cut.stock.length_mm,
            repeat=cut.repeat,
            pieces=dict(cut.pieces),
            piece_length_mm=plan.tread_length_mm,
            rest_mm=cut.rest_mm,
            rack=list(rack),
        )
        for cut, rack in zip(plan.lengths, rack_by_length(job, plan), strict=True)
    ]
