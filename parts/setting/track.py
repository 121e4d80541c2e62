"""The track as numbers: what the wheel must run on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec
from platewheel.parts.setting.tolerance import Tolerance, tolerance_faults

TrackKind = Literal["permanent", "temporary", "miniature"]
SMALL_GAUGE_MM = 300.0  # below it track is laid as model and miniature railways lay theirs
# kind -> least and most gauge beside the nominal: mm, and as a share of the gauge
GAUGE_TOLERANCES: dict[str, tuple[float, float]] = {
    # rules of coal mines of 600 mm gauge, main and temporary track (2 and 5 less, 5 and 10 more),
    # second-hand; KBO 1912, paragraph 9, has 3 less and 10 more where it is worn
    "permanent": (-2.0, 5.0),
    "temporary": (-5.0, 10.0),
    # NMRA S-3.2: 88.9 to 91.6 and 120.7 to 124.7; NEM 110G (2013): 184 to 190, 260 to 268
    "miniature": (0.0, 0.03),
}


def _head(v: Any) -> Iterator[Fault]:
    if v.rail_corner_radius_mm and not v.rail_corner_radius_mm <= v.rail_head_width_mm / 2:
        yield Fault(
            "rail_corner_radius_mm",
            v.rail_corner_radius_mm,
            f"at most half the rail head, {v.rail_head_width_mm / 2:g} mm",
            "measure the rounding of the rail head's corner",
        )


def _gauge(v: Any) -> Iterator[Fault]:
    if v.gauge_tolerance_mm is not None:
        tenth = 0.1 * v.gauge_mm
        yield from tolerance_faults("gauge_tolerance_mm", v.gauge_tolerance_mm, tenth, (-2.0, 5.0))


def _check_rail(v: Any) -> Iterator[Fault]:
    for key in ("flangeway_mm", "check_rail_flangeway_mm", "switch_opening_mm", "heel_gap_mm"):
        gap = getattr(v, key)
        if gap is not None and 2 * gap >= v.gauge_mm:
            yield Fault(
                key,
                gap,
                f"below half the gauge, {v.gauge_mm / 2:g} mm: two of them lie in it",
                "measure from the running rail to the face across",
            )


class TrackSpec(Spec):
    """The track that the wheel runs on."""

    rules: ClassVar[tuple[Rule, ...]] = (_head, _gauge, _check_rail)

    gauge_mm: float = Field(
        ge=100, le=2000, examples=[457.0], description="between the rail heads, inside"
    )
    kind: TrackKind | None = Field(
        None,
        examples=["permanent"],
        description="laid to stay, moved about, or a miniature line laid in jigs, by which its "
        "tolerance goes; absent = miniature below 300 mm of gauge, else permanent",
        json_schema_extra={"takes": '"permanent" | "temporary" | "miniature"'},
    )
    gauge_tolerance_mm: Tolerance | None = Field(
        None,
        examples=[[-2.0, 5.0]],
        description="how much less and more than the gauge your track has at its worst, widening "
        "left out; absent = by kind: -2 and 5 permanent, -5 and 10 temporary (rules of coal mines "
        "of 600 mm gauge), 0 and 3 % of the gauge miniature (NMRA S-3.2, NEM 110G)",
        json_schema_extra={"takes": "two numbers, least and most, such as [-2, 5],"},
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
    flangeway_mm: float | None = Field(
        None,
        ge=5,
        le=100,
        examples=[24.0],
        description="gap for the flange beside the nose of a crossing, and at check rails where "
        "they have no key of their own; absent = what published standards have at your gauge (24 "
        "at 457), or what the flange and the backs of the wheels need where that is more",
        json_schema_extra={"takes": "a number"},
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
    nose_mm: float = Field(
        5.0,
        ge=0,
        le=40,
        description="width of the blunt nose of a crossing, at its top (default: filed, not "
        "sharp; common practice, no source)",
    )
    crossing_1_in: float | None = Field(
        None,
        ge=1,
        le=50,
        examples=[5.0],
        description="slope of the crossing's rails to each other; absent = not known, the length "
        "of its gap is not told",
        json_schema_extra={"takes": "a number"},
    )
    switch_opening_mm: float | None = Field(
        None,
        ge=5,
        le=200,
        examples=[45.0],
        description="open tongue to its stock rail, at the toe; absent = no points told of",
        json_schema_extra={"takes": "a number"},
    )
    heel_gap_mm: float | None = Field(
        None,
        ge=5,
        le=200,
        examples=[45.0],
        description="tongue to its stock rail at the heel, where it turns; absent = no points "
        "told of",
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

    @property
    def kind_or_usual(self) -> TrackKind:
        """Kind of track, given or by its gauge."""
        return self.kind or ("miniature" if self.gauge_mm < SMALL_GAUGE_MM else "permanent")

    @property
    def gauge_off_mm(self) -> tuple[float, float]:
        """Least and most gauge, less the nominal one: given, or by the kind of track."""
        if self.gauge_tolerance_mm is not None:
            return self.gauge_tolerance_mm
        less, more = GAUGE_TOLERANCES[self.kind_or_usual]
        if self.kind_or_usual == "miniature":
            more = math.ceil(2 * more * self.gauge_mm) / 2
        return less, more

    @property
    def least_gauge_mm(self) -> float:
        """At its tightest, on the straight."""
        return self.gauge_mm + self.gauge_off_mm[0]

    @property
    def most_gauge_mm(self) -> float:
        """At its widest in the tightest curve, widening and tolerance together."""
        return self.gauge_mm + self.gauge_widening_mm + self.gauge_off_mm[1]
