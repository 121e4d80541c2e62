"""What must hold between a wheel's dimensions: each rule tells why a wheel cannot be made."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Unknown

LEAST_CLEARANCE_MM = 0.01  # the finest that a micrometer tells; common practice, no source


def taper_half_angle(taper_1_in: float) -> float:
    """Slope of a taper of 1 in this many to the axle axis, radians; 0 for a cylinder."""
    return math.atan(1 / taper_1_in) if taper_1_in else 0.0


def bore_radius_mm(v: Any, z_mm: float) -> float:
    """Inside radius of the tread ring at z; from pipe the bore stays cylindrical."""
    if v.tread_from == "pipe":
        return float(v.tread_diameter_mm / 2 - v.tread_thickness_mm)
    half = taper_half_angle(v.tread_taper_1_in)
    outside = v.tread_diameter_mm / 2 - (v.tread_width_mm - z_mm) * math.tan(half)
    return float(outside - v.tread_thickness_mm / math.cos(half))


def hub_hole_mm(v: Any) -> float:
    """Diameter of the hole in the discs: the tube's with clearance, or the bore itself."""
    if v.hub_tube_length_mm == 0:
        return float(v.hub_bore_mm)
    return float(v.hub_tube_outside_mm + 2 * v.fit_clearance_mm)


def _least_disc(v: Any) -> float:
    return float(2 * (bore_radius_mm(v, v.disc_field_inset_mm) - v.fit_clearance_mm))


def _slope(v: Any) -> float:
    """The taper, where it is one that can be made: other rules do not judge by a refused one."""
    taper = v.tread_taper_1_in
    if taper and taper < 5:
        raise Unknown("tread_taper_1_in")
    return float(taper)


def _weld_room(v: Any) -> Iterator[Fault]:
    """The fillets at ring and hub must lie clear of each other, of tube and hub hole."""
    _slope(v)
    if not hub_hole_mm(v) < _least_disc(v):
        return  # told by _hub_in_ring
    leg = v.weld_throat_mm * math.sqrt(2) + v.fit_clearance_mm
    ring = bore_radius_mm(v, v.disc_field_inset_mm) - leg
    tube = v.hub_tube_length_mm > 0
    hub = v.hub_tube_outside_mm / 2 + leg if tube else v.hub_bore_mm / 2
    if not hub < ring:
        yield Fault(
            "weld_throat_mm",
            v.weld_throat_mm,
            "fillets that leave the disc open between hub and ring; they take "
            f"{2 * leg if tube else leg:.4g} mm of it",
            "a smaller weld_throat_mm, a smaller hub or a larger wheel",
        )


def _hub_in_flange(v: Any) -> Iterator[Fault]:
    """What stands out of the ring's gauge edge must pass inside ring end, root bead and flange."""
    if v.hub_tube_length_mm == 0:
        return
    half = taper_half_angle(_slope(v))
    inwards = max(
        v.flange_thickness_mm * math.cos(math.radians(v.flange_angle_deg)),
        v.tread_thickness_mm / math.cos(half),
    )
    leg = v.weld_throat_mm * math.sqrt(2) + v.fit_clearance_mm
    inside = v.tread_diameter_mm / 2 - inwards
    if not v.hub_tube_outside_mm / 2 + leg < inside:
        yield Fault(
            "hub_tube_outside_mm",
            v.hub_tube_outside_mm,
            f"below {2 * (inside - leg):.4g} mm, inside the flange's root with its weld",
            "a smaller tube, a thinner flange or a larger flange_angle_deg",
        )


def _wall(v: Any) -> Iterator[Fault]:
    _slope(v)
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
    _slope(v)
    hole, disc = hub_hole_mm(v), _least_disc(v)
    if not hole < disc:
        key = "hub_bore_mm" if v.hub_tube_length_mm == 0 else "hub_tube_outside_mm"
        yield Fault(
            key,
            getattr(v, key),
            f"a hub hole below the disc's {disc:.4g} mm",
            "a smaller hub or a larger wheel",
        )


