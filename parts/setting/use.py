"""How the wheel is used: what the engineering checks ask beyond its shape."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec

MOST_PUSH_N = 20000.0


def _friction(v: Any) -> Iterator[Fault]:
    if not v.friction_low <= v.friction_high:
        yield Fault(
            "friction_low",
            v.friction_low,
            f"at most friction_high, {v.friction_high:g}",
            "0.2 (wet, greasy) to 0.36 (dry)",
        )


class UseSpec(Spec):
    """How far and how hard the wagons run."""

    rules: ClassVar[tuple[Rule, ...]] = (_friction,)

    km_per_year: float = Field(
        500.0, gt=0, le=200000, description="each wagon (default: 2 km on most working days)"
    )
    years: float = Field(
        20.0, gt=0, le=100, description="to last (default: the life of a zinc coating)"
    )
    consequence: Literal["low", "high"] = Field(
        "low",
        description="what a broken wheel or axle does: low = a goods wagon stops or leaves the "
        "rails at walking pace; high = it could hurt someone, as where people ride, on falling "
        "track or at speed; sets the factor on fatigue (default: goods, pushed by hand, looked "
        "over each season)",
    )
    wear_allowance_mm: float = Field(
        1.0, ge=0, le=20, description="off the tread before a wheel is scrapped"
    )
    flange_wear_mm: float | None = Field(
        None,
        ge=0,
        le=20,
        examples=[2.0],
        description="off the flange's rail-side face, along the axle, before a wheel is scrapped; "
        "absent = as deep as the tread's allowance",
        json_schema_extra={"takes": "a number"},
    )
    lateral_share: float | None = Field(
        None,
        ge=0,
        le=3,
        examples=[0.7],
        description="push on the leading outer flange over the mean wheel load in the tightest "
        "curve, measured at a walk (speed's part is added); absent = worked out from curve, "
        "wheelbase, play and friction",
        json_schema_extra={"takes": "a number"},
    )
    loaded_share: float = Field(
        0.5,
        ge=0,
        le=1,
        description="of the way run loaded (default: out full, back empty)",
    )
    friction_low: float = Field(
        0.2, gt=0, le=1, description="wheel on rail, wet or greasy (default: common practice)"
    )
    friction_high: float = Field(
        0.36,
        gt=0,
        le=1,
        description="wheel on rail, dry (default: what the limit 1.2 of EN 14363 for a 70 degree "
        "flange stands for; clean dry rails have been measured to 0.5)",
    )
    push_force_n: float = Field(
        400.0, gt=0, le=MOST_PUSH_N, description="to start and to pass joints (default: two people)"
    )
