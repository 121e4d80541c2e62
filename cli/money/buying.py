"""The buying list: every thing and service that the job pays for, with mass and price."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import Size, rack_names, tread_section
from platewheel.cli.job.plan import Plan
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.money.buying_axle import axle_rows
from platewheel.cli.money.buying_row import TubeCut, buy_row, by_key, of_stock, stock_rows, tube_row
from platewheel.cli.money.order_words import OF_WELDING, standard_words, stock_words
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.schema.shop import BuyKind, BuyRow
from platewheel.nesting.stock.layout import Layout, Sheet
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.checks.galvanizing.coating import coated_area_mm2, zinc_mass_kg
from platewheel.parts.making.figures import tread_stock_kg
from platewheel.parts.making.weld_metal import weld_metal
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.kinds import kind_of

Rack = dict[Size, list[str]]  # names on the rack
NOT_OF_WHEEL = ("extra", "gauge")  # kinds of blank
FILLER = {"rod": "covered rods", "wire": "solid wire"}


def buying_rows(job: Job, plan: Plan, nesting: NestingRow) -> list[BuyRow]:
    """Lines of the list, for all wheels, the user's own parts and the gauges together."""
    rack = rack_names(job, plan)
    return [
        *_sheets(job, plan, rack),
        *_lengths(job, plan, rack),
        *_tubes(job, plan),
        *_cutting(job, plan, nesting),
        *_welding(job),
        *_coating(job),
        *_axles(job, rack),
    ]


def _axles(job: Job, rack: Rack) -> Iterator[BuyRow]:
    made = job_wheelset(job).wheelset
    if made is not None:
        yield from axle_rows(job, made, rack)


def wheel_share(layout: Layout) -> float:
    """Area of the wheels' blanks over that of all parts on a plate."""
    parts = [(p.blank.kind, p.blank.area_mm2) for p in layout.placements]
    own = sum(area for kind, area in parts if kind in NOT_OF_WHEEL)
    return 1 - own / sum(area for _, area in parts)


def cutting_share(layouts: Sequence[Layout]) -> float:
    """The same over all plates."""
    area = sum(one.parts_area_mm2 * one.repeat for one in layouts)
    own = sum(wheel_share(one) * one.parts_area_mm2 * one.repeat for one in layouts)
    return own / area


def _sheets(job: Job, plan: Plan, rack: Rack) -> Iterator[BuyRow]:
    alike: dict[tuple[str, float, str, float, bool], list[Layout]] = {}
    for layout in plan.layouts:
        sheet = layout.sheet
        key = (sheet.name, sheet.thickness_mm, sheet.steel, sheet.price, sheet.is_offcut)
        alike.setdefault(key, []).append(layout)
    for layouts in alike.values():
        sheet, count = layouts[0].sheet, sum(layout.repeat for layout in layouts)
        mass = sheet.area_mm2 * sheet.thickness_mm * DENSITY_KG_MM3
        share = sum(wheel_share(one) * one.repeat for one in layouts) / count
        price, says = of_stock(sheet.price, mass, job.costs, "stock")
        if sheet.is_offcut:
            price, says = 0.0, "to hand, nothing to pay"
        size = ("plate", sheet.length_mm, sheet.steel, sheet.thickness_mm, sheet.width_mm)
        names = [] if sheet.is_offcut else rack.get(size, [])
        standard = standard_words("sheet", sheet.steel)
        row = (_sheet_words(sheet), count, (price, says), names, mass, share)
        yield from stock_rows("sheet", *row, standard=standard)


def _sheet_words(sheet: Sheet) -> str:
    kind = f"offcut {sheet.name}" if sheet.is_offcut else f"plate {sheet.name}"
    return f"{kind} x {sheet.thickness_mm:g} mm, {sheet.steel}"


