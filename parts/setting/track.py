"""Track, wagon and finish as numbers: what the wheel must run on, carry and withstand."""

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
    cant_mm: float = Field(0.0, ge=0, le=200, description="outer rail raised in the tightest curve")
    steepest_gradient_percent: float = Field(
        0.0,
        ge=0,
        le=25,
        description="steepest slope along the track, rise in 100 (default: laid level; measure "
        "yours, wagons roll away on less than the eye sees)",
    )


class WagonSpec(Spec):
    """The wagon that the wheel carries."""

    tare_kg: float = Field(gt=0, le=50000, examples=[180.0], description="empty wagon")
    payload_kg: float = Field(ge=0, le=100000, examples=[250.0], description="most that is loaded")
    axles: int = Field(2, ge=1, le=8, description="of two wheels each (default: four-wheeler)")
    wheelbase_mm: float = Field(
        ge=100, le=10000, examples=[700.0], description="between the outer axles"
    )
    max_speed_km_h: float = Field(
        8.0, gt=0, le=60, description="fastest it is allowed to run (default: a quick walk)"
    )
    load_unevenness: float = Field(
        1.25, ge=1, le=4, description="heaviest wheel over mean wheel load"
    )
    shock_factor: float = Field(1.5, ge=1, le=5, description="dynamic over static wheel load")
    centre_of_gravity_mm: float | None = Field(
        None,
        gt=0,
        le=3000,
        examples=[600.0],
        description="height above the rail, loaded; absent = not known, overturning not checked",
        json_schema_extra={"takes": "a number"},
    )
    suspension: Literal["rigid", "three-point", "sprung"] = Field(
        "rigid", description="how the axles follow a twisted track (default: no springs)"
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