def _vents_without_circle(v: Any) -> Iterator[Fault]:
    if v.vent_count and not v.vent_circle_mm:
        yield Fault(
            "vent_circle_mm",
            None,
            "above 0 mm with vents",
            "vent_circle_mm = 250, or what brings them near the ring wall; or vent_count = 0 for "
            "none",
        )


def _vents(v: Any) -> Iterator[Fault]:
    _slope(v)
    if v.vent_count == 0 or not v.vent_circle_mm:
        return
    hole, disc = hub_hole_mm(v), _least_disc(v)
    circle, vent = v.vent_circle_mm, v.vent_diameter_mm
    if not vent > 0:
        yield Fault(
            "vent_diameter_mm", vent, "above 0 mm with vents", "16, or vent_count = 0 for none"
        )
        return
    if disc - hole <= 2 * vent:
        most = (disc - hole) / 2
        yield Fault(
            "vent_diameter_mm",
            vent,
            f"below {most:.4g} mm, half of what lies between the hub hole {hole:.4g} and the disc "
            f"{disc:.4g} mm",
            "smaller vents, a thinner hub, or a larger wheel",
        )
    elif not (hole < circle - vent and circle + vent < disc):
        cut = "the hub hole" if circle - vent <= hole else "the disc's rim"
        yield Fault(
            "vent_circle_mm",
            circle,
            f"above {hole + vent:.4g} and below {disc - vent:.4g} mm: it cuts {cut}; "
            f"vents of {vent:g} mm lie between the hub hole {hole:.4g} and the disc {disc:.4g} mm",
            f"vent_circle_mm = {_near_wall_mm(v, hole, disc):g}, near the ring wall",
        )
    elif v.vent_count > 1 and not circle * math.sin(math.pi / v.vent_count) > vent:
        yield Fault(
            "vent_count",
            v.vent_count,
            f"so few that {vent:g} mm holes on a {circle:g} mm circle do not meet",
            "fewer or smaller vents",
        )


def _near_wall_mm(v: Any, hole_mm: float, disc_mm: float) -> float:
    """Circle of vents near the ring wall that leaves a web to cut and beads to run clear, 1.5 of
    the plate where 10 mm to the wall leave it so much; else midway between hub hole and rim."""
    thick = v.disc_thickness_mm
    web = max(thick, v.weld_throat_mm * math.sqrt(2), min(1.5 * thick, 9.5 - v.fit_clearance_mm))
    most, least = disc_mm - v.vent_diameter_mm, hole_mm + v.vent_diameter_mm
    circle = float(math.floor(2 * (most - 2 * web)) / 2)
    return circle if circle > least + 2 * web else float(math.floor(5 * (least + most)) / 10)


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
    _slope(v)
    angle = math.radians(v.flange_angle_deg)
    if not v.flange_thickness_mm * math.cos(angle) < v.tread_diameter_mm / 4:
        yield Fault(
            "flange_thickness_mm",
            v.flange_thickness_mm,
            "a plate that leaves the wheel open inside the flange root",
            "a thinner flange or a larger flange_angle_deg",
        )
    if taper_half_angle(v.tread_taper_1_in) >= angle:
        yield Fault(
            "flange_angle_deg", v.flange_angle_deg, "more than the tread's own slope", "60 to 75"
        )


def _clearance(v: Any) -> Iterator[Fault]:
    """Between a press fit and what can be measured there is nothing to make."""
    if 0 < v.fit_clearance_mm < LEAST_CLEARANCE_MM:
        yield Fault(
            "fit_clearance_mm",
            v.fit_clearance_mm,
            f"0, edges touching, or {LEAST_CLEARANCE_MM:g} mm and more",
            "fit_clearance_mm = 0.5",
        )


WHEEL_RULES: tuple[Rule, ...] = (
    _wall,
    _taper,
    _discs,
    _hub,
    _hub_in_ring,
    _vents_without_circle,
    _vents,
    _seams,
    _flange_in_ring,
    _weld_room,
    _hub_in_flange,
    _clearance,
)
