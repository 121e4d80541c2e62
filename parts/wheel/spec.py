"""The wheel as numbers: every dimension a wheel is made from, and what must hold between them.

Axes: wheel axis = Z; z = 0 at the field edge of the tread, z = tread width at the gauge edge,
where the flange roots; +Z points to the middle of the track. Lengths mm, angles degrees.
"""

from __future__ import annotations

import math
from typing import ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.spec_model import Rule, Spec
from platewheel.parts.base.steel import STEELS, Steel
from platewheel.parts.wheel.rules import WHEEL_RULES, bore_radius_mm, hub_hole_mm, taper_half_angle
from platewheel.parts.wheel.weld_rules import WELD_RULES


class WheelSpec(Spec):
    """Every dimension of a fabricated wheel, mm and degrees. Raises: SpecError naming every fault.

    >>> WheelSpec(**spec.model_dump() | {"tread_diameter_mm": 20.0})
    Traceback (most recent call last):
    platewheel.parts.base.faults.SpecError: tread_diameter_mm: found 20.0; allowed: ...
    """

    rules: ClassVar[tuple[Rule, ...]] = (*WHEEL_RULES, *WELD_RULES)

    tread_diameter_mm: float = Field(
        ge=60, le=2000, examples=[300.0], description="over the tread, at the gauge edge"
    )
    tread_width_mm: float = Field(
        ge=10, le=400, examples=[60.0], description="along the axle, without the flange"
    )
    tread_thickness_mm: float = Field(
        ge=1, le=50, examples=[8.0], description="wall of the tread ring; what wears"
    )
    tread_from: Literal["sheet", "bar", "pipe"] = Field(
        "sheet",
        description="rolled from a cut strip, rolled from bought flat bar, or cut off a pipe "
        "(then tread_diameter_mm and tread_thickness_mm are the pipe's)",
    )
    tread_taper_1_in: float = Field(
        0.0,
        ge=0,
        le=1000,
        description="tread slope, 1 in this many, smaller at the field edge; 0 = cylindrical "
        "(default: a rolled strip is cylindrical)",
    )
    flange_depth_mm: float = Field(
        ge=2, le=100, examples=[15.0], description="radial, from tread to flange tip"
    )
    flange_angle_deg: float = Field(
        ge=45,
        le=90,
        examples=[70.0],
        description="flange face to axle axis; 90 is a flat washer, smaller is more flare",
    )
    flange_thickness_mm: float = Field(ge=1, le=40, examples=[8.0], description="flange plate")
    flange_segments: int = Field(
        1,
        ge=1,
        le=12,
        examples=[3],
        description="equal pieces a flange is cut in (default 1: least welding; more nest better)",
    )
    disc_thickness_mm: float = Field(ge=1, le=40, examples=[6.0], description="each hub disc")
    disc_field_inset_mm: float = Field(
        8.0, ge=0, le=300, description="field edge to outer face of the field disc (room to weld)"
    )
    disc_gauge_inset_mm: float = Field(
        8.0, ge=0, le=300, description="gauge edge to outer face of the gauge disc (room to weld)"
    )
    hub_bore_mm: float = Field(
        gt=0, le=500, examples=[35.0], description="hole for the axle or bearing"
    )
    hub_tube_outside_mm: float = Field(
        0.0, ge=0, le=600, examples=[57.0], description="hub tube over both discs; 0 with no tube"
    )
    hub_tube_length_mm: float = Field(
        0.0,
        ge=0,
        le=600,
        examples=[70.0],
        description="tube centred on the pair of discs, through both; 0 = no tube",
    )
    vent_count: int = Field(
        2,
        ge=0,
        le=24,
        examples=[4],
        description="holes in EACH disc (default 2, opposite: the least for a zinc bath)",
    )
    vent_diameter_mm: float = Field(
        16.0, ge=0, le=200, description="each vent hole (default: 2 holes for an 80 mm section)"
    )
    vent_circle_mm: float = Field(
        0.0,
        ge=0,
        le=2000,
        examples=[250.0],
        description="diameter of the circle through the vent centres; near the ring wall; asked "
        "for where there are vents (0 = none)",
    )
    fit_clearance_mm: float = Field(
        0.5,
        ge=0,
        le=5,
        examples=[0.8],
        description="gap on the radius, disc to ring and disc to tube (default: plasma-cut edge, "
        "common practice, no source)",
    )
    seam_gap_mm: float = Field(
        2.0,
        ge=0,
        le=10,
        description="root gap of butt seams in ring and flange (default for hand welding, "
        "common practice, no source)",
    )
    weld_throat_mm: float = Field(
        3.0,
        ge=0.5,
        le=20,
        examples=[4.0],
        description="throat of the fillets at discs and tube (default: least of EN 1993-1-8, "
        "4.5.2)",
    )
    root_weld_mm: float = Field(
        5.0,
        ge=0.5,
        le=40,
        examples=[8.0],
        description="leg of the bead in the V groove between ring and flange (default: most of "
        "a 6 mm plate)",
    )
    root_backed: bool = Field(
        False,
        description="that bead's root ground out from the tread side, welded again and dressed "
        "flush, so that nothing opens there (default: one run less)",
    )
    first_disc_both_sides: bool = Field(
        False,
        description="the gauge disc set first and its rim and tube beads laid inside too, before "
        "the field disc closes the box (default: all beads from outside)",
    )
    seam: Literal["as-welded", "dressed"] = Field(
        "as-welded",
        description="butt seams of ring and flange welded from both faces, or also ground flush "
        "on both, along the ring (default: less grinding, and the lower class)",
    )
    steel: Literal["S235", "S275", "S355"] = Field(
        "S235", description="grade of EN 10025-2 (default: the weakest, so never too hopeful)"
    )

    @property
    def tread_radius_mm(self) -> float:
        """Tread radius at the gauge edge."""
        return self.tread_diameter_mm / 2

    @property
    def over_flange_diameter_mm(self) -> float:
        """Diameter over the flange's rail-side tip."""
        return self.tread_diameter_mm + 2 * self.flange_depth_mm

    @property
    def taper_half_angle(self) -> float:
        """Slope of the tread to the axle axis, radians; 0 for a cylinder."""
        return taper_half_angle(self.tread_taper_1_in)

    @property
    def flange_angle(self) -> float:
        """Flange angle in radians."""
        return math.radians(self.flange_angle_deg)

    @property
    def has_tube(self) -> bool:
        """Whether a hub tube is fitted."""
        return self.hub_tube_length_mm > 0

    @property
    def grade(self) -> Steel:
        """Strength of the steel named."""
        return STEELS[self.steel]

    @property
    def weld_leg_mm(self) -> float:
        """Leg of an equal-leg fillet of the throat given: throat = leg / sqrt 2."""
        return self.weld_throat_mm * math.sqrt(2)

    @property
    def hub_hole_diameter_mm(self) -> float:
        """Hole in each disc: tube plus clearance, or the bore where there is no tube."""
        return hub_hole_mm(self)

    def outside_radius_mm(self, z_mm: float) -> float:
        """Tread radius at z; falls towards the field edge by 1 in `tread_taper_1_in`."""
        return self.tread_radius_mm - (self.tread_width_mm - z_mm) * math.tan(self.taper_half_angle)

    def bore_radius_mm(self, z_mm: float) -> float:
        """Inside radius of the tread ring at z."""
        return bore_radius_mm(self, z_mm)
