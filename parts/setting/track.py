"""Track and finish as numbers: what the wheel must run on and withstand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec


def _head(v: Any) -> Iterator[Fault]:
    if v.rail_corner_radius_mm and not v.rail_corner_radius_mm <= v.rail_head_width_mm / 2:
        yield Fault(
            "rail_corner_radius_mm",
            v.rail_corner_radius_mm,
            f"at most half the rail head, {v.rail_head_width_mm / 2:g} mm",
            "measure the rounding of the rail head's corner",
        )


class TrackSpec(Spec):
    """The track that the wheel runs on."""

    rules: ClassVar[tuple[Rule, ...]] = (_head,)

    gauge_mm: float = Field(
        ge=100, le=2000, examples=[457.0], description="between the rail heads, inside"
    )
    rail_head_width_mm: float = Field(
        ge=3, le=100, examples=[25.0], description="width that the tread can run on"
    )
    rail_head_radius_mm: float = Field(
        0.0, ge=0, le=1000, description="crown of the rail head; 0 = flat top (default: flat bar)"
    )
    rail_corner_radius_mm: float = Field(
        3.0,
        ge=0,
        le=30,
        description="rounding of the head's inner corner (default: rolled flat bar)",
    )
    min_curve_radius_m: float = Field(
        ge=1, le=10000, examples=[12.0], description="tightest curve, track centre line"
    )
    gauge_widening_mm: float = Field(
        0.0, ge=0, le=60, description="added to the gauge in that curve"
    )
    twist_mm_per_m: float = Field(
        5.0,
        ge=0,
        le=100,
        description="change of cross-level along the track (default: rough hand-laid track, "
        "common practice, no source)",
    )
    joint_step_mm: float = Field(
        1.0, ge=0, le=20, description="height step at rail joints (default: filed joints)"
    )
    flangeway_mm: float = Field(
        32.0, ge=5, le=100, description="gap for the flange at check rails and crossings"
    )
    check_rail_flangeway_mm: float | None = Field(
        None,
        ge=5,
        le=100,
        examples=[20.0],
        description="gap at check rails opposite crossings; absent = no guarded crossings",
        json_schema_extra={"takes": "a number"},
    )
    flangeway_depth_mm: float | None = Field(
        None,
        ge=5,
        le=200,
        examples=[30.0],
        description="rail top to the bottom of the flangeway; absent = not known, not checked",
        json_schema_extra={"takes": "a number"},
    )
    joint_gap_mm: float = Field(
        5.0, ge=0, le=60, description="gap between rail ends (default: room to expand)"
    )
    joints_per_km: float = Field(
        200.0, ge=0, le=2000, description="rail joints in each rail (default: rails of 5 m)"
    )
    stiffness_n_per_mm: float = Field(
        5000.0,
        gt=0,
        le=1e6,
        description="wheel load over sinking of the rail under it, away from joints (default: rail "
        "of 7 kg/m on sleepers every half metre on soft ground; a beam on an elastic bed)",
    )
    contact_stiffness_n_per_mm: float = Field(
        500000.0,
        gt=0,
        le=1e8,
        description="of wheel against rail, linear (default: Hertz, some 5 kN on a small wheel)",
    )
    cant_mm: float = Field(0.0, ge=0, le=200, description="outer rail raised in the tightest curve")
    steepest_gradient_percent: float = Field(
        0.0,
        ge=0,
        le=25,
        description="steepest slope along the track, rise in 100 (default: laid level; measure "
        "yours, wagons roll away on less than the eye sees)",
    )


class FinishSpec(Spec):
    """What keeps the rust off."""

    coating: Literal["galvanized", "painted", "bare"] = Field(
        "galvanized",
        description="hot-dip galvanized, painted, or left bare (default: the "
        "strictest on vent holes)",
    )
    site: Literal["inland", "coast"] = Field(
        "inland", description="where the wheels live; by the sea zinc goes four times as fast"
    )
    bore: Literal["plugged", "reamed", "unknown"] = Field(
        "unknown",
        description="how the hub bore is cleared of zinc: plugged in the bath, or reamed after it",
    )
    corrosion_mm: float | None = Field(
        None,
        ge=0,
        le=10,
        examples=[0.3],
        description="steel lost on each face over the years, which the load rating leaves off; "
        "absent = 0 under zinc or paint, which you renew, and bare by the site: 0.28 mm inland "
        "and 1.1 mm on the coast in 20 years (ISO 9223 and 9224, upper ends)",
        json_schema_extra={"takes": "a number"},
    )
