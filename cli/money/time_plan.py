"""The time plan: each kind of work by its count and the job file's rate."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.job.axles import axles_of
from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import Plan
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.money.axle_cost import AXLE_WORK
from platewheel.cli.money.buying import cutting_share
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.schema.shop import TimePlanRow, TimeRow
from platewheel.parts.making.quantities import ground_m
from platewheel.parts.making.tacks import tacks_of
from platewheel.parts.making.weld_metal import weld_metal
from platewheel.parts.setting.costs import welding_of
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheel.spec import WheelSpec


def time_plan(job: Job, plan: Plan, nesting: NestingRow) -> TimePlanRow:
    """Works in order, for all wheels; cutting has the user's own parts and gauges in it too."""
    costs, wheel, wheels = job.costs, job.wheel, job.head.wheels
    kinds = kinds_of(wheel)
    sawn = sum(kind.cut_from(wheel) != "sheet" for kind in kinds) * wheels
    edge_m = _cut_edge_m(plan) * wheels
    fitted = sum(kind.fitted for kind in kinds)
    axles = 0 if job_wheelset(job).wheelset is None else axles_of(job)
    counted = [
        ("sawing to length", sawn, "lengths", "sawing_minutes"),
        ("deburring", edge_m, "m of edge", "deburring_minutes_per_m"),
        *_formed(wheel, wheels),
        ("fitting discs and tubes", fitted * wheels, "pieces", "fitting_minutes"),
        ("tacking", tacks_of(wheel).all * wheels, "tacks", "tacking_minutes"),
        ("truing", wheels, "wheels", "truing_minutes"),
        ("welding", wheels, "wheels", ""),
        (
            "grinding root and seams",
            round(ground_m(wheel) * wheels, 3),
            "m of weld",
            "grinding_minutes_per_m",
        ),
        ("dressing the tread", wheels, "wheels", "dressing_minutes"),
        ("coating", wheels if job.finish.coating != "bare" else 0, "wheels", "coating_minutes"),
        (AXLE_WORK, axles, "axles", "axle_minutes"),
        ("gauging", axles_of(job), "axles", "gauging_minutes"),
    ]
    works = []
    if nesting.cutting_hours:
        plates = nesting.sheets_used
        hours = nesting.cutting_hours
        works.append(
            TimeRow(
                work=f"cutting plates, {job.cutting.process}",
                quantity=plates,
                unit="plates",
                minutes_each=60 * hours / plates,
                hours=hours,
                wheel_share=cutting_share(plan.layouts),
                labour=not job.cutting.price_per_h,
                rate=_cutting_rate(job),
            )
        )
    if nesting.setup_hours:
        works.append(
            TimeRow(
                work="setting up plates",
                quantity=nesting.sheets_used,
                unit="plates",
                minutes_each=job.cutting.setup_minutes,
                hours=nesting.setup_hours,
                wheel_share=cutting_share(plan.layouts),
                labour=not job.cutting.price_per_h,
                rate="cutting.setup_minutes",
            )
        )
    process = welding_of(costs)
    for work, quantity, unit, key in counted:
        if not quantity:
            continue
        if key:
            minutes, rate = getattr(costs, key), f"costs.{key}"
        else:
            minutes = 60 * weld_metal(wheel, costs).hours
            rate = (
                f"{process.deposition_kg_per_h:g} kg/h while the arc burns, "
                f"{process.arc_on_percent:g} % of the time"
            )
        works.append(
            TimeRow(
                work=work,
                quantity=quantity,
                unit=unit,
                minutes_each=minutes,
                hours=minutes * quantity / 60,
                wheel_share=0.0 if work == AXLE_WORK else 1.0,
                labour=True,
                rate=rate,
            )
        )
    hours = sum(row.hours for row in works)
    return TimePlanRow(works=works, hours=hours, hours_per_wheel=hours / wheels)


def _formed(wheel: WheelSpec, wheels: int) -> Iterator[tuple[str, int, str, str]]:
    """Parts that are rolled or hammered to their shape, kind by kind."""
    for kind in kinds_of(wheel):
        forming = kind.forming(wheel)
        if forming:
            pieces = sum(part.count_per_wheel for part in kind.parts(wheel))
            yield forming.work, pieces * wheels, forming.unit, forming.minutes_key


def _cutting_rate(job: Job) -> str:
    """By what the hours of cutting are reckoned."""
    if job.cutting.process == "hand":
        speed = "[[cut_speed]]" if job.cut_speeds else "cutting.cut_speed_mm_per_min or 800 mm2/min"
        return f"straight by {speed}, round at half of it, holes by the piece"
    words = "cutting speed, pierces and travel of [cutting]"
    own = [row for row in job.cut_speeds if row.process == job.cutting.process]
    if any(row.hole_up_to_mm for row in own):
        return f"{words}; speeds and pierces by [[cut_speed]], slower in round holes"
    return words


def _cut_edge_m(plan: Plan) -> float:
    """Cut edge of one wheel's blanks, metres; a bar's ends count with its sawing."""
    sheet = {p.blank.name for layout in plan.layouts for p in layout.placements}
    return sum(
        part.blank.cut_length_mm * part.count_per_wheel / 1000
        for part in plan.parts
        if part.blank and part.name in sheet
    )
