"""The wagon as numbers: what a wheel carries, and how it may follow the track."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec


def _springs(v: Any) -> Iterator[Fault]:
    if v.spring_sag_mm is not None and v.suspension != "sprung":
        yield Fault(
            "spring_sag_mm",
            v.spring_sag_mm,
            f'nothing with suspension = "{v.suspension}"',
            'suspension = "sprung", or remove it',
        )


def _unsprung(v: Any) -> Iterator[Fault]:
    share = (v.tare_kg + v.payload_kg) / (2 * v.axles)
    if v.unsprung_kg is not None and v.unsprung_kg > share:
        yield Fault(
            "unsprung_kg",
            v.unsprung_kg,
            f"up to a wheel's share of the loaded wagon, {share:g} kg",
            "the wheel, half its axle, and what of frame and load moves with them",
        )


class WagonSpec(Spec):
    """The wagon that the wheel carries."""

    rules: ClassVar[tuple[Rule, ...]] = (_springs, _unsprung)

    tare_kg: float = Field(gt=0, le=50000, examples=[180.0], description="empty wagon")
    payload_kg: float = Field(ge=0, le=100000, examples=[250.0], description="most that is loaded")
    axles: int = Field(2, ge=1, le=8, description="of two wheels each (default: four-wheeler)")
    wheelbase_mm: float = Field(
        ge=100, le=10000, examples=[700.0], description="between the outer axles"
    )
    max_speed_km_h: float = Field(
        8.0, gt=0, le=60, description="fastest it is allowed to run (default: a quick walk)"
    )
    load_placing: float = Field(
        1.1,
        ge=1,
        le=2,
        description="heaviest over mean wheel load on level track, by how the load lies (default: "
        "one side 1.25 times the other, the most of loading guidelines for railway wagons, from "
        "memory)",
    )
    load_unevenness: float | None = Field(
        None,
        ge=1,
        le=4,
        examples=[1.5],
        description="heaviest wheel over mean wheel load, measured; absent = worked out from how "
        "the load lies, speed, cant, slope, twist, joint step, suspension and frame",
        json_schema_extra={"takes": "a number"},
    )
    shock_factor: float | None = Field(
        None,
        ge=1,
        le=20,
        examples=[2.0],
        description="wheel load at a rail joint over the heaviest at rest, measured; absent = "
        "worked out from step, gap, speed, wheel, mass and stiffness",
        json_schema_extra={"takes": "a number"},
    )
    frame_torsion_kn_m2: float = Field(
        20.0,
        gt=0,
        le=1e6,
        description="torsional stiffness of the frame: moment in kN m that twists it by a radian a "
        "metre (default: two sills of 100 x 100 mm timber, nothing counted for cross-members and "
        "joints; channels give less, closed steel tubes ten times as much: measure it by lifting "
        "one corner)",
    )
    spring_sag_mm: float | None = Field(
        None,
        gt=0,
        le=200,
        examples=[15.0],
        description="how far the loaded wagon sinks on its springs; absent = 15 where it is sprung",
        json_schema_extra={"takes": "a number"},
    )
    unsprung_kg: float | None = Field(
        None,
        gt=0,
        le=50000,
        examples=[40.0],
        description="mass that a wheel lifts over a joint with no spring between; absent = its "
        "share of the loaded wagon, and where that is sprung a third of its share of the empty one",
        json_schema_extra={"takes": "a number"},
    )
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
