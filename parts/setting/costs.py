"""Prices and rates of the shop: the job file's costs table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from pydantic import Field

from platewheel.parts.base.spec_model import Spec


def _price(why: str, example: float) -> Any:
    """A price: no default can be defended."""
    return Field(
        None,
        ge=0,
        le=1e6,
        examples=[example],
        description=f"{why}; absent = not priced, and told so",
        json_schema_extra={"takes": "a number"},
    )


def _by_process(why: str, example: float, least: float, most: float) -> Any:
    return Field(
        None,
        gt=least,
        le=most,
        examples=[example],
        description=why,
        json_schema_extra={"takes": "a number"},
    )


def _minutes(default: float, why: str) -> Any:
    return Field(default, ge=0, le=10000, description=f"{why}, common practice, no source)")


class Costs(Spec):
    """What things cost and how long hands take. A price left out is told as not priced."""

    currency: str = Field("", max_length=12, description="printed beside every price")
    labour_price_per_h: float | None = _price("own or paid time; 0 = counted as free", 30.0)
    steel_price_per_kg: float | None = _price(
        "for sheets, bars, pipes and tube without a price of their own", 1.5
    )
    tube_price_per_kg: float | None = Field(
        None,
        ge=0,
        le=1e6,
        examples=[3.0],
        description="hub tube; absent = steel_price_per_kg, and without that not priced",
        json_schema_extra={"takes": "a number"},
    )
    welding: Literal["rod", "wire"] = Field(
        "rod", description="covered rods, or solid wire under gas (default: no gas to buy)"
    )
    filler_price_per_kg: float | None = _price("rods or wire as bought", 4.0)
    bead_excess_percent: float = Field(
        10.0,
        ge=0,
        le=200,
        description="weld metal above the drawn beads (default: crown of a fillet in welding "
        "handbooks' tables, from memory)",
    )
    filler_yield_percent: float | None = _by_process(
        "weld metal out of filler bought; absent = by the process: rod 60 (stubs of 50 mm, slag, "
        "spatter), wire 95; welding handbooks, from memory",
        60.0,
        0,
        100,
    )
    deposition_kg_per_h: float | None = _by_process(
        "weld metal while the arc burns; absent = by the process: rod 1 (3.2 mm at 120 A), wire "
        "2 (1 mm at 5.7 m/min); welding handbooks, from memory",
        1.0,
        0,
        30,
    )
    arc_on_percent: float | None = _by_process(
        "of the welder's time; absent = by the process: rod 20, wire 30 (turning the wheel and "
        "cooling between quadrants); low end of welding handbooks, from memory",
        20.0,
        0,
        100,
    )
    gas_l_per_min: float = Field(
        12.0,
        ge=0,
        le=50,
        description="shielding gas, for wire alone (default: 10 to 12 times the wire's mm, "
        "common practice, no source)",
    )
    gas_price_per_m3: float | None = _price("shielding gas", 12.0)
    galvanizing_price_per_kg: float | None = _price(
        "of steel dipped, zinc included unless zinc has a price of its own", 1.2
    )
    zinc_price_per_kg: float | None = Field(
        None,
        ge=0,
        le=1e6,
        examples=[4.0],
        description="of the zinc on the wheel, where it is charged apart; absent = in the "
        "galvanizer's price",
        json_schema_extra={"takes": "a number"},
    )
    paint_price_per_m2: float | None = _price("of surface, all coats", 4.0)
    bearing_price: float | None = _price("one bearing with its housing, or one bush", 12.0)
    wheel_holding_price: float | None = _price(
        "what holds the two wheels of an axle: keys, set screws", 6.0
    )
    bought_wheel_price: float | None = _price("one bought wheel, to set beside", 120.0)
    deburring_minutes_per_m: float = _minutes(
        1.0, "of cut edge (default: both corners, one pass of the grinder each"
    )
    sawing_minutes: float = _minutes(
        4.0, "each length of bar, pipe or tube (default: clamp, stop, cut, break the burr"
    )
    rolling_minutes: float = _minutes(
        15.0, "each ring (default: press both ends, then ten passes with a look at the curve"
    )
    forming_minutes: float = _minutes(
        8.0, "each flange segment rolled or hammered (default: a dozen generators, three checks"
    )
    fitting_minutes: float = _minutes(
        6.0, "each disc or tube set in its place (default: shims in, inset measured at four points"
    )
    tacking_minutes: float = _minutes(
        0.5, "each tack (default: move, strike, look that nothing has moved"
    )
    truing_minutes: float = _minutes(
        10.0, "each wheel (default: on the mandrel, two readings all round, once put right"
    )
    dressing_minutes: float = _minutes(
        12.0,
        "each wheel (default: seam ground flush, spatter off, tread checked with a straightedge",
    )
    grinding_minutes_per_m: float = _minutes(
        10.0,
        "of weld ground for strength, one face: flange root ground out and flush again, seams "
        "dressed (default: a 4 mm disc for the groove, then a flap disc along the ring",
    )
    coating_minutes: float = _minutes(
        10.0, "each wheel (default: vents looked through, hung or wired, bore cleared afterwards"
    )
    axle_minutes: float = _minutes(
        45.0, "each axle (default: faced, centred, seats turned or two keyways cut, burrs off"
    )
    gauging_minutes: float = _minutes(
        15.0, "each axle (default: back to back at three places, both wheels spun"
    )


@dataclass(frozen=True)
class Welding:
    """How one process turns filler and hours into weld metal."""

    yield_percent: float
    deposition_kg_per_h: float
    arc_on_percent: float


# handbook figures, from memory: covered rods 55 to 65 % with stubs, 0.7 to 1.4 kg/h at 3.2 mm,
# arc burning 20 to 30 %; solid wire 92 to 98 %, 1.5 to 3 kg/h at 1 mm, 30 to 50 %
PROCESSES = {"rod": Welding(60.0, 1.0, 20.0), "wire": Welding(95.0, 2.0, 30.0)}


def welding_of(costs: Costs) -> Welding:
    """Figures of the job's process, each by its key or by the process."""
    usual = PROCESSES[costs.welding]
    return Welding(
        costs.filler_yield_percent or usual.yield_percent,
        costs.deposition_kg_per_h or usual.deposition_kg_per_h,
        costs.arc_on_percent or usual.arc_on_percent,
    )
