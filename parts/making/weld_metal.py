"""Weld metal of a wheel: deposited, bought as filler, gas over it, and the welder's time."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.setting.costs import Costs, welding_of
from platewheel.parts.wheel.assembly import weld_mass_kg
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import backing_run_mm3


@dataclass(frozen=True)
class WeldMetal:
    """One wheel: kg, arc hours, hours of the welder, m3 of gas (nothing with rods)."""

    deposited_kg: float
    filler_kg: float
    arc_hours: float
    hours: float
    gas_m3: float


def weld_metal(spec: WheelSpec, costs: Costs) -> WeldMetal:
    """Weld metal of one wheel.

    Drawn beads and the root's backing run x (1 + excess); filler = metal / yield; arc hours =
    metal / deposition rate; hours = arc hours / share of the time that the arc burns; gas = arc
    minutes x flow.
    Source: plain proportion; the figures' sources stand at their keys.
    """
    process = welding_of(costs)
    beads = weld_mass_kg(spec) + backing_run_mm3(spec) * DENSITY_KG_MM3
    deposited = beads * (1 + costs.bead_excess_percent / 100)
    arc = deposited / process.deposition_kg_per_h
    return WeldMetal(
        deposited_kg=deposited,
        filler_kg=deposited / (process.yield_percent / 100),
        arc_hours=arc,
        hours=arc / (process.arc_on_percent / 100),
        gas_m3=arc * 60 * costs.gas_l_per_min / 1000 if costs.welding == "wire" else 0.0,
    )
