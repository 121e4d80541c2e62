"""What a wheel would cost before anything is laid: the job's prices over sizes and counts.

The same prices and rates as in the cost of a built job; only the share of a plate that becomes
parts is estimated, and stock counts by its length or area instead of whole.
"""

from __future__ import annotations

from collections.abc import Callable

from platewheel.cli.job.job import Job
from platewheel.nesting.cutting.cut_speed import pace
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.making import quantities
from platewheel.parts.setting.costs import welding_of
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

    def plate(room_mm2: float, mm: float, area_mm2: float, edge_mm: float, pierces: int) -> float:
        one = pace(job.cutting, job.cut_speeds, mm)
        hours = (edge_mm / one.speed_mm_per_min + pierces * one.pierce_s / 60) / 60
        per_h = job.cutting.price_per_h or labour
        return (
            EDGES * room_mm2 * plate_price(job, mm)
            + area_mm2 * dip * mm * DENSITY_KG_MM3
            + hours * per_h
            + edge_mm / 1000 * costs.deburring_minutes_per_m * minute
        )

    def tread(wheel: WheelSpec) -> float:
        kg = quantities.tread_kg(wheel)
        if wheel.tread_from == "sheet":
            size = quantities.tread_plate(wheel)
            room = size[0] + size[1] / 2 * job.cutting.part_spacing_mm
            roll = costs.rolling_minutes * minute
            return plate(room, wheel.tread_thickness_mm, *size) + roll
        rolled = costs.rolling_minutes if wheel.tread_from == "bar" else 0.0
        saw = (costs.sawing_minutes + rolled) * minute
        return length_price(job, wheel) * quantities.tread_length_mm(wheel) + dip * kg + saw

    def discs(wheel: WheelSpec) -> float:
        room = quantities.disc_room_mm2(wheel, job.cutting.part_spacing_mm)
        return 2 * plate(room, wheel.disc_thickness_mm, *quantities.disc_plate(wheel))

    def flange(wheel: WheelSpec) -> float:
        room = quantities.segment_room_mm2(wheel, job.cutting.part_spacing_mm)
        one = plate(room, wheel.flange_thickness_mm, *quantities.segment_plate(wheel))
        formed = costs.forming_minutes if wheel.flange_angle_deg < 90 else 0.0
        return wheel.flange_segments * (one + formed * minute)

    def hub(wheel: WheelSpec) -> float:
        saw = costs.sawing_minutes * minute if wheel.has_tube else 0.0
        return quantities.tube_kg(wheel) * (tube + dip) + saw

    def hands(wheel: WheelSpec) -> float:
        pieces = 2 + int(wheel.has_tube)
        each = pieces * costs.fitting_minutes + costs.truing_minutes + costs.dressing_minutes
        coat = costs.coating_minutes if job.finish.coating != "bare" else 0.0
        return (each + coat + costs.gauging_minutes / 2) * minute

    def tacks(wheel: WheelSpec) -> float:
        return quantities.tacks(wheel) * costs.tacking_minutes * minute

    def beads(kg: Question) -> Question:
        return lambda wheel: kg(wheel) * (bead + dip)

    return {
        "tread": tread,
        "discs": discs,
        "flange": flange,
        "hub": hub,
        "work": hands,
        "tacks": tacks,
        "rim beads": beads(quantities.rim_beads_kg),
        "tube beads": beads(quantities.tube_beads_kg),
        "root bead": beads(quantities.root_bead_kg),
        "seams": beads(quantities.seams_kg),
    }


def plate_price(job: Job, thickness_mm: float) -> float:
    """Of a mm2 of plate: the cheapest sheet of this thickness, else by its mass."""
    rows = [s for s in job.stock if s.thickness_mm == thickness_mm and s.steel == job.wheel.steel]
    priced = [s.price / (s.width_mm * s.length_mm) for s in rows if s.price > 0]
    if priced:
        return min(priced)
    return _per_kg(job) * thickness_mm * DENSITY_KG_MM3


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
