"""The wheel as numbers: every dimension a wheel is made from, and what must hold between them.

Axes: wheel axis = Z; z = 0 at the field edge of the tread, z = tread width at the gauge edge,
where the flange roots; +Z points to the middle of the track. Lengths mm, angles degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from parts.faults import Fault
from parts.spec_model import Rule, Spec
from parts.steel import STEELS, Steel


def _taper_half_angle(taper_1_in: float) -> float:
    return math.atan(1 / taper_1_in) if taper_1_in else 0.0


def _bore_radius(v: Any, z_mm: float) -> float:
    """Inside radius of the tread ring at z; from pipe the bore stays cylindrical."""
    if v.tread_from == "pipe":
        return float(v.tread_diameter_mm / 2 - v.tread_thickness_mm)
    half = _taper_half_angle(v.tread_taper_1_in)
    outside = v.tread_diameter_mm / 2 - (v.tread_width_mm - z_mm) * math.tan(half)
    return float(outside - v.tread_thickness_mm / math.cos(half))


def _hub_hole(v: Any) -> float:
    """Diameter of the hole in the discs: the tube's with clearance, or the bore itself."""
    if v.hub_tube_length_mm == 0:
        return float(v.hub_bore_mm)
    return float(v.hub_tube_outside_mm + 2 * v.fit_clearance_mm)


def _least_disc(v: Any) -> float:
    return float(2 * (_bore_radius(v, v.disc_field_inset_mm) - v.fit_clearance_mm))


def _wall(v: Any) -> Iterator[Fault]:
    field_radius = v.tread_diameter_mm / 2 - (
        v.tread_width_mm / v.tread_taper_1_in if v.tread_taper_1_in else 0
    )
    most = 0.4 * field_radius  # thicker is a turned blank, not a rolled ring with discs inside
    if not v.tread_thickness_mm < most:
        yield Fault(
            "tread_thickness_mm",
            v.tread_thickness_mm,
            f"below {most:.4g} mm, 0.4 of the least tread radius, so that discs go inside",
            "a thinner wall or a larger tread_diameter_mm",
        )


def _taper(v: Any) -> Iterator[Fault]:
    if v.tread_taper_1_in and v.tread_taper_1_in < 5:
        yield Fault(
            "tread_taper_1_in",
            v.tread_taper_1_in,
            "0 (cylindrical) or from 5 (steep) to 1000",
            "20, the usual tread slope of 1 in 20, or 0",
        )
    elif v.tread_taper_1_in and v.tread_from == "bar":
        yield Fault(
            "tread_taper_1_in",
            v.tread_taper_1_in,
            '0 with tread_from = "bar": a straight bar does not roll to a cone',
            'tread_from = "sheet" (the blank is cut as an arc), or tread_taper_1_in = 0',
        )
    elif v.tread_taper_1_in and v.tread_from == "pipe":
        loss = v.tread_width_mm / v.tread_taper_1_in
        if not loss <= v.tread_thickness_mm / 2:
            yield Fault(
                "tread_taper_1_in",
                v.tread_taper_1_in,
                "a taper turned on the pipe that leaves half the wall: at least "
                f"{2 * v.tread_width_mm / v.tread_thickness_mm:.4g}",
                "a slighter taper or a thicker pipe",
            )


def _discs(v: Any) -> Iterator[Fault]:
    taken = v.disc_field_inset_mm + v.disc_gauge_inset_mm + 2 * v.disc_thickness_mm
    if not taken < v.tread_width_mm:
        yield Fault(
            "disc_field_inset_mm + disc_gauge_inset_mm",
            v.disc_field_inset_mm + v.disc_gauge_inset_mm,
            f"below {v.tread_width_mm - 2 * v.disc_thickness_mm:.4g} mm, "
            "so that the two discs do not collide in the ring",
            "smaller insets, thinner discs or a larger tread_width_mm",
        )


def _hub(v: Any) -> Iterator[Fault]:
    if v.hub_tube_length_mm == 0:
        return
    if not v.hub_tube_outside_mm > v.hub_bore_mm:
        yield Fault(
            "hub_tube_outside_mm",
            v.hub_tube_outside_mm,
            f"above hub_bore_mm, {v.hub_bore_mm:g} mm",
            "a larger tube or a smaller bore (or hub_tube_length_mm = 0 for no tube)",
        )
    span = v.tread_width_mm - v.disc_field_inset_mm - v.disc_gauge_inset_mm
    if not v.hub_tube_length_mm >= span:
        yield Fault(
            "hub_tube_length_mm",
            v.hub_tube_length_mm,
            f"at least {span:.4g} mm, through both discs (0 for no tube)",
            f"hub_tube_length_mm = {math.ceil(span + 4 * v.weld_throat_mm)}, room for the welds",
        )


