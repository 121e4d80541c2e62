"""What a wheel would cost before anything is laid: the job's prices over sizes and counts.

The same prices and rates as in the cost of a built job; only the share of a plate that becomes
parts is estimated, and stock counts by its length or area instead of whole.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import setup_price
from platewheel.nesting.cutting.cut_speed import pace
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.making import quantities
from platewheel.parts.setting.costs import welding_of
from platewheel.parts.wheel.kinds import KINDS, kinds_of
from platewheel.parts.wheel.part import Cut, PartKind
from platewheel.parts.wheel.spec import WheelSpec

Question = Callable[[WheelSpec], float]
EDGES = 1.12  # plate taken over the cells of its parts: margins and ends; from nests of our own
DEFAULT_PRICE = 1.0  # a kg, where nothing at all is priced: wheels then rank by their steel


def estimate_parts(job: Job) -> dict[str, Question]:
    """Parts of a wheel's cost, each a question that reads as little of the wheel as it can."""
    costs, labour = job.costs, job.costs.labour_price_per_h or 0.0
    minute = labour / 60
    dip = (costs.galvanizing_price_per_kg or 0.0) if job.finish.coating == "galvanized" else 0.0
    process = welding_of(costs)
    gas = costs.gas_l_per_min * 0.06 if costs.welding == "wire" else 0.0
    bead = (1 + costs.bead_excess_percent / 100) * (
        (costs.filler_price_per_kg or 0.0) / (process.yield_percent / 100)
        + gas * (costs.gas_price_per_m3 or 0.0) / process.deposition_kg_per_h
        + labour / process.deposition_kg_per_h / (process.arc_on_percent / 100)
    )
    tube = costs.tube_price_per_kg
    tube = (costs.steel_price_per_kg or 0.0) if tube is None else tube

    def plate(room_mm2: float, mm: float, cut: Cut) -> float:
        one = pace(job.cutting, job.cut_speeds, mm)
        hours = (cut.edge_mm / one.speed_mm_per_min + cut.pierces * one.pierce_s / 60) / 60
        per_h = job.cutting.price_per_h or labour
        return (
            EDGES * room_mm2 * (plate_price(job, mm) + setup_share(job, mm))
            + cut.area_mm2 * dip * mm * DENSITY_KG_MM3
            + hours * per_h
            + cut.edge_mm / 1000 * costs.deburring_minutes_per_m * minute
        )

    def formed_minutes(kind: PartKind, wheel: WheelSpec) -> float:
        forming = kind.forming(wheel)
        return float(getattr(costs, forming.minutes_key)) if forming else 0.0

    def of_kind(kind: PartKind, wheel: WheelSpec) -> float:
        if not kind.there(wheel):
            return 0.0
        source = kind.cut_from(wheel)
        if source == "sheet":
            assert kind.cut is not None
            cut = kind.cut(wheel)
            room = cut.room_mm2(job.cutting.spacing_in(kind.thickness_mm(wheel)))
            one = plate(room, kind.thickness_mm(wheel), cut)
            return cut.count * (one + formed_minutes(kind, wheel) * minute)
        if source == "tube":
            return quantities.tube_kg(wheel) * (tube + dip) + costs.sawing_minutes * minute
        work = (costs.sawing_minutes + formed_minutes(kind, wheel)) * minute
        price = length_price(job, wheel) * quantities.tread_length_mm(wheel)
        return price + dip * quantities.tread_kg(wheel) + work

    def hands(wheel: WheelSpec) -> float:
        pieces = sum(kind.fitted for kind in kinds_of(wheel))
        each = pieces * costs.fitting_minutes + costs.truing_minutes + costs.dressing_minutes
        coat = costs.coating_minutes if job.finish.coating != "bare" else 0.0
        return (each + coat + costs.gauging_minutes / 2) * minute

    def tacks(wheel: WheelSpec) -> float:
        return quantities.tacks(wheel) * costs.tacking_minutes * minute

    def ground(wheel: WheelSpec) -> float:
        return quantities.ground_m(wheel) * costs.grinding_minutes_per_m * minute

    def backing(wheel: WheelSpec) -> float:  # no heavier to dip: it takes the place of steel
        return quantities.backing_run_kg(wheel) * bead

    def beads(kg: Question) -> Question:
        return lambda wheel: kg(wheel) * (bead + dip)

    return {
        **{kind.name: partial(of_kind, kind) for kind in KINDS},
        "work": hands,
        "tacks": tacks,
        "rim beads": beads(quantities.rim_beads_kg),
        "tube beads": beads(quantities.tube_beads_kg),
        "root bead": beads(quantities.root_bead_kg),
        "seams": beads(quantities.seams_kg),
        "inside beads": beads(quantities.inside_beads_kg),
        "root backing": backing,
        "grinding": ground,
    }


def plate_price(job: Job, thickness_mm: float) -> float:
    """Of a mm2 of plate: the cheapest sheet of this thickness, else by its mass."""
    rows = [s for s in job.stock if s.thickness_mm == thickness_mm and s.steel == job.wheel.steel]
    priced = [s.price / (s.width_mm * s.length_mm) for s in rows if s.price > 0]
    if priced:
        return min(priced)
    return _per_kg(job) * thickness_mm * DENSITY_KG_MM3


def setup_share(job: Job, thickness_mm: float) -> float:
    """Of setting up, for a mm2 of the largest plate of this thickness, wholly used."""
    rows = [s for s in job.stock if s.thickness_mm == thickness_mm and s.steel == job.wheel.steel]
    areas = [s.width_mm * s.length_mm for s in rows]
    return setup_price(job) / max(areas) if areas else 0.0


def length_price(job: Job, wheel: WheelSpec) -> float:
    """Of a mm of the bar or pipe that this wheel's tread is made of."""
    size = wheel.tread_width_mm if wheel.tread_from == "bar" else wheel.tread_diameter_mm
    wanted = (size, wheel.tread_thickness_mm)
    bars = [((b.width_mm, b.thickness_mm), b.price / b.length_mm) for b in job.bars]
    pipes = [((p.outside_mm, p.wall_mm), p.price / p.length_mm) for p in job.pipes]
    rows = bars if wheel.tread_from == "bar" else pipes
    priced = [price for section, price in rows if section == wanted and price > 0]
    if priced:
        return min(priced)
    return _per_kg(job) * quantities.tread_kg(wheel) / quantities.tread_length_mm(wheel)


def _per_kg(job: Job) -> float:
    price = job.costs.steel_price_per_kg
    if price is None:
        return 0.0 if anything_priced(job) else DEFAULT_PRICE
    return price


def anything_priced(job: Job) -> bool:
    """Whether any price is given: without one wheels rank by the steel they take."""
    rows = [row.price for row in job.stock]
    rows += [row.price for row in job.bars] + [row.price for row in job.pipes]
    prices = (job.costs.steel_price_per_kg, job.costs.labour_price_per_h, job.cutting.price_per_h)
    return any(rows) or any(prices)
