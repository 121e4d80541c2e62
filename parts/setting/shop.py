"""The workshop: what it rolls and welds with, and the tools it has, as the job file says.

Each tool is a plain question; its default is a shop that has it, so that a job which does not
answer is built as it is drawn.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from platewheel.parts.base.spec_model import Spec
from platewheel.parts.wheel.stock_thickness import ThicknessTolerance

HoleSaws = Annotated[
    tuple[Annotated[float, Field(strict=True, gt=0, le=300)], ...], Field(strict=False)
]


class ShopSpec(Spec):
    """What the workshop can do."""

    roll_diameter_mm: float = Field(
        80.0, gt=0, le=1000, description="top roll of the plate roller (default: a small one)"
    )
    roll_most_thickness_mm: float = Field(
        8.0,
        gt=0,
        le=100,
        description="thickest plate it rolls (default: a small roller)",
    )
    prebend: bool = Field(
        True, description="the strip's ends are hammered or pressed to the curve before rolling"
    )
    weld_reach_mm: float = Field(
        25.0, gt=0, le=300, description="torch nozzle's outside diameter, for access"
    )
    lathe: bool = Field(
        True,
        description="turns axles, hubs and collars to a fit (default: shoulders and press fits ask "
        "for one; without it an axle is bright bar as bought)",
    )
    drill_press: bool = Field(
        True,
        description="drills square to the plate (default: set screws and collars ask for it; "
        "without it holes are drilled by hand along a guide block)",
    )
    press_t: float = Field(
        10.0,
        ge=0,
        le=500,
        description="what the shop press gives, 0 = no press (default: a usual hydraulic bench "
        "press; 1 t is 9.81 kN)",
    )
    keyway_cutter: bool = Field(
        True,
        description="cuts keyways: broach for the hub, mill or shaper for the axle (default: "
        "axle.retention is a key where it is left out)",
    )
    reamer: bool = Field(
        True,
        description="of the hub's bore, or a lathe that bores it (default: the wheelset's fits are "
        "H7 and H8)",
    )
    measures_with: Literal["micrometer", "caliper"] = Field(
        "micrometer",
        description="finest tool for a bore or an axle; a caliper tells 0.05 mm, so fits are then "
        "tried with a piece of the axle's bar and a feeler (default: limits of a fit are told in "
        "thousandths)",
    )
    welder_most_a: float | None = Field(
        None,
        ge=20,
        le=1000,
        examples=[140.0],
        description="largest current of the welder; absent = enough for each bead in the runs "
        "drawn (costs.welding says whether rods or wire)",
        json_schema_extra={"takes": "a number"},
    )
    hole_saws_mm: HoleSaws | None = Field(
        None,
        examples=[[16.0, 57.0]],
        description="hole saws to hand, for cutting by hand; absent = none",
        json_schema_extra={"takes": "a list of diameters, such as [16, 57], above 0 up to 300"},
    )
    most_drill_mm: float = Field(
        13.0,
        ge=13,
        le=50,
        description="largest twist drill that the machine takes, for cutting by hand (default: the "
        "chuck of a hand drill or light press)",
    )
    thickness_tolerance: ThicknessTolerance = Field(
        "by standard",
        description="the thinnest that the load rating takes steel for: by standard = sheet by "
        "EN 10029, class A, flat bar by EN 10058, pipe and tube an eighth less; coil = sheet "
        "levelled and cut from coil, EN 10051; nominal = measured, none thinner than written "
        "here (default: what a dealer may deliver)",
    )
