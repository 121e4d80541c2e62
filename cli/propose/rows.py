"""Rows of a proposal's report: what was traded, flare against climbing."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.propose.played import beside
from platewheel.cli.schema.propose import FlareRow, TradeRow
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.result import worst_first
from platewheel.parts.checks.run import RUNNING
from platewheel.parts.checks.running.climb import flange_climb
from platewheel.parts.checks.running.curve import curve_room
from platewheel.parts.propose.choices import ANGLES_DEG
from platewheel.parts.propose.rate_until_known import Found


def trade_rows(found: Found) -> list[TradeRow]:
    """Every wheel analysed that passes all other checks, cheapest first."""
    pairs = sorted(
        (
            (row, load)
            for row, load, passes in zip(found.rows, found.loads_n, found.passes, strict=True)
            if passes
        ),
        key=lambda pair: (found.cost[pair[0]], -pair[1]),
    )
    rows, strongest = [], 0.0
    for row, load in pairs:
        if not load:
            continue
        values = found.wheels.values(row)
        rows.append(
            TradeRow(
                cost_estimate=float(found.cost[row]),
                rated_n=load,
                tread_diameter_mm=values["tread_diameter_mm"],
                tread_thickness_mm=values["tread_thickness_mm"],
                disc_thickness_mm=values["disc_thickness_mm"],
                best=load > strongest,
            )
        )
        strongest = max(strongest, load)
    return rows


def flare_rows(job: Job) -> list[FlareRow]:
    """The job's wheel with other flange angles: room in the curve against safety from climbing,
    and the worst of the checks of running that hang on the angle."""
    ones = [
        beside(job, unchecked(job.wheel, {"flange_angle_deg": angle})).setting
        for angle in ANGLES_DEG
    ]
    asked = [[check(one) for one in ones] for check in RUNNING]
    hang = [
        found for found in asked if len({(r.value, r.verdict) if r else None for r in found}) > 1
    ]
    rows = []
    for k, (angle, one) in enumerate(zip(ANGLES_DEG, ones, strict=True)):
        results = [result for found in hang if (result := found[k]) is not None]
        climb, room = flange_climb(one), curve_room(one)
        rows.append(
            FlareRow(
                flange_angle_deg=angle,
                climb=(climb.margin if climb else None) or 0.0,
                room=(room.margin if room else None) or 0.0,
                verdict=worst_first(results)[0].verdict if results else "pass",
            )
        )
    return rows
