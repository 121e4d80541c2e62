"""The axle as numbers: how two wheels sit on it and what carries it, as the job file says it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec
from platewheel.parts.setting.tolerance import Tolerance, tolerance_faults

BearingKind = Literal["deep-groove", "insert", "bush"]
BushMaterial = Literal["bronze", "iron", "polymer", "hardwood"]
AxleSteel = Literal["S235", "S275", "S355", "C45"]
Retention = Literal["weld", "key", "screws", "press", "collar"]


def _bearing(v: Any) -> Iterator[Fault]:
    if v.wheels_on_axle == "loose" and v.bearing == "insert":
        yield Fault(
            "bearing",
            v.bearing,
            '"bush" | "deep-groove" in loose wheels: an insert\'s round outside needs its own '
            "housing and does not go in a hub tube",
            'bearing = "bush"',
        )


def _retention(v: Any) -> Iterator[Fault]:
    if v.retention is None:
        return
    loose = v.wheels_on_axle == "loose"
    if loose and v.retention != "collar":
        yield Fault("retention", v.retention, '"collar" for loose wheels', 'retention = "collar"')
    if not loose and v.retention == "collar":
        yield Fault(
            "retention",
            v.retention,
            '"weld" | "key" | "screws" | "press" for fixed wheels; a collar turns nothing',
            'retention = "key"',
        )


def _welded(v: Any) -> Iterator[Fault]:
    if v.retention == "weld" and v.steel == "C45":
        yield Fault(
            "steel",
            v.steel,
            '"S235" | "S275" | "S355" under welded wheels: C45 hardens and cracks beside a weld',
            'steel = "S355", or retention = "key"',
        )


def _apart(v: Any) -> Iterator[Fault]:
    pair = v.back_to_back_tolerance_mm
    if pair is not None:
        yield from tolerance_faults("back_to_back_tolerance_mm", pair, 20.0, (-1.0, 1.0))


def _name(v: Any) -> Iterator[Fault]:
    if v.bearing_name and v.bearing == "bush":
        yield Fault("bearing_name", v.bearing_name, "nothing with bushes", "remove it")


class AxleSpec(Spec):
    """How two wheels sit on an axle, and what carries it."""

    rules: ClassVar[tuple[Rule, ...]] = (_bearing, _retention, _welded, _name, _apart)

    back_to_back_mm: float | None = Field(
        None,
        gt=0,
        le=2000,
        examples=[425.0],
        description="between the inner faces of the two flanges, at their nearest; absent = set "
        "for the play that published standards have at your gauge (8 mm at 457), or more where "
        "the tolerances need it",
        json_schema_extra={"takes": "a number"},
    )
    back_to_back_tolerance_mm: Tolerance | None = Field(
        None,
        examples=[[-1.0, 1.0]],
        description="how much less and more your wheels may be apart once welded, measured all "
        "round; absent = 1 mm either way (common practice, no source), half of it below 300 mm of "
        "gauge (IBLS wheel standard, 7 1/4 in)",
        json_schema_extra={"takes": "two numbers, least and most, such as [-1, 1],"},
    )
    wheels_on_axle: Literal["fixed", "loose"] = Field(
        "fixed", description="fixed wheels turn with the axle, loose ones turn on it"
    )
    frames: Literal["inside", "outside"] = Field(
        "outside",
        description="frame between the wheels or outside them (default: outside, the wider stand "
        "and the bearings in reach)",
    )
    bearing: BearingKind | None = Field(
        None,
        examples=["insert"],
        description="in frame or hub; absent = insert bearings (pillow blocks on bright bar) on a "
        "turning axle, bushes in loose wheels; both common practice, no source",
        json_schema_extra={"takes": '"deep-groove" | "insert" | "bush"'},
    )
    bearing_name: str | None = Field(
        None,
        min_length=3,
        max_length=20,
        examples=["UC207"],
        description="size of the bearing table; absent = the lightest series that fits",
        json_schema_extra={"takes": "text, a name such as 6205 or UC205"},
    )
    diameter_mm: float | None = Field(
        None,
        ge=10,
        le=120,
        examples=[35.0],
        description="axle in the hubs; absent = the hub bore when wheels are fixed, the bore of "
        "the bearing or bush in it when they are loose",
        json_schema_extra={"takes": "a number"},
    )
    journal_diameter_mm: float | None = Field(
        None,
        ge=10,
        le=120,
        examples=[35.0],
        description="axle in the frame's bearings or supports; absent = the largest bearing bore "
        "that goes on: not above diameter_mm with outside frames, not below it with inside ones",
        json_schema_extra={"takes": "a number"},
    )
    body_diameter_mm: float | None = Field(
        None,
        ge=10,
        le=150,
        examples=[35.0],
        description="axle between the wheels; absent = as the thicker neighbour, least turning",
        json_schema_extra={"takes": "a number"},
    )
    bearing_centres_mm: float | None = Field(
        None,
        ge=50,
        le=4000,
        examples=[660.0],
        description="between the two frame bearings, or the frame's grips on a dead axle; absent "
        "= 15 mm running room at each hub (common practice, no source)",
        json_schema_extra={"takes": "a number"},
    )
    bush_material: BushMaterial = Field(
        "bronze", description="of plain bushes (default: the bush that can be bought)"
    )
    bush_length_mm: float | None = Field(
        None,
        ge=5,
        le=400,
        examples=[50.0],
        description="of each bush; absent = 1.5 x bore in a frame (common practice, no source), "
        "the hub's whole length in a loose wheel",
        json_schema_extra={"takes": "a number"},
    )
    bush_wall_mm: float | None = Field(
        None,
        ge=1,
        le=40,
        examples=[5.0],
        description="of each bush; absent = 5 (common practice, no source), or what diameter_mm "
        "leaves in a loose wheel's hub",
        json_schema_extra={"takes": "a number"},
    )
    steel: AxleSteel = Field(
        "S355", description="of the axle (default: bright bar of S355, welds without preheat)"
    )
    shoulder_fillet_mm: float | None = Field(
        None,
        ge=0.2,
        le=20,
        examples=[2.0],
        description="radius in the shoulders' corners; absent = 2 (a lathe tool's large nose, "
        "common practice, no source), or the height of a lower shoulder",
        json_schema_extra={"takes": "a number"},
    )
    retention: Retention | None = Field(
        None,
        examples=["key"],
        description="what holds a wheel; absent = key when fixed (drives by shape, the screw over "
        "it holds sideways, the wheel comes off again), collar when loose; common practice",
        json_schema_extra={"takes": '"weld" | "key" | "screws" | "press" | "collar"'},
    )

    @property
    def turning(self) -> bool:
        """Whether the axle turns with its wheels."""
        return self.wheels_on_axle == "fixed"

    @property
    def bearing_kind(self) -> BearingKind:
        """Kind of bearing, given or usual."""
        return self.bearing or ("insert" if self.turning else "bush")

    @property
    def held_by(self) -> Retention:
        """What holds a wheel on the axle, given or usual."""
        return self.retention or ("key" if self.turning else "collar")