def _lengths(job: Job, plan: Plan, rack: Rack) -> Iterator[BuyRow]:
    kind: BuyKind = "bar" if job.wheel.tread_from == "bar" else "pipe"
    wheel = job.wheel
    counts: dict[tuple[str, float, float], int] = {}
    for cut in plan.lengths:
        key = (cut.stock.name, cut.stock.length_mm, cut.stock.price)
        counts[key] = counts.get(key, 0) + cut.repeat
    for (name, length, price), count in counts.items():
        mass = tread_stock_kg(wheel, length)
        words = f"{name} mm, {length:g} mm long, {wheel.steel}"
        names = rack.get((kind, length, *tread_section(wheel)), [])
        paid = of_stock(price, mass, job.costs, kind)
        bore = wheel.tread_diameter_mm - 2 * wheel.tread_thickness_mm
        yield from stock_rows(
            kind,
            words,
            count,
            paid,
            names,
            mass,
            standard=standard_words(kind, wheel.steel),
            length_mm=length,
            stock=stock_words(wheel.tread_diameter_mm, bore) if kind == "pipe" else "",
        )


def _tubes(job: Job, plan: Plan) -> Iterator[BuyRow]:
    wheels, wheel = job.head.wheels, job.wheel
    for part in plan.parts:
        kind = kind_of(part.name)
        if part.cut_from == "tube" and kind and kind.stock_words:
            cut = TubeCut(
                steel=part.steel,
                outside_mm=wheel.hub_tube_outside_mm,
                bore_mm=wheel.hub_bore_mm,
                mass_kg=part.mass_kg * wheels,
                metres=wheels * (wheel.hub_tube_length_mm + job.cutting.kerf_mm) / 1000,
            )
            words = f"{kind.title}, {wheels} off {kind.stock_words(wheel)}"
            yield tube_row("tube", words, cut, job.costs, more="; saw cuts not counted")


def _cutting(job: Job, plan: Plan, nesting: NestingRow) -> Iterator[BuyRow]:
    if not nesting.cutting_hours:
        return
    price = job.cutting.price_per_h or None
    says = (
        "cutting.price_per_h: machine, operator, gas or electricity"
        if price
        else "not priced: set cutting.price_per_h (machine, gas or electricity); "
        "until then the cutter's hours count as labour"
    )
    words = f"{job.cutting.process} cutting, {nesting.cut_length_mm / 1000:.1f} m of cut"
    if nesting.setup_hours:
        words += f", and setting up {so_many(nesting.sheets_used, 'plate')}"
    share = cutting_share(plan.layouts)
    hours = nesting.cutting_hours + nesting.setup_hours
    yield buy_row("cutting", words, hours, "h", price, says, wheel_share=share)


def _welding(job: Job) -> Iterator[BuyRow]:
    costs, wheels = job.costs, job.head.wheels
    metal = weld_metal(job.wheel, costs)
    filler, gas = metal.filler_kg * wheels, metal.gas_m3 * wheels
    beads = f"; {metal.deposited_kg * wheels:.1f} kg of it end in the beads"
    paid = by_key(costs.filler_price_per_kg, "costs.filler_price_per_kg", beads)
    name, standard = FILLER[costs.welding], OF_WELDING[costs.welding]
    yield buy_row("filler", name, filler, "kg", *paid, mass_kg=filler, standard=standard)
    if costs.welding == "wire":
        paid = by_key(costs.gas_price_per_m3, "costs.gas_price_per_m3")
        yield buy_row("gas", "shielding gas", gas, "m3", *paid, standard=OF_WELDING["gas"])


def _coating(job: Job) -> Iterator[BuyRow]:
    costs, wheels, coating = job.costs, job.head.wheels, job.finish.coating
    if coating == "galvanized":
        steel = wheel_mass_kg(job.wheel, disc=job.own_disc) * wheels
        zinc = zinc_mass_kg(job.wheel, job.own_disc) * wheels
        key = "costs.galvanizing_price_per_kg"
        paid = by_key(costs.galvanizing_price_per_kg, key, ", of steel dipped")
        yield buy_row("galvanizing", "hot-dip galvanizing", steel, "kg", *paid)
        apart, says = by_key(costs.zinc_price_per_kg, "costs.zinc_price_per_kg")
        if apart is None and paid[0] is not None:
            apart, says = 0.0, "in the galvanizer's price"
        elif apart is None:
            says = f"not priced: in the galvanizer's price, {key}"
        yield buy_row("zinc", "zinc, at least", zinc, "kg", apart, says, mass_kg=zinc)
    elif coating == "painted":
        area = coated_area_mm2(job.wheel, job.own_disc) * 1e-6 * wheels
        more = ", inside of the box too"
        paid = by_key(costs.paint_price_per_m2, "costs.paint_price_per_m2", more)
        yield buy_row("paint", "paint, all coats", area, "m2", *paid)