def _hub_in_ring(v: Any) -> Iterator[Fault]:
    hole, disc = _hub_hole(v), _least_disc(v)
    if not hole < disc:
        key = "hub_bore_mm" if v.hub_tube_length_mm == 0 else "hub_tube_outside_mm"
        yield Fault(
            key,
            getattr(v, key),
            f"a hub hole below the disc's {disc:.4g} mm",
            "a smaller hub or a larger wheel",
        )


def _vents(v: Any) -> Iterator[Fault]:
    if v.vent_count == 0:
        return
    hole, disc = _hub_hole(v), _least_disc(v)
    circle, vent = v.vent_circle_mm, v.vent_diameter_mm
    if not (vent > 0 and hole < circle - vent and circle + vent < disc):
        cut = "the hub hole" if circle - vent <= hole else "the disc's rim"
        yield Fault(
            "vent_circle_mm",
            circle,
            f"above {hole + vent:.4g} and below {disc - vent:.4g} mm: it cuts {cut}; "
            f"vents of {vent:g} mm lie between the hub hole {hole:.4g} and the disc {disc:.4g} mm",
            f"vent_circle_mm = {math.floor(disc - vent - 10):g}, near the ring wall",
        )
    elif v.vent_count > 1 and not circle * math.sin(math.pi / v.vent_count) > vent:
        yield Fault(
            "vent_count",
            v.vent_count,
            f"so few that {vent:g} mm holes on a {circle:g} mm circle do not meet",
            "fewer or smaller vents",
        )


def _seams(v: Any) -> Iterator[Fault]:
    flange_turn = 2 * math.pi * (v.tread_diameter_mm / 2) / v.flange_segments
    if not v.seam_gap_mm < flange_turn / 4:
        yield Fault(
            "seam_gap_mm",
            v.seam_gap_mm,
            f"below {flange_turn / 4:.4g} mm, a quarter of a flange segment",
            "1 to 3 mm, or fewer flange_segments",
        )


def _flange_in_ring(v: Any) -> Iterator[Fault]:
    angle = math.radians(v.flange_angle_deg)
    if not v.flange_thickness_mm * math.cos(angle) < v.tread_diameter_mm / 4:
        yield Fault(
            "flange_thickness_mm",
            v.flange_thickness_mm,
            "a plate that leaves the wheel open inside the flange root",
            "a thinner flange or a larger flange_angle_deg",
        )
    if _taper_half_angle(v.tread_taper_1_in) >= angle:
        yield Fault(
            "flange_angle_deg", v.flange_angle_deg, "more than the tread's own slope", "60 to 75"
        )


class WheelSpec(Spec):
    """Every dimension of a fabricated wheel. Raises: SpecError naming every fault."""

    rules: ClassVar[tuple[Rule, ...]] = (
        _wall,
        _taper,
        _discs,
        _hub,
        _hub_in_ring,
        _vents,
        _seams,
        _flange_in_ring,
    )

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
    flange_thickness_mm: float = Field(ge=1, le=40, examples=[6.0], description="flange plate")
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
        description="holes in EACH disc (default 2, opposite: the least for a zinc bath)",
    )
    vent_diameter_mm: float = Field(
        16.0, ge=0, le=200, description="each vent hole (default: 2 holes for an 80 mm section)"
    )
    vent_circle_mm: float = Field(
        ge=0,
        le=2000,
        examples=[250.0],
        description="diameter of the circle through the vent centres; near the ring wall",
    )
    fit_clearance_mm: float = Field(
        0.5,
        ge=0,
        le=5,
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
        gt=0,
        le=20,
        description="throat of the fillets at discs and tube (default: least of EN 1993-1-8, "
        "4.5.2)",
    )
    root_weld_mm: float = Field(
        5.0, gt=0, le=40, description="leg of the bead in the V groove between ring and flange"
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
        return _taper_half_angle(self.tread_taper_1_in)

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
        return _hub_hole(self)

    def outside_radius_mm(self, z_mm: float) -> float:
        """Tread radius at z; falls towards the field edge by 1 in `tread_taper_1_in`."""
        return self.tread_radius_mm - (self.tread_width_mm - z_mm) * math.tan(self.taper_half_angle)

    def bore_radius_mm(self, z_mm: float) -> float:
        """Inside radius of the tread ring at z."""
        return _bore_radius(self, z_mm)
